/** Every name in a craft, a layer or a handset, line by line. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { unitSymbol } from "../../catalogue/units.ts";
import { boardFilesIn } from "../../model/board-files.ts";
import { baseOf } from "../../model/craft.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Drop, Entry, Script } from "../../model/script.ts";
import { resolvePath } from "../../model/uses.ts";
import type { Piece } from "../../syntax/piece.ts";
import type { Cols } from "../../syntax/span.ts";
import type { Line, Quoted, Word } from "../../syntax/tree.ts";
import { namesInCondition } from "./faulty-conditions.ts";
import { type Named, named, type Occurrence, type Thing, thing } from "./thing.ts";

/** The names of a script that is no dialect, in order of place. */
export function namesOfScript(script: Script, catalogue: Catalogue): Occurrence[] {
  const found: Occurrence[] = [];
  const add = (line: number, names: readonly Named[]) => {
    for (const each of names) found.push({ line, ...each });
  };
  const { tree } = script;
  const header = tree.header === null ? null : tree.lines[tree.header]!.node;
  if (header?.kind === "header" && header.name) add(tree.header!, [fileName(header.name, script.file)]);
  for (const line of tree.uses) {
    const { node } = tree.lines[line]!;
    const path = node.kind === "use" ? node.path : null;
    const file = path && resolvePath(script.file, path.text);
    if (path && file) add(line, [pathName(path, file)]);
  }
  for (const each of tree.sections) add(each.line, headingNames(tree.lines[each.line]!.node));
  for (const drop of script.drops) add(drop.line, namesDropped(drop, catalogue));
  for (const entry of script.entries) add(entry.line, namesOfEntry(entry, tree.lines[entry.line]!, catalogue));
  for (const { entry, file } of boardFilesIn(script))
    if (file !== null && entry.value) add(entry.line, [pathName(entry.value, file)]);
  for (const { code, codeSpan } of script.allowances)
    add(codeSpan.line, [named(thing("rule", code), codeSpan, "reads")]);
  return found.sort((a, b) => a.line - b.line || a.start - b.start);
}

/** What stands between quotes. */
export function inside({ start, end }: Cols): Cols {
  return { start: start + 1, end: end - 1 };
}

/** The name of a file's header. */
export function fileName(at: Quoted, file: string): Named {
  return named(thing("file", file), inside(at), "defines", "quoted");
}

function pathName(at: Cols, file: string): Named {
  return named(thing("file", file), inside(at), "reads", "path");
}

/** A section's name, and what stands in quotes behind it. */
function headingNames(node: Script["tree"]["lines"][number]["node"]): Named[] {
  if (node.kind !== "section") return [];
  const { name, title } = node;
  const names = [named(thing("section", name.text), name, "writes")];
  if (title && name.text === "pack") names.push(named(thing("pack", title.text), inside(title), "defines", "quoted"));
  if (title && name.text === "verbatim")
    names.push(named(thing("dialect", title.text), inside(title), "reads", "quoted"));
  return names;
}

function namesDropped({ section, names }: Drop, catalogue: Catalogue): Named[] {
  return names.flatMap((word) => {
    const what = thingNamed(word, baseOf(section), catalogue);
    return what ? [named(what, word, "writes")] : [];
  });
}

/** What a name that is not followed by a value means in a section; null where nothing there has such a name. */
export function thingNamed({ text }: Pick<Word, "text">, section: string, catalogue: Catalogue): Thing | null {
  const spec = catalogue.section(section);
  switch (spec?.holds) {
    case "modes":
      return catalogue.mode(text) ? thing("mode", text) : null;
    case "outputs":
      return thing("output", text);
    case "controls":
      return thing("control", text);
    case "follows":
      return settingThatFollows(text, catalogue);
    case "places":
      if (catalogue.element(text)) return thing("element", text);
      return catalogue.setting(section, text) ? thing("setting", text, section) : null;
    case "settings":
      return catalogue.setting(section, text) ? thing("setting", text, section) : null;
    default:
      return null;
  }
}

/** The setting that a name means in `adjust`: one that a dial may move. */
export function settingThatFollows(name: string, catalogue: Catalogue): Thing | null {
  const spec = adjustable(name, catalogue);
  const home = spec && catalogue.sections.find(({ settings }) => settings.includes(spec));
  return home ? thing("setting", name, home.name) : null;
}

/** By the pieces of a line, which lines of equal text in equal sections share. */
const known = new WeakMap<readonly Piece[], { readonly text: string; readonly names: readonly Named[] }>();

/** The names on an entry's line: up to the first place that could not be read, and of a condition those behind it. */
function namesOfEntry(entry: Entry, { text, node }: Line, catalogue: Catalogue): readonly Named[] {
  const found = known.get(entry.pieces);
  if (found?.text === text) return found.names;
  const names = entry.pieces.flatMap((piece) => namedBy(piece, entry, text, catalogue) ?? []);
  if (entry.value === null && node.kind === "entry" && ["mode", "output", "follows"].includes(entry.kind)) {
    const end = Math.max(node.head.end, ...entry.pieces.map((piece) => piece.end));
    names.push(...namesInCondition(text, node.value, catalogue).filter(({ start }) => start >= end));
  }
  known.set(entry.pieces, { text, names });
  return names;
}

function namedBy(piece: Piece, entry: Entry, text: string, catalogue: Catalogue): Named | null {
  const word = text.slice(piece.start, piece.end);
  const { head, kind } = entry;
  const isHead = piece.start === head.start;
  const section = baseOf(entry.section);
  switch (piece.kind) {
    case "control":
      return named(thing("control", word), piece, isHead ? "defines" : "reads");
    case "position": {
      const isRest = /[ \t]rests[ \t]+$/.test(text.slice(0, piece.start));
      const does = kind === "control" && !isRest ? "defines" : "reads";
      return named(thing("position", word, piece.of ?? entry.name), piece, does);
    }
    case "mode":
      return named(thing("mode", word), piece, isHead ? "defines" : "reads");
    case "output":
      return named(thing("output", word), piece, "defines");
    case "element":
      return named(thing("element", word), piece, "defines");
    case "setting": {
      const follows = kind === "follows" ? settingThatFollows(word, catalogue) : null;
      return named(follows ?? thing("setting", word, section), piece, follows ? "writes" : "defines");
    }
    case "field":
      return named(thing("field", word, `${section}.${entry.name}`), piece, "writes");
    case "choice":
      return named(thing("choice", word, `${section}.${kind === "control" ? "lies" : entry.name}`), piece, "reads");
    case "unit":
      return named(thing("unit", unitSymbol(word) ?? word), piece, "reads");
    case "channel":
      return named(thing("channel", `ch${Number(word.slice(2))}`), piece, kind === "control" ? "defines" : "reads");
    default:
      return null;
  }
}
