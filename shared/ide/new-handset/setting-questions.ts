/** The questions of a handset's transmitter and its sticks. */
import type { Workspace } from "../../model/workspace.ts";
import type { Choice } from "../../protocol/new-craft.ts";
import { choiceFor } from "../new-craft/choices.ts";
import { BAND_CHOICES, BAND_OF_WORD } from "../new-craft/questions.ts";
import { type PulseEnds, type Read, readRange } from "./parts.ts";
import { settingText } from "./setting-text.ts";
import type { Steps } from "./steps.ts";

export interface SettingQuestion {
  readonly id: string;
  readonly section: "transmitter" | "link";
  readonly name: string;
  readonly prompt: string;
  readonly choices: readonly Choice[];
  readonly usual: string;
  readonly unknown: string;
  readonly typed: string;
  /** What a choice or a typed text means in the script. */
  readonly written: (word: string) => string;
}

const NOT_KNOWN: Choice = { word: "not-known", label: "Not known", help: "left to be filled in" };

export const BAND: SettingQuestion = {
  id: "band",
  section: "transmitter",
  name: "band",
  prompt: "In which band does its module transmit?",
  choices: [...BAND_CHOICES, NOT_KNOWN],
  usual: "2.4-ghz",
  unknown: "not-known",
  typed: "2.4 GHz",
  written: (word) =>
    BAND_OF_WORD[word] ?? (/^\d+(\.\d+)?$/.test(word) ? `${word} ${Number(word) < 10 ? "GHz" : "MHz"}` : word),
};

export const POWER: SettingQuestion = {
  id: "power",
  section: "transmitter",
  name: "power",
  prompt: "With how much power, at most?",
  choices: [
    ...["25", "100", "250", "500", "1000"].map((number): Choice => {
      return { word: `${number}-mw`, label: `${number} mW`, help: number === "25" ? "allowed in most places" : "" };
    }),
    NOT_KNOWN,
  ],
  usual: "not-known",
  unknown: "not-known",
  typed: "100 mW",
  written: (word) => word.replace(/^(\d+(?:\.\d+)?)(?:-mw)?$/, "$1 mW"),
};

export const STICK_MODE: SettingQuestion = {
  id: "stick-mode",
  section: "transmitter",
  name: "stick-mode",
  prompt: "Which function lies on which stick?",
  choices: [
    { word: "1", label: "Mode 1", help: "throttle and roll right" },
    { word: "2", label: "Mode 2", help: "throttle and yaw left; the most common" },
    { word: "3", label: "Mode 3", help: "throttle and yaw right" },
    { word: "4", label: "Mode 4", help: "throttle and roll left" },
    { word: "not-known", label: "Not said", help: "" },
  ],
  usual: "not-known",
  unknown: "not-known",
  typed: "2",
  written: (word) => word.replace(/^mode\s*/i, ""),
};

export const ORDER: SettingQuestion = {
  id: "order",
  section: "link",
  name: "order",
  prompt: "In which order do the sticks come, on channels 1 to 4?",
  choices: [
    { word: "not-known", label: "Not known", help: "look at the bench: move one stick at a time" },
    { word: "roll pitch throttle yaw", label: "roll pitch throttle yaw", help: "the usual order" },
    { word: "throttle roll pitch yaw", label: "throttle roll pitch yaw", help: "the other one that is common" },
  ],
  usual: "not-known",
  unknown: "not-known",
  typed: "roll pitch yaw throttle",
  written: (word) =>
    word
      .toLowerCase()
      .replace(/[\s,;-]+/g, " ")
      .trim(),
};

export const TRAVEL: SettingQuestion = {
  id: "travel",
  section: "transmitter",
  name: "travel",
  prompt: "Which pulses do the sticks send at their ends?",
  choices: [
    { word: "not-measured", label: "Not measured", help: "look at the bench, and write “travel” then" },
    { word: "1000 us to 2000 us", label: "1000 us to 2000 us", help: "what most craft expect" },
    { word: "988 us to 2012 us", label: "988 us to 2012 us", help: "a little beyond, as many handsets send" },
  ],
  usual: "not-measured",
  unknown: "not-measured",
  typed: "990 us to 2010 us",
  written: (word) => {
    const ends = readRange(word);
    return "value" in ends ? `${ends.value.fromUs} us to ${ends.value.toUs} us` : word;
  },
};

/** The value as the script writes it; null for one that is not known, and once a question stands open. */
export function askSetting(
  steps: Steps,
  { section, name, unknown, written, ...question }: SettingQuestion,
  workspace: Workspace,
  theirs: ReadonlyMap<string, string> | null,
): string | null {
  const usual = (section === "transmitter" && theirs?.get(name)) || question.usual;
  const isListed = choiceFor(question.choices, usual) !== undefined;
  const choices = isListed ? question.choices : [{ word: usual, label: usual, help: "as there" }, ...question.choices];
  const read = steps.text({ ...question, choices, usual }, (word): Read<string | null> => {
    if (word === unknown) return { value: null };
    const text = settingText(workspace, section, name, written(word));
    // Each stick has a channel, so an order names all four of them.
    const isWhole = name !== "order" || text?.split(" ").length === 4;
    return text !== null && isWhole ? { value: text } : { problem: "" };
  });
  return read;
}

/** The ends of the sticks, which are the usual ends of every control too. */
export function endsOf(travel: string | null): PulseEnds {
  const read = travel === null ? null : readRange(travel);
  return read && "value" in read ? read.value : { fromUs: 1000, toUs: 2000 };
}
