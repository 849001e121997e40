/** Reads settings of a craft, and notes for a phase on which lines it rests and what is missing. */
import type { Craft, Setting } from "../model/craft.ts";
import { amountIn, settingOf } from "../model/setting-lookup.ts";
import type { SignalGap, SignalLine } from "../protocol/signal.ts";

/** What a phase rests on; each reading is noted, found or not. */
export interface PhaseNotes {
  readonly lines: readonly SignalLine[];
  readonly gaps: readonly SignalGap[];
  /** The word of a choice, or `yes` or `no`; null where it is not known. */
  word(name: string): string | null;
  /** The quantity in `unit`, and as written; null where it is not known or is no quantity. */
  amount(name: string, unit: string): { readonly number: number; readonly text: string } | null;
  /** The value as written, if a file says it; not noted as missing otherwise. */
  saidText(name: string): string | null;
  /** Notes the line of a setting. */
  line(setting: Setting): void;
  /** Notes the lines of a mode. */
  mode(name: string): void;
  /** Notes that a default of the catalogue stands in, unless a file says the setting. */
  usual(name: string): void;
}

/** Notes for one phase of this craft. */
export function notesFor(craft: Craft): PhaseNotes {
  const lines: SignalLine[] = [];
  const gaps: SignalGap[] = [];
  const note = (line: SignalLine) => {
    if (!lines.some(({ name, at }) => name === line.name && at.line === line.at.line)) lines.push(line);
  };
  const miss = (name: string, why: SignalGap["why"]) => {
    if (!gaps.some((gap) => gap.name === name)) gaps.push({ name, why });
  };
  const said = (name: string): Setting | null => {
    const setting = settingOf(craft, name);
    if (!setting) return null;
    if (!isSaid(craft, name)) {
      miss(name, "unread");
      return null;
    }
    note({ name, text: setting.text, at: placeOf(setting.source) });
    if (setting.value === null) miss(name, "faulty");
    return setting.value === null ? null : setting;
  };
  const asked = (name: string): Setting | null => {
    if (!settingOf(craft, name)) miss(name, "unsaid");
    return said(name);
  };
  return {
    lines,
    gaps,
    word: (name) => wordOf(asked(name)),
    amount(name, unit) {
      const setting = asked(name);
      const number = amountIn(setting ?? undefined, unit);
      return setting && number !== undefined ? { number, text: setting.text } : null;
    },
    saidText: (name) => said(name)?.text ?? null,
    line: ({ section, name, text, source }) => note({ name: `${section}.${name}`, text, at: placeOf(source) }),
    mode(name) {
      for (const { source } of craft.modes.get(name)?.lines ?? [])
        note({ name, text: craft.modes.get(name)!.text, at: placeOf(source) });
    },
    usual(name) {
      if (settingOf(craft, name)) said(name);
      else miss(name, "usual");
    },
  };
}

/** Whether a line that could be read says the setting, be it with a fault. */
export function isSaid(craft: Craft, name: string): boolean {
  // What a file that could not be read may say has no text.
  return (settingOf(craft, name)?.text ?? "") !== "";
}

/** A file and a line, and nothing more that a source may hold. */
function placeOf({ file, line }: Setting["source"]): SignalLine["at"] {
  return { file, line };
}

/** The word of a setting that a file says, without a note of it; null where none is known. */
export function saidWord(craft: Craft, name: string): string | null {
  return wordOf(settingOf(craft, name) ?? null);
}

function wordOf(setting: Setting | null): string | null {
  const value = setting?.value;
  if (value?.kind === "yes-no") return value.yes ? "yes" : "no";
  return value?.kind === "choice" ? value.word : null;
}
