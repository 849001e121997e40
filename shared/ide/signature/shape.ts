/** Signatures as an editor shows them: one line of text, with the columns of its parameters. */

export interface SignatureHelp {
  readonly signatures: readonly Signature[];
  /** The index of the signature that is being written. */
  readonly active: number;
  /** The index of its parameter at the cursor. */
  readonly parameter: number;
}

export interface Signature {
  readonly label: string;
  readonly markdown: string;
  readonly parameters: readonly SignaturePart[];
}

export interface SignaturePart {
  /** Its columns in the label; the end is exclusive. */
  readonly start: number;
  readonly end: number;
  readonly markdown: string;
}

/** A parameter, before it has columns. */
export interface Slot {
  readonly text: string;
  readonly markdown: string;
}

export interface Shape {
  /** The text before the first parameter. */
  readonly start: string;
  readonly slots: readonly Slot[];
  /** The separator of two parameters; two blanks by default. */
  readonly between?: string;
  readonly markdown: string;
}

/** Shapes as signatures; `parameter` is limited to those that the active signature has. */
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
