/** Documents of an editor, in memory: edited, taken back and redone in steps, as an editor does it. */
import { TextDocument as Text } from "vscode-languageserver-textdocument";
import { URI } from "vscode-uri";

/** A text put in the place of a range, with positions as the protocol has them. */
export interface Change {
  readonly range: { readonly start: At; readonly end: At };
  readonly text: string;
}

interface At {
  readonly line: number;
  readonly character: number;
}

/** What became of a document, as a client of a language server is told it. */
export type Event =
  | { readonly kind: "opened"; readonly document: MemoryDocument }
  | { readonly kind: "closed"; readonly document: MemoryDocument }
  | { readonly kind: "changed"; readonly document: MemoryDocument; readonly changes: readonly Change[] };

/** What one step to undo did to one document. */
export interface Part {
  readonly document: MemoryDocument;
  readonly before: string;
  readonly after: string;
}

type Step = readonly Part[];

export interface MemoryDocument {
  readonly uri: URI;
  readonly languageId: string;
  readonly version: number;
  readonly isClosed: boolean;
  readonly isDirty: boolean;
  readonly lineCount: number;
  getText(): string;
  lineAt(line: number): { readonly text: string; readonly range: Change["range"] };
}

interface Kept {
  readonly document: MemoryDocument;
  set(text: string, version: number): void;
  setClosed(closed: boolean, dirty: boolean): void;
  readonly done: Step[];
  readonly undone: Step[];
}

export type MemoryDocuments = ReturnType<typeof memoryDocuments>;

/** Documents over files by their addresses; `told` hears what becomes of those that are open. */
export function memoryDocuments(files: Map<string, string>, told: (event: Event) => void) {
  const kept = new Map<string, Kept>();

  const write = ({ document, set }: Kept, text: string, changes: readonly Change[]) => {
    set(text, document.version + 1);
    told({ kind: "changed", document, changes });
  };
  const keptOf = (document: MemoryDocument) => kept.get(document.uri.toString())!;
  /** One step of several documents is taken back as one where it is the last of each of them; else where it was asked for. */
  const go = (from: "done" | "undone", document: MemoryDocument): readonly Part[] => {
    const to = from === "done" ? "undone" : "done";
    const step = keptOf(document)[from].at(-1);
    if (!step) return [];
    const isLastOfAll = step.every((part) => keptOf(part.document)[from].at(-1) === step);
    const parts = isLastOfAll ? step : step.filter((part) => part.document === document);
    for (const part of parts) {
      const each = keptOf(part.document);
      each[from].pop();
      each[to].push(step);
      const [is, becomes] = from === "done" ? [part.after, part.before] : [part.before, part.after];
      if (each.document.getText() !== is) throw new Error(`${part.document.uri} is not what the step left behind`);
      write(each, becomes, [differenceOf(is, becomes)]);
    }
    return parts;
  };
  return {
    all: (): MemoryDocument[] => [...kept.values()].map(({ document }) => document).filter(({ isClosed }) => !isClosed),
    /** The document of an address, opened where it was not; throws where there is no such file. */
    open(address: string): MemoryDocument {
      const there = kept.get(address);
      if (there && !there.document.isClosed) return there.document;
      const text = files.get(address);
      if (text === undefined) throw new Error(`There is no file ${address}.`);
      const made = makeDocument(address, text);
      kept.set(address, made);
      told({ kind: "opened", document: made.document });
      return made.document;
    },
    close(document: MemoryDocument): void {
      keptOf(document).setClosed(true, false);
      told({ kind: "closed", document });
    },
    /** Makes edits of several documents as one step; false where one of them cannot be made. */
    apply(edits: readonly (readonly [MemoryDocument, readonly Change[]])[]): readonly Part[] {
      const parts = edits.map(([document, changes]): Part => {
        const before = document.getText();
        return { document, before, after: changedText(document, changes) };
      });
      const changing = parts.filter(({ before, after }) => before !== after);
      for (const part of changing) {
        const each = keptOf(part.document);
        each.done.push(changing);
        each.undone.length = 0;
        each.setClosed(false, true);
        const [, changes] = edits.find(([document]) => document === part.document)!;
        write(each, part.after, fromBehind(changes));
      }
      return changing;
    },
    undo: (document: MemoryDocument) => go("done", document),
    redo: (document: MemoryDocument) => go("undone", document),
    /** How many steps could be taken back in a document. */
    stepsOf: (document: MemoryDocument) => keptOf(document).done.length,
  };
}

function makeDocument(address: string, opened: string): Kept {
  let text = Text.create(address, "fettle", 1, opened);
  let [isClosed, isDirty] = [false, false];
  const document: MemoryDocument = {
    uri: URI.parse(address),
    languageId: address.endsWith(".fettle") ? "fettle" : "plaintext",
    get version() {
      return text.version;
    },
    get isClosed() {
      return isClosed;
    },
    get isDirty() {
      return isDirty;
    },
    get lineCount() {
      return text.lineCount;
    },
    getText: () => text.getText(),
    lineAt(line) {
      const start = { line, character: 0 };
      const whole = text.getText({ start, end: { line: line + 1, character: 0 } }).replace(/[\r\n]+$/, "");
      return { text: whole, range: { start, end: { line, character: whole.length } } };
    },
  };
  return {
    document,
    set: (next, version) => {
      text = Text.create(address, "fettle", version, next);
    },
    setClosed: (closed, dirty) => {
      [isClosed, isDirty] = [closed, dirty];
    },
    done: [],
    undone: [],
  };
}

/** The text after changes of ranges that are there and do not overlap, with the line ends of the document; throws for others. */
function changedText(document: MemoryDocument, changes: readonly Change[]): string {
  const before = document.getText();
  const eol = before.includes("\r\n") ? "\r\n" : "\n";
  for (const { range } of changes)
    for (const { line, character } of [range.start, range.end])
      if (line < 0 || line >= document.lineCount || character < 0 || character > document.lineAt(line).text.length)
        throw new Error(`${document.uri} has no place ${line}:${character}.`);
  const text = Text.create(document.uri.toString(), "fettle", 1, before);
  const edits = changes.map(({ range, text: newText }) => ({ range, newText: newText.replaceAll(/\r?\n/g, eol) }));
  return Text.applyEdits(text, edits);
}

/** An editor tells changes from the end of the text on, so that none moves another. */
function fromBehind(changes: readonly Change[]): Change[] {
  return changes
    .map((change, index) => ({ change, index }))
    .sort(
      (a, b) =>
        b.change.range.start.line - a.change.range.start.line ||
        b.change.range.start.character - a.change.range.start.character ||
        b.index - a.index,
    )
    .map(({ change }) => change);
}

/** The change that makes one text of another: what lies between what both begin and end with. */
function differenceOf(before: string, after: string): Change {
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) start++;
  let end = 0;
  const most = Math.min(before.length, after.length) - start;
  while (end < most && before.at(-1 - end) === after.at(-1 - end)) end++;
  const text = Text.create("", "", 1, before);
  const range = { start: text.positionAt(start), end: text.positionAt(before.length - end) };
  return { range, text: after.slice(start, after.length - end) };
}
