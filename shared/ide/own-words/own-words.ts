/**
 * A pilot's own files beside the scripts: settings that the catalogue lacks (`*.catalogue.json`)
 * and words for what it has (`*.aliases.json`).
 */
import { type Alias, type Catalogue, makeCatalogue } from "../../catalogue/catalogue.ts";
import type { OwnSetting } from "../../catalogue/specs.ts";
import { CATALOGUE_END } from "../../model/file-names.ts";
import type { FileAnswer } from "../../model/files.ts";
import type { Range } from "../../syntax/span.ts";
import type { JsonPath, JsonText } from "./json-text.ts";
import { withOwnProse } from "./own-prose.ts";
import { aliasProblems, type ReportProblem, settingProblems } from "./own-words-check.ts";

/** What is wrong in such a file. */
export interface WordsProblem {
  readonly file: string;
  readonly range: Range;
  /** The path from the root, as in `settings[0].types[1].unit`; empty for the whole file. */
  readonly where: string;
  /** What is wrong, why, and what to do. */
  readonly message: string;
  /** error: the setting or the word is left out; warning: it counts. */
  readonly severity: "error" | "warning";
  /** True where it is a fault of JSON itself, of which an editor that knows JSON tells as well. */
  readonly ofJson?: true;
}

export interface OwnWords {
  readonly catalogue: Catalogue;
  /** Sorted by file and place. */
  readonly problems: readonly WordsProblem[];
  /** Equal for equal settings and words, to compare two readings. */
  readonly key: string;
}

/** The catalogue with the additions of these files. Never rejects: what cannot be read is reported as a problem. */
export async function readOwnWords(
  files: readonly { readonly file: string; readonly answer: FileAnswer }[],
): Promise<OwnWords> {
  if (files.length === 0) return { catalogue: makeCatalogue(), problems: [], key: "" };
  const [shapes, { readJson }] = await Promise.all([import("../../catalogue/own-files.ts"), import("./json-text.ts")]);
  const problems: WordsProblem[] = [];
  const settings: { readonly setting: OwnSetting; readonly report: ReportProblem }[] = [];
  const words: { readonly alias: Alias; readonly report: ReportProblem }[] = [];

  for (const { file, answer } of [...files].sort((a, b) => (a.file < b.file ? -1 : 1))) {
    const json = jsonOf(file, answer, readJson, problems);
    if (json === null) continue;
    const reportAt =
      (base: JsonPath): ReportProblem =>
      (severity, { path, ofName, message }) => {
        const whole = [...base, ...path];
        const range = ofName ? json.nameRangeOf(whole) : json.rangeOf(whole);
        problems.push({ file, range, where: pathText(whole), message, severity });
      };
    const report = reportAt([]);
    for (const path of json.repeated)
      problems.push({
        file,
        range: json.nameRangeOf(path),
        where: pathText(path),
        message: "This name occurs twice here, and the earlier one is ignored: keep one.",
        severity: "error",
        ofJson: true,
      });
    if (file.endsWith(CATALOGUE_END)) {
      const read = shapes.readCatalogueFile(json.value);
      for (const problem of read.problems) report("error", problem);
      for (const { at, setting } of read.settings) settings.push({ setting, report: reportAt(["settings", at]) });
    } else {
      const read = shapes.readAliasesFile(json.value);
      for (const problem of read.problems) report("error", problem);
      for (const alias of read.aliases) words.push({ alias, report: reportAt(["aliases", alias.word]) });
    }
  }

  const kept = withOwnProse(settingProblems(settings));
  const withSettings = makeCatalogue(kept);
  const aliases = withOwnProse(aliasProblems(words, withSettings));
  return {
    catalogue: aliases.length === 0 ? withSettings : makeCatalogue(kept, aliases),
    problems: problems.sort(byPlace),
    key: JSON.stringify([kept, aliases]),
  };
}

type Json = JsonText & { kind: "value" };

function jsonOf(
  file: string,
  answer: FileAnswer,
  readJson: (text: string) => JsonText,
  problems: WordsProblem[],
): Json | null {
  const start = { line: 0, character: 0 };
  const refuse = (message: string, range: Range = { start, end: start }): null => {
    problems.push({ file, range, where: "", message, severity: "error" });
    return null;
  };
  if (answer.kind === "unreadable") return refuse(`This file cannot be read, so nothing of it counts: ${answer.why}.`);
  if (answer.kind !== "text") return null;
  if (!answer.validUtf8) return refuse("This file is no valid UTF-8, so nothing of it counts: save it as UTF-8.");
  const json = readJson(answer.text);
  if (json.kind === "value") return json;
  const message = `${json.message} Until this is JSON, nothing of the file counts.`;
  problems.push({ file, range: json.range, where: "", message, severity: "error", ofJson: true });
  return null;
}

function pathText(path: JsonPath): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === "number") return `${text}[${step}]`;
    if (!/^[A-Za-z_$][\w$]*$/.test(step)) return `${text}[${JSON.stringify(step)}]`;
    return text === "" ? step : `${text}.${step}`;
  }, "");
}

function byPlace(a: WordsProblem, b: WordsProblem): number {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  return a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character;
}
