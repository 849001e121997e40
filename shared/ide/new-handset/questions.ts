/** The questions for a new handset, one after the other, and what the answers so far make of it. */
import type { Workspace } from "../../model/workspace.ts";
import type { Answers, Choice } from "../../protocol/new-craft.ts";
import type { HandsetQuestion } from "../../protocol/new-handset.ts";
import { readName } from "../new-craft/choices.ts";
import type { FoundFiles } from "../new-craft/questions.ts";
import { askControls } from "./control-questions.ts";
import type { HandsetControl, HandsetDraft } from "./draft.ts";
import { otherHandset } from "./other-handset.ts";
import {
  askSetting,
  BAND,
  endsOf,
  ORDER,
  POWER,
  type SettingQuestion,
  STICK_MODE,
  TRAVEL,
} from "./setting-questions.ts";
import { type AskMode, makeSteps, type Steps, type Stopped } from "./steps.ts";

export type { HandsetDraft } from "./draft.ts";

export const HANDSET_PROMPT = "What is the handset called?";
export const USUAL_HANDSET_NAME = "My handset";

/** What the answers so far make, and what follows them. */
export interface Asked extends Stopped {
  readonly draft: HandsetDraft;
}

/** Follows the answers through the questions; `found` and `workspace` are what another handset is looked up in. */
export function askNext(found: FoundFiles, answers: Answers, workspace: Workspace, mode: AskMode): Asked {
  const steps = makeSteps(answers, mode);
  const name = steps.text({ id: "name", prompt: HANDSET_PROMPT, usual: USUAL_HANDSET_NAME, typed: "Wheel" }, (text) => {
    const read = readName(text, "handset");
    return read.kind === "name" ? { value: read.name } : { problem: read.problem.replace(/^name: /, "") };
  });
  const other = askOther(steps, found);
  const theirs = other ? otherHandset(workspace, other.found.file) : null;
  const kept = other?.how === "copy" && theirs ? askKept(steps, theirs.controls) : [];
  const setting = (setting: SettingQuestion) => askSetting(steps, setting, workspace, theirs?.transmitter ?? null);
  const band = setting(BAND);
  const power = setting(POWER);
  const stickMode = setting(STICK_MODE);
  const order = setting(ORDER);
  const travel = setting(TRAVEL);
  const used = other?.how === "use" && theirs ? theirs.controls : [];
  const controls = askControls(steps, { own: kept, used, ends: endsOf(travel) });
  return {
    draft: { name: name ?? USUAL_HANDSET_NAME, other, band, power, stickMode, order, travel, controls, used },
    ...steps.stopped(),
  };
}

function askOther(steps: Steps, found: FoundFiles): HandsetDraft["other"] {
  if (found.handsets.length === 0 && !steps.given("as-on")) return null;
  const choices: Choice[] = [
    { word: "none", label: "No", help: "its controls one by one" },
    ...found.handsets.flatMap(({ path, name }): Choice[] => [
      { word: `copy ${path}`, label: `Copy the controls of ${name}`, help: `from ${path}, to be changed here` },
      {
        word: `use ${path}`,
        label: `Use ${name} as it is`,
        help: `${path} stays in charge; only what differs is said here`,
      },
    ]),
  ];
  const word = steps.choice({ id: "as-on", prompt: "Is it like another handset?", choices, usual: "none" });
  const how = word?.startsWith("copy ") ? "copy" : word?.startsWith("use ") ? "use" : null;
  const file = how && found.handsets.find(({ path }) => path === word!.slice(how.length + 1));
  return how && file ? { found: file, how } : null;
}

function askKept(steps: Steps, theirs: readonly HandsetControl[]): readonly HandsetControl[] {
  const choices = theirs.map((control): Choice => {
    return { word: control.name, label: control.name, help: `${control.kind} on ch${control.channel}` };
  });
  const kept = steps.many({ id: "keep", prompt: "Which of its controls has this one too?", choices });
  return theirs.filter(({ name }) => kept?.includes(name));
}

/** Every question as data: those of the handset, and those of each of its controls. */
export function handsetQuestions(
  found: FoundFiles,
  workspace: Workspace,
): { readonly handset: readonly HandsetQuestion[]; readonly control: readonly HandsetQuestion[] } {
  const asked = new Map<string, HandsetQuestion>();
  // A switch and a dial between them are asked every question that a control can be asked.
  for (const kind of ["switch", "dial"]) {
    const answers: Record<string, Answers[string]> = {};
    for (;;) {
      const { question } = askNext(found, answers, workspace, "ask");
      if (!question || question.id === "control-2.kind") break;
      asked.set(question.id, question);
      const { id, many, choices, usual } = question;
      answers[id] = id === "control-1.kind" ? kind : many ? choices.map(({ word }) => word) : usual!;
    }
  }
  const all = [...asked.values()];
  const ofControl = all.filter(({ id }) => id.startsWith("control-"));
  return {
    handset: all.filter((each) => !ofControl.includes(each)),
    control: ofControl.map((each) => ({ ...each, id: each.id.replace("control-1.", "") })),
  };
}
