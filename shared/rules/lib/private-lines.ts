/** What in the lines of a script is private: settings that lead to a person, and texts that look private. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SettingSpec } from "../../catalogue/specs.ts";
import { baseOf } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import type { Cols, Span } from "../../syntax/span.ts";
import type { Line } from "../../syntax/tree.ts";
import { type PrivatePart, privateParts } from "../../text/private-text.ts";

/** With these words, in a comment above its header, a script says that it is meant for others to read. */
export const SHARED_MARK = "Shared with Fettle";

const MARK = /^#\s*shared with fettle\b/i;

/** True for a comment, from its `#`, that marks a script as one to be shared. */
export function isSharedMark(comment: string): boolean {
  return MARK.test(comment);
}

/** The line that marks a script as one to be shared, above its header; null where there is none. */
export function sharedMarkOf({ tree }: Script): number | null {
  const end = tree.header ?? tree.lines.findIndex(({ node }) => node.kind !== "comment" && node.kind !== "blank");
  const until = end < 0 ? tree.lines.length : end;
  for (let line = 0; line < until; line++) {
    const { text, comment } = tree.lines[line]!;
    if (comment && isSharedMark(text.slice(comment.start))) return line;
  }
  return null;
}

/** Why a setting is private; null where it is not. Of a pilot's own settings their names and words tell as well. */
export function whyPrivate(section: string, name: string, catalogue: Catalogue): string | null {
  const spec = catalogue.setting(baseOf(section), name);
  return spec ? (spec.private?.reason ?? whyOwnIsPrivate(spec)) : null;
}

const OWN_PRIVATE =
  /\b(?:secret|password|passphrase|owner|pilot-name|phone|e-?mail|address|latitude|longitude|coordinates?|serial-number|call-?sign|licence-number|registration)\b/;

/** The settings that are shipped have an example; their makers have said which of them are private. */
function whyOwnIsPrivate({ name, types }: SettingSpec): string | null {
  const mayHold = types.some(({ is }) => is === "text" || is === "quantity" || is === "integer");
  return mayHold && OWN_PRIVATE.test(name) ? "By its name it leads to a person or a place, or is a secret." : null;
}

/** An entry with a private value. */
export function privateEntries(
  { entries }: Script,
  catalogue: Catalogue,
): readonly (Entry & { readonly why: string })[] {
  return entries.flatMap((entry) => {
    const why = entry.kind === "setting" ? whyPrivate(entry.section, entry.name, catalogue) : null;
    return why === null ? [] : [{ ...entry, pieces: entry.pieces, why }];
  });
}

/** A private setting that was made a comment, by its line: it still says what it said. */
export function privateInComment(comment: string, section: string | undefined, catalogue: Catalogue): string | null {
  const [, name] = /^#+\s*([a-z][a-z0-9-]*)\s+["“]/.exec(comment) ?? [];
  if (!name) return null;
  const homes = section === undefined ? catalogue.sections.map((each) => each.name) : [section];
  return homes.map((home) => whyPrivate(home, name, catalogue)).find((why) => why !== null) ?? null;
}

/** The columns of the texts in a line: those in quotes, its comment, or a line of board text. */
export function textsIn({ text, node, comment }: Line): readonly Cols[] {
  if (node.kind === "kept") return [{ start: node.bar + 1, end: text.length }];
  if (node.kind === "stray" || node.kind === "conflict") return [{ start: 0, end: text.length }];
  const end = comment?.start ?? text.length;
  const found: Cols[] = [];
  if (node.kind !== "blank") {
    for (const { index, 0: quoted } of text.slice(0, end).matchAll(/"(?:[^"\\]|\\.)*"?/g))
      found.push({
        start: index + 1,
        end: index + Math.max(1, quoted.endsWith('"') ? quoted.length - 1 : quoted.length),
      });
  }
  if (comment) found.push({ start: comment.start + 1, end: text.length });
  return found;
}

/** What looks private in the texts of a script, line by line. */
export function privateTexts({ tree }: Script): readonly (Span & Pick<PrivatePart, "what" | "like">)[] {
  return tree.lines.flatMap((line, at) =>
    // A use names a file of the same workspace: what it says is no text for people.
    (line.node.kind === "use"
      ? textsIn({ ...line, text: line.text.replace(/"[^"#]*"/g, (path) => " ".repeat(path.length)) })
      : textsIn(line)
    ).flatMap(({ start, end }) =>
      privateParts(line.text.slice(start, end)).map(({ what, like, ...part }) => ({
        what,
        like,
        line: at,
        start: start + part.start,
        end: start + part.end,
      })),
    ),
  );
}
