/** Signatures as an editor shows them: one line, with the columns of its parts. */

export interface SignatureHelp {
  readonly signatures: readonly Signature[];
  /** Which of them is being written. */
  readonly active: number;
  /** The part of it that stands at the cursor. */
  readonly parameter: number;
}

export interface Signature {
  readonly label: string;
  readonly markdown: string;
  readonly parameters: readonly SignaturePart[];
}

export interface SignaturePart {
  /** Where it stands in the label; the end is exclusive. */
  readonly start: number;
  readonly end: number;
  readonly markdown: string;
}

/** One part, before it has a place. */
export interface Slot {
  readonly text: string;
  readonly markdown: string;
}

export interface Shape {
  /** What stands before the first part. */
  readonly start: string;
  readonly slots: readonly Slot[];
  /** What stands between two parts; two blanks where nothing else does. */
  readonly between?: string;
  readonly markdown: string;
}

/** Shapes as signatures; `parameter` is held to the parts that the active one has. */
export function signatureHelp(shapes: readonly Shape[], active: number, parameter: number): SignatureHelp {
  const signatures = shapes.map(({ start, slots, between = "  ", markdown }): Signature => {
    let label = start;
    const parameters = slots.map(({ text, markdown: partMarkdown }, i): SignaturePart => {
      label += i === 0 ? " " : between;
      const part = { start: label.length, end: label.length + text.length, markdown: partMarkdown };
      label += text;
      return part;
    });
    return { label, markdown, parameters };
  });
  const most = (signatures[active]?.parameters.length ?? 1) - 1;
  return { signatures, active, parameter: Math.max(0, Math.min(parameter, most)) };
}
