/** The phases that follow a lost signal, one function for each part of the failsafe; put one after another by `chained`. */

import type { Craft, Setting } from "../model/craft.ts";
import { settingOf } from "../model/setting-lookup.ts";
import type { PhaseDeed, PhaseLength, SignalBack, SignalPhase } from "../protocol/signal.ts";
import { notesFor, type PhaseNotes, saidWord } from "./phase-notes.ts";
import { throttleIn } from "./throttle.ts";

/** A phase before it is known when it begins. */
export type LoosePhase = Omit<SignalPhase, "fromMs">;

type Receiver = SignalPhase["receiver"];

export const UNKNOWN: PhaseLength = { kind: "unknown" };
export const OPEN: PhaseLength = { kind: "open" };

/** A phase from its parts; the notes are taken when everything has been read. */
export function phase(
  notes: PhaseNotes,
  deed: PhaseDeed,
  length: PhaseLength,
  rest: Pick<SignalPhase, "receiver" | "armed" | "back">,
): LoosePhase {
  return { deed, length, ...rest, lines: notes.lines, gaps: notes.gaps };
}

/** Gives each phase its beginning, in ms from the last packet. A hold or a wait of nothing is no phase. */
export function chained(loose: readonly LoosePhase[]): SignalPhase[] {
  let fromMs: number | null = 0;
  const phases: SignalPhase[] = [];
  for (const each of loose) {
    if (each.length.kind === "known" && each.length.ms === 0) continue;
    // Whether the hold comes first is not said.
    if (each.deed.kind === "stops" && each.deed.after === "hold unclear") fromMs = null;
    phases.push({ ...each, fromMs });
    fromMs = fromMs !== null && each.length.kind === "known" ? fromMs + each.length.ms : null;
  }
  return phases;
}

function lengthOf(notes: PhaseNotes, name: string): PhaseLength {
  const amount = notes.amount(name, "ms");
  return amount ? { kind: "known", ms: Math.round(amount.number * 1000) / 1000 } : UNKNOWN;
}

/** The board waits for packets, `link.lost-after`, before it calls the signal lost. */
export function unnoticedByBoard(craft: Craft, receiver: Receiver): LoosePhase {
  const notes = notesFor(craft);
  if (receiver === "silent") notes.word("link.on-loss");
  const length = lengthOf(notes, "link.lost-after");
  return phase(notes, { kind: "unnoticed", by: "board" }, length, {
    receiver,
    armed: "yes",
    back: { kind: "at-once" },
  });
}

/** The board still waits for the signal before it acts, `failsafe.hold-for`. */
export function held(craft: Craft, receiver: Receiver): LoosePhase {
  const notes = notesFor(craft);
  const length = lengthOf(notes, "failsafe.hold-for");
  const word = notes.word("failsafe.hold-with");
  const sticks = word === "last" || word === "centred" || word === "level" ? word : null;
  const deed: PhaseDeed = { kind: "held", sticks, canLevel: sticks !== "level" || canLevel(craft, notes) };
  return phase(notes, deed, length, { receiver, armed: "yes", back: backAfter(notes) });
}

/** A blind descent, and the stop that ends it, unless nothing does. */
export function descent(craft: Craft, receiver: Receiver, by: string): LoosePhase[] {
  const notes = notesFor(craft);
  notes.word(by);
  const throttle = notes.amount("failsafe.descend-throttle", "%") ?? notes.amount("failsafe.descend-throttle", "us");
  const level = notes.word("failsafe.descend-level");
  const known = lengthOf(notes, "failsafe.descend-for");
  const isEndless = known.kind === "known" && known.ms === 0;
  const deed: PhaseDeed = {
    kind: "descends",
    throttle: throttle?.text ?? null,
    level: level === "yes" || level === "no" ? level : null,
    canLevel: level !== "yes" || canLevel(craft, notes),
    hover: hoverNotAbove(craft, notes),
  };
  const rest = { receiver, armed: "yes" as const, back: backAfter(notes) };
  const descends = phase(notes, deed, isEndless ? OPEN : known, rest);
  return isEndless ? [descends] : [descends, stopped(craft, receiver, "descent", ["failsafe.descend-for"])];
}

/** The motors are off, and stay so until the pilot has the craft back. `by` are the settings that cause it. */
export function stopped(
  craft: Craft,
  receiver: Receiver,
  after: Extract<PhaseDeed, { kind: "stops" }>["after"],
  by: readonly string[],
): LoosePhase {
  const notes = notesFor(craft);
  for (const name of by) notes.saidText(name);
  const byPresets = after === "presets" || after === "permit";
  const word = byPresets ? null : notes.word("failsafe.rearm-needs-off");
  const back: SignalBack = byPresets
    ? { kind: "arms-again" }
    : { kind: "stopped", needsOff: word === "yes" || word === "no" ? word : null };
  return phase(notes, { kind: "stops", after }, OPEN, { receiver, armed: "no", back });
}

/** Nothing is known of what comes: no file says `name`, or its line has a fault. */
export function notSaid(craft: Craft, receiver: Receiver, names: readonly string[]): LoosePhase {
  const notes = notesFor(craft);
  for (const name of names) notes.word(name);
  return phase(notes, { kind: "unknown" }, OPEN, { receiver, armed: "unknown", back: { kind: "unknown" } });
}

/** The pilot gets the craft back after `failsafe.resume-after`; `push` where a stick has to be moved as well. */
export function backAfter(notes: PhaseNotes, push: "sticks" | "nothing" = "nothing"): SignalBack {
  const wait = notes.amount("failsafe.resume-after", "s");
  const stick = push === "sticks" ? notes.saidText("failsafe.resume-stick") : null;
  return { kind: "after", wait: wait?.text ?? null, push: stick };
}

/** False where the script says that there is no accelerometer: the craft cannot tell down. */
export function canLevel(craft: Craft, notes: PhaseNotes): boolean {
  if (saidWord(craft, "sensors.accelerometer") !== "no") return true;
  notes.saidText("sensors.accelerometer");
  return false;
}

/** The hover as written, where the throttle of the descent is said to be no less than it with some pack; else null. */
function hoverNotAbove(craft: Craft, notes: PhaseNotes): string | null {
  const descent = throttleIn(craft, settingOf(craft, "failsafe.descend-throttle"));
  if (descent === null) return null;
  const usual = [settingOf(craft, "pack.hover-throttle"), settingOf(craft, "frame.hover-throttle")].find(
    (setting) => throttleIn(craft, setting) !== null,
  );
  const named = ofNamedPacks(craft, "hover-throttle");
  const high = [...(usual ? [{ pack: "", setting: usual }] : []), ...named].find(({ setting }) => {
    const hover = throttleIn(craft, setting);
    return hover !== null && descent >= hover;
  });
  if (!high) return null;
  notes.line(high.setting);
  return withPack(high.setting.text, high.pack);
}

/** The volts at which the pack, and each named one that says its own, has to be landed; null where none is said. */
export function landingVolts(craft: Craft, notes: PhaseNotes): string | null {
  const usual = notes.saidText("pack.land-at");
  const named = ofNamedPacks(craft, "land-at").filter(({ setting }) => setting.value !== null);
  for (const { setting } of named) notes.line(setting);
  const all = [...(usual === null ? [] : [usual]), ...named.map(({ setting, pack }) => withPack(setting.text, pack))];
  return all.length === 0 ? null : all.join(", ");
}

function withPack(text: string, pack: string): string {
  return pack === "" ? text : `${text} with pack “${pack}”`;
}

const PACK = "pack/";

function ofNamedPacks(craft: Craft, name: string): { readonly pack: string; readonly setting: Setting }[] {
  return [...craft.settings].flatMap(([section, table]) => {
    const setting = section.startsWith(PACK) ? table.get(name) : undefined;
    return setting ? [{ pack: section.slice(PACK.length), setting }] : [];
  });
}
