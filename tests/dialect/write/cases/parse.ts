/** Cases of writing: a dialect, a craft, the board's last text, and what is expected of the new one. */
export interface WritingCase {
  readonly title: string;
  readonly dialect: string;
  readonly craft: string;
  /** Null where none is given. */
  readonly base: string | null;
  readonly text: string;
  /** Null where the case does not say. */
  readonly changes: string | null;
  /** What is told: `rounded WHAT: SAID > WRITTEN`, `filled WHAT: VALUE`, and so on; part of the reason suffices. */
  readonly report: readonly string[];
}

/** The cases of a file; `--- NAME` begins a part, and what stands before the first is the dialect. */
export function parseCases(text: string): WritingCase[] {
  return text
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [head, ...parts] = block.split(/^--- /m);
      const [title, ...dialect] = head!.trimEnd().split("\n");
      const part = (name: string): string | null => {
        const found = parts.find((each) => each.startsWith(`${name}\n`));
        return found === undefined ? null : found.slice(name.length + 1).replace(/\n+$/, "\n");
      };
      const board = (name: string): string | null => {
        const found = part(name);
        return found === "\n" ? "" : found;
      };
      return {
        title: title!,
        dialect: `dialect "Kiln"\n\n${dialect.join("\n")}\n`,
        craft: `craft "Jug"\n\nuse "handset.fettle"\n\n${part("craft") ?? ""}`,
        base: board("base"),
        text: board("text")!,
        changes: board("changes"),
        report: (part("report") ?? "").split("\n").filter((line) => line !== ""),
      };
    });
}
