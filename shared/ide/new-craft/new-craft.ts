/** Makes a craft from the answers to a few questions: a first script, without findings of its own. */
import type { Craft, Mode } from "../../model/craft.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import type { Answers, LeftOut } from "../../protocol/new-craft.ts";
import { fileFindings, findingsOf } from "../../rules/engine/engine.ts";
import { quote } from "../../syntax/scanner.ts";
import { withFile } from "../context/trial.ts";
import { PILOT_FACTS } from "./facts.ts";
import type { Habits } from "./modes.ts";
import { BAND_OF_WORD, type FoundFile, type FoundFiles } from "./questions.ts";
import { noteLines, sectionText } from "./script-text.ts";
import { sectionsOf } from "./sections.ts";

export interface NewCraft {
  readonly text: string;
  /** Layers that were chosen and conflict with the other answers. */
  readonly leftOut: readonly LeftOut[];
}

/**
 * Handsets and layers of a workspace, with their paths from a folder (an absolute path); those with errors are not
 * offered.
 */
export function findFiles(workspace: Workspace, folder: string): FoundFiles {
  const handsets: (FoundFile & { band: string | null })[] = [];
  const layers: FoundFile[] = [];
  const notOffered: LeftOut[] = [];
  const files = workspace.view.list().map((file) => ({ file, path: pathBetween(`${folder}/-`, file) }));
  // Files in the folder come before files beside it; hidden ones are not offered.
  const near = files.filter(({ path }) => !path.startsWith("../"));
  const beside = files.filter(({ path }) => path.startsWith("../"));
  for (const { file, path } of [...near, ...beside]) {
    if (/(^|\/)\.(?!\.?\/)/.test(path)) continue;
    const script = workspace.script(file);
    if (!script || script.kind === "craft") continue;
    const fault = fileFindings(workspace, script).find(({ severity }) => severity === "error");
    if (fault) notOffered.push({ path, why: `line ${fault.range.start.line + 1}: ${fault.message}` });
    else if (script.kind === "layer") layers.push({ file, path, name: script.name });
    else {
      const band = script.entries.find(({ section, name }) => section === "transmitter" && name === "band");
      handsets.push({ file, path, name: script.name, band: band?.text ?? null });
    }
  }
  const uses = usesOf(workspace);
  handsets.sort((a, b) => (uses.get(b.file) ?? 0) - (uses.get(a.file) ?? 0));
  return { handsets, layers, notOffered };
}

/** How many scripts use each file; the handset that is used most is the usual answer. */
function usesOf(workspace: Workspace): ReadonlyMap<string, number> {
  const uses = new Map<string, number>();
  for (const file of workspace.view.list()) {
    const script = workspace.script(file);
    for (const use of script?.uses ?? []) {
      const target = workspace.target(script!, use);
      if (target.kind === "script") uses.set(target.script.file, (uses.get(target.script.file) ?? 0) + 1);
    }
  }
  return uses;
}

/** The path for a craft of that name, as in `craft/tea-pot.fettle`. */
export function pathForName(name: string): string {
  return `craft/${fileNameFor(name) || "new-craft"}.fettle`;
}

/** A name as part of a file's name: small letters, digits and hyphens; empty where nothing is left of it. */
export function fileNameFor(name: string): string {
  const plain = name.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  return plain.replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");
}

/**
 * The script of a new craft at `file` (an absolute path, which may exist) among the files of `workspace`.
 * `answers` must be complete, as `readAnswers` returns them for `found`. A layer that would cause a
 * finding is written as a comment, with the reason.
 */
export function newCraft(answers: Answers, found: FoundFiles, workspace: Workspace, file: string): NewCraft {
  const trial = makeTrial(workspace, file);
  const chosen = found.layers.filter(({ path }) => (answers.layers as readonly string[]).includes(path));
  const write = (layers: readonly FoundFile[], habits: Habits, leftOut: readonly LeftOut[] = []) => {
    const text = scriptText({ answers, found, file, layers, leftOut, habits, bench: trial });
    return layers.length > 0 ? withIdlePositions(text, trial.findings(text)) : text;
  };

  const handset = found.handsets.find(({ path }) => path === answers.link);
  const usual = handset ? trial.habitsWith(handset.file) : NO_HABITS;
  if (chosen.length === 0 && usual.size === 0) return { text: write([], usual), leftOut: [] };
  const bare = trial.findings(write([], NO_HABITS));
  const habits = usual.size > 0 && trial.findings(write([], usual)).length <= bare.length ? usual : NO_HABITS;

  const all = write(chosen, habits);
  if (trial.findings(all).length <= bare.length) return { text: all, leftOut: [] };
  const kept: FoundFile[] = [];
  const leftOut: LeftOut[] = [];
  for (const layer of chosen) {
    const findings = trial.findings(write([...kept, layer], habits));
    if (findings.length <= bare.length) kept.push(layer);
    else leftOut.push({ path: layer.path, why: reasonIn(findings, bare) });
  }
  return { text: write(kept, habits, leftOut), leftOut };
}

/** Accepts positions that do the same with a note above their lines: they are no reason to leave out a layer. */
function withIdlePositions(text: string, findings: readonly Finding[]): string {
  const idle = new Set(findings.filter(({ code }) => code === "control-idle").map(({ range }) => range.start.line));
  return text
    .split("\n")
    .flatMap((line, i) => (idle.has(i) ? [IDLE_POSITIONS, line] : [line]))
    .join("\n");
}

const IDLE_POSITIONS = "# allow control-idle: the layers want the same at both positions";
const NO_HABITS: Habits = new Map();

/** The message of the first finding that is new, without its “Did you mean …?”. */
function reasonIn(findings: readonly Finding[], before: readonly Finding[]): string {
  const found = findings.find((each) => !before.some(sameAs(each))) ?? findings[0]!;
  return found.message.replace(/ Did you mean [^?]*\?$/, "");
}

const sameAs = (a: Finding) => (b: Finding) => a.code === b.code && a.message === b.message;

/** Checks texts of the new craft as if they were among the files of the workspace, before anything is written. */
function makeTrial(workspace: Workspace, file: string) {
  const withScript = (text: string): Workspace => withFile(workspace, file, text);
  return {
    craft: (text: string): Craft => withScript(text).craft(file)!,
    findings: (text: string): Finding[] => findingsOf(withScript(text), file),
    /** The condition that most craft with a handset have for each mode; no entry for a mode without a majority. */
    habitsWith(handset: string): Habits {
      const crafts = workspace.view.list().flatMap((each) => {
        const craft = each === file ? null : workspace.craft(each);
        return craft?.handset?.file === handset ? [craft] : [];
      });
      const habits = new Map<string, Mode>();
      for (const name of ["arm", "level", "level-blend", "return-home", "turtle"]) {
        const modes = crafts
          .flatMap((craft) => craft.modes.get(name) ?? [])
          .filter(({ condition }) => condition !== null);
        const most = modes.find(({ text }) => modes.filter((each) => each.text === text).length * 2 > modes.length);
        if (most) habits.set(name, most);
      }
      return habits;
    },
  };
}

interface ScriptParts {
  readonly answers: Answers;
  readonly found: FoundFiles;
  readonly file: string;
  readonly layers: readonly FoundFile[];
  readonly leftOut: readonly LeftOut[];
  readonly habits: Habits;
  readonly bench: ReturnType<typeof makeTrial>;
}

function scriptText({ answers, found, file, layers, leftOut, habits, bench: trial }: ScriptParts): string {
  const header = `craft ${quote(answers.name as string)}`;
  const handset = found.handsets.find(({ path }) => path === answers.link);
  const use = (each: FoundFile) => `use ${quote(pathBetween(file, each.file))}`;
  const below = (order: readonly FoundFile[]) => trial.craft([header, "", ...order.map(use), ""].join("\n"));
  const first = handset ? [handset, ...layers] : layers;
  // The last handset is effective: where a layer uses another one, the chosen handset must come after it.
  const order = handset && below(first).handset?.file !== handset.file ? [...layers, handset] : first;
  const sections = sectionsOf({
    answers,
    below: below(order),
    band: handset ? handset.band : (BAND_OF_WORD[answers.link as string] ?? null),
    habits,
  });
  const uses = order.map(use);
  const without = leftOut.flatMap(({ path, why }) => {
    const layer = found.layers.find((each) => each.path === path)!;
    return [...noteLines(`Left out, because: ${why}`, ""), `# ${use(layer)}`];
  });
  const parts = [
    [...noteLines(introduction(answers), ""), header].join("\n"),
    ...(uses.length > 0 ? [uses.join("\n")] : []),
    ...(without.length > 0 ? [without.join("\n")] : []),
    ...sections.map(sectionText),
  ];
  return `${parts.join("\n\n")}\n`;
}

function introduction({ size, pack, pilot }: Answers): string {
  const [cells, chemistry] = (pack as string).split(/-(.+)/);
  const craft = `A ${(size as string).replace("-", " ")} craft, ${cells}-cell ${chemistry}, for ${PILOT_FACTS[pilot as string]!.who}`;
  return `${craft}: a start, to be made your own.\nPropellers off on the bench until every switch has been tried.`;
}
