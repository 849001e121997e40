/** The issues of one file on its own: their messages and fixes. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/specs.ts";
import type { Fault, Repair } from "../syntax/read-context.ts";
import { lookalikeSlip } from "../syntax/slips.ts";
import type { Cols, Fix } from "../syntax/span.ts";
import { spanAt } from "../syntax/span.ts";
import type { LineNode, Tree, Word } from "../syntax/tree.ts";
import type { Issue } from "./script.ts";
import { didYouMean, isOnlyForm, similarNames } from "./similar-names.ts";

const NO_CANDIDATES = { word: "", candidates: [] };

/** The issue of a fault, with its fixes: the certain repairs, and the names that were most likely meant. */
export function issueOf(original: Fault, line: number, text: string): Issue {
  const slip = lookalikeSlip(text, original);
  // A lookalike character explains any other fault in the same place.
  const fault: Fault = slip
    ? { ...original, message: slip.message, repairs: [slip.repair], unknown: NO_CANDIDATES }
    : original;
  const { unknown } = fault;
  const { word = "", candidates = [], chosen, translated } = unknown ?? {};
  const offered = chosen ? candidates : similarNames(word, candidates);
  const repairs: Repair[] = [...(fault.repairs ?? []), ...offered.map((name) => replacement(fault, name))];
  const question = didYouMean(offered);
  const end = Math.max(fault.end, Math.min(fault.start + 1, text.length));
  return {
    code: fault.code,
    message: fault.message + question,
    span: { line, start: fault.start, end },
    ...(repairs.length > 0 && { fixes: repairs.map((repair) => fixOf(repair, line)).map(isCertain) }),
  };

  /** Of several none is certain, and of names only one that is written in another form. */
  function isCertain(fix: Fix, i: number): Fix {
    const isSure =
      repairs.length === 1 &&
      !repairs[i]!.doubtful &&
      (offered.length === 0 || translated || isOnlyForm(word, offered));
    return isSure ? { ...fix, certain: true } : fix;
  }
}

/** The issue of an unknown section, with the sections that may have been meant. */
export function unknownSection(tree: Tree, line: number, name: string, catalogue: Catalogue): Issue {
  const { start, end } = sectionWord(tree, line);
  const offered = similarNames(name, catalogue.sections);
  const question = didYouMean(offered);
  return {
    code: "unknown-name",
    message: `There is no section “${name}”; its entries are kept, not checked.${question}`,
    span: { line, start, end },
    fixes: nameFixes(name, offered, { start, end }, line),
  };
}

/** The issue of a section in a kind of file that cannot have it. */
export function misplacedSection(tree: Tree, line: number, spec: SectionSpec): Issue {
  const allowedFiles = spec.in.map((kind) => `a ${kind}`).join(" or ");
  const handset =
    tree.kind === "handset" ? " A handset holds only “transmitter”, “controls” and “use” of handsets." : "";
  return {
    code: "section-misplaced",
    message: `“${spec.name}” has no place in a ${tree.kind}: it belongs in ${allowedFiles}, so its entries take no effect here.${handset}`,
    span: spanAt(line, sectionWord(tree, line)),
  };
}

/** One issue for each name in a `drop` that the section can never have. */
export function unknownDrops(
  node: LineNode & { kind: "drop" },
  line: number,
  spec: SectionSpec,
  catalogue: Catalogue,
): Issue[] {
  const candidates = [
    ...catalogue.settingsOf(spec.name),
    ...(spec.holds === "modes" ? catalogue.modes : spec.holds === "places" ? catalogue.elements : []),
  ];
  if (spec.holds === "outputs" || spec.holds === "controls" || spec.holds === "kept" || spec.holds === "follows")
    return [];
  return node.names.flatMap((word: Word) => {
    if (candidates.some((each) => each.name === word.text)) return [];
    const offered = similarNames(word.text, candidates);
    const fixes = nameFixes(word.text, offered, word, line);
    return {
      code: "unknown-name" as const,
      message: `“${spec.name}” has nothing called “${word.text}” to remove.${didYouMean(offered)}`,
      span: spanAt(line, word),
      fixes,
    };
  });
}

/**
 * Whether a comment that starts with “drop” is a commented-out line rather than a sentence. In a
 * section that allows any name the two cannot be told apart, and the comment counts as a note.
 */
export function isDrop(node: LineNode & { kind: "drop" }, spec: SectionSpec, catalogue: Catalogue): boolean {
  if (node.all) return true;
  const named = spec.holds === "modes" || spec.holds === "places" || spec.holds === "settings";
  return named && unknownDrops(node, 0, spec, catalogue).length === 0;
}

/** The issue of bytes that are not UTF-8, at the first replacement character. */
export function notUtf8(tree: Tree): Issue {
  const line = Math.max(
    0,
    tree.lines.findIndex((each) => each.text.includes("\uFFFD")),
  );
  const start = Math.max(0, tree.lines[line]!.text.indexOf("\uFFFD"));
  return {
    code: "syntax",
    message:
      "This file holds bytes that are no UTF-8 text, shown here as \uFFFD. It is read as far as it goes and never rewritten: save it as UTF-8 first.",
    span: { line, start, end: start + 1 },
  };
}

/** The issue of a file that is not text: binary, or in an encoding such as UTF-16 that has zero bytes. */
export function notText(tree: Tree): Issue {
  const line = tree.lines.findIndex(({ text }) => text.includes("\0"));
  const start = tree.lines[line]!.text.indexOf("\0");
  return {
    code: "syntax",
    message:
      "This file is no text that can be read: it holds zero bytes. If it is a script all the same, it was mostly saved as UTF-16: save it as UTF-8.",
    span: { line, start, end: start + 1 },
  };
}

function sectionWord(tree: Tree, line: number): Cols {
  const { node } = tree.lines[line]!;
  return node.kind === "section" ? node.name : { start: 0, end: 0 };
}

/** A fix for each name that may have been meant. */
function nameFixes(word: string, offered: readonly string[], at: Cols, line: number): Fix[] {
  return offered.map((name) => {
    const fix = fixOf(replacement(at, name), line);
    return isOnlyForm(word, offered) ? { ...fix, certain: true } : fix;
  });
}

function replacement(at: Cols, name: string): Repair {
  return { title: `Write ${name}`, start: at.start, end: at.end, text: name };
}

function fixOf(repair: Repair, line: number): Fix {
  const range = { start: { line, character: repair.start }, end: { line, character: repair.end } };
  return { title: repair.title, edits: [{ range, text: repair.text }] };
}
