/** What is written into a shared script goes through here: it is looked at, and what is taken out is listed. */
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { privateInComment } from "../../rules/lib/private-lines.ts";
import { quote } from "../../syntax/scanner.ts";
import { isCommentedOut } from "./loose-notes.ts";
import { mayNamePerson } from "./may-name.ts";
import { type Redacted, type Redactor, redactorOf } from "./redactor.ts";

/** Something that is not in the shared script, or that is in it and may be private. */
export interface Listed {
  /**
   * SECTION.NAME, `handset.name`, `pack/TITLE.NAME` or `verbatim.DIALECT`; `note` for a comment, `name` for that of the
   * craft, `line` for one that was not understood.
   */
  readonly what: string;
  readonly why: string;
  readonly source: Source;
}

export interface Ledger {
  readonly redactor: Redactor;
  readonly taken: readonly Listed[];
  readonly kept: readonly Listed[];
  take(what: string, why: string, source: Source): void;
  keep(what: string, why: string, source: Source): void;
  /** A comment, from its `#`, as it is shared: none where nothing of it is. `section` is that of the entry it is about. */
  note(comment: string, section: string | null, source: Source): string[];
  /** The content of a text in quotes as it is shared, for what has the name `what`. */
  quoted(text: string, what: string, source: Source): Redacted;
}

export function ledgerOf(craft: Craft, { catalogue }: Workspace): Ledger {
  const redactor = redactorOf(craft, catalogue);
  const taken: Listed[] = [];
  const kept: Listed[] = [];
  const ledger: Ledger = {
    redactor,
    taken,
    kept,
    take: (what, why, source) => void taken.push({ what, why, source }),
    keep: (what, why, source) => void kept.push({ what, why, source }),
    note(comment, section, source) {
      const ofSetting = privateInComment(comment, section === null ? undefined : baseOf(section), catalogue);
      if (ofSetting !== null) {
        ledger.take("note", `It is a private setting that was made a comment. ${ofSetting}`, source);
        return [];
      }
      // Above another line it would be read as one that was made a comment.
      if (section !== null && isCommentedOut(comment, section, catalogue)) return [];
      const marks = /^#*/.exec(comment)![0];
      const { text, took } = redactor.note(comment.slice(marks.length));
      for (const like of took) ledger.take("note", `It holds ${like}.`, source);
      if (mayNamePerson(text)) ledger.keep("note", `It may name a person: “${text.trim()}”`, source);
      return [marks + text];
    },
    quoted(text, what, source) {
      const redacted = redactor.quoted(text);
      for (const like of redacted.took) ledger.take(what, `It holds ${like}.`, source);
      return redacted;
    },
  };
  return ledger;
}

/** Every text in quotes of a value, as it is shared. */
export function withoutPrivateTexts(value: string, what: string, source: Source, { quoted }: Ledger): string {
  return value.replace(/"((?:[^"\\]|\\.)*)"/g, (whole, inner: string) => {
    const { text, took } = quoted(inner.replace(/\\(["\\])/g, "$1"), what, source);
    return took.length > 0 ? quote(text) : whole;
  });
}

/** The line of a comment that belongs to one of these lines of a script; the first of them where it is on none. */
export function lineOfComment(script: Script, comment: string, lines: readonly number[]): Source {
  const found = lines
    .flatMap((line) => [...script.noteOf(line).lines, line])
    .find((line) => {
      const { text, comment: at } = script.tree.lines[line] ?? {};
      return text !== undefined && at && text.slice(at.start, at.end).trim() === comment;
    });
  return { file: script.file, line: found ?? lines[0] ?? 0 };
}

/** By file and line, each once. */
export function inOrder(list: readonly Listed[]): Listed[] {
  const seen = new Map(list.map((each) => [`${each.what} ${each.why} ${each.source.line} ${each.source.file}`, each]));
  return [...seen.values()].sort(
    (a, b) =>
      (a.source.file < b.source.file ? -1 : a.source.file > b.source.file ? 1 : 0) || a.source.line - b.source.line,
  );
}
