/** A return by itself: with a fix, without one, and too close to home. */
import type { Craft } from "../model/craft.ts";
import { amountIn, settingOf } from "../model/setting-lookup.ts";
import type { CourseWhen, PhaseDeed, SignalPhase } from "../protocol/signal.ts";
import { notesFor, saidWord } from "./phase-notes.ts";
import {
  backAfter,
  canLevel,
  descent,
  type LoosePhase,
  landingVolts,
  notSaid,
  OPEN,
  phase,
  stopped,
} from "./phases.ts";

type Receiver = SignalPhase["receiver"];
type Back = SignalPhase["back"];

/** A part of a course, and the circumstances under which it is taken. */
export interface Branch {
  readonly when: readonly CourseWhen[];
  readonly phases: readonly LoosePhase[];
}

/**
 * The ways of a return that something began: `by` is the setting or the mode. `back` is what ends it when the
 * signal is back, where that is not the failsafe's own.
 */
export function returnBranches(craft: Craft, receiver: Receiver, by: string, back?: Back): Branch[] {
  const port = hasSatellites(craft);
  const withFix: Branch = {
    when: [{ kind: "fix", port: port === false ? "no" : "yes" }],
    phases: homeward(craft, receiver, by, back),
  };
  const without: Branch = {
    when: [{ kind: "no-fix", orNoHeading: needsHeading(craft) }],
    phases: withoutFix(craft, receiver),
  };
  const near = nearHome(craft, receiver);
  return [...(port === false ? [without, withFix] : [withFix, without]), ...(near ? [near] : [])];
}

/** Whether a port serves satellites; null where the script says nothing of its ports. */
function hasSatellites(craft: Craft): boolean | null {
  const ports = [...(craft.settings.get("ports")?.values() ?? [])].filter(({ name }) => /^port\d+$/.test(name));
  if (ports.length === 0 || ports.some(({ value }) => value === null)) return null;
  return ports.some(({ value }) => value?.kind === "choice" && value.word === "gps");
}

/** With a compass the heading is known as soon as there is a fix. */
function needsHeading(craft: Craft): boolean {
  return saidWord(craft, "navigation.home-needs-heading") === "yes" && saidWord(craft, "sensors.compass") !== "yes";
}

function homeward(craft: Craft, receiver: Receiver, by: string, back?: Back): LoosePhase[] {
  const notes = notesFor(craft);
  noteCause(craft, notes, by);
  const height = notes.amount("navigation.return-height", "m")?.text ?? null;
  const word = notes.word("navigation.return-climb");
  const climb = word === "first" || word === "on-the-way" || word === "keep-if-higher" ? word : null;
  const speed = notes.amount("navigation.return-speed", "m/s")?.text ?? null;
  const homeIsKnown = notes.word("safety.arm-needs-fix") === "yes";
  const deed: PhaseDeed = { kind: "flies-home", height, speed, climb, homeIsKnown, canLevel: canLevel(craft, notes) };
  const flown = { receiver, armed: "yes" as const, back: back ?? backAfter(notes, "sticks") };
  const flies = phase(notes, deed, { kind: "depends", on: "way home" }, flown);
  const climbs: LoosePhase[] = [];
  if (height !== null && (climb === "first" || climb === "keep-if-higher")) {
    const own = notesFor(craft);
    noteCause(craft, own, by);
    for (const name of ["navigation.return-height", "navigation.return-climb", "navigation.climb-speed"])
      own.saidText(name);
    const rises: PhaseDeed = { kind: "climbs", height, when: climb === "first" ? "always" : "if lower" };
    climbs.push(
      phase(own, rises, { kind: "depends", on: "climb" }, { ...flown, back: back ?? backAfter(own, "sticks") }),
    );
  }
  return [...climbs, flies, ...arrival(craft, receiver, flown)];
}

function arrival(
  craft: Craft,
  receiver: Receiver,
  flown: Pick<SignalPhase, "receiver" | "armed" | "back">,
): LoosePhase[] {
  const notes = notesFor(craft);
  const landing = () => {
    for (const name of ["descend-speed", "landing-speed", "landing-height"]) notes.saidText(`navigation.${name}`);
    return phase(notes, { kind: "lands" }, { kind: "depends", on: "landing" }, flown);
  };
  switch (notes.word("navigation.arrival")) {
    case "land":
      return [landing(), stopped(craft, receiver, "landing", ["navigation.arrival"])];
    case "stop":
      return [stopped(craft, receiver, "home", ["navigation.arrival"])];
    case "wait": {
      const landAt = landingVolts(craft, notes);
      const waits = phase(notes, { kind: "waits-home", landAt }, { kind: "depends", on: "pilot or pack" }, flown);
      const own = notesFor(craft);
      own.saidText("navigation.arrival");
      const down = phase(own, { kind: "down" }, OPEN, { receiver, armed: "unknown", back: { kind: "unknown" } });
      return [waits, landing(), down];
    }
    default:
      return [notSaid(craft, receiver, ["navigation.arrival"])];
  }
}

function withoutFix(craft: Craft, receiver: Receiver): LoosePhase[] {
  const name = "failsafe.then-without-fix";
  switch (saidWord(craft, name)) {
    case "stop":
      return [stopped(craft, receiver, "flight", [name])];
    case "descend":
      return descent(craft, receiver, name);
    default:
      return [notSaid(craft, receiver, [name])];
  }
}

function nearHome(craft: Craft, receiver: Receiver): Branch | null {
  const setting = settingOf(craft, "navigation.start-distance");
  if (!setting || !((amountIn(setting, "m") ?? 0) > 0)) return null;
  const notes = notesFor(craft);
  notes.saidText("navigation.start-distance");
  const deed = phase(notes, { kind: "lands-or-stops" }, OPEN, {
    receiver,
    armed: "unknown",
    back: { kind: "unknown" },
  });
  return { when: [{ kind: "near-home", distance: setting.text }], phases: [deed] };
}

function noteCause(craft: Craft, notes: ReturnType<typeof notesFor>, by: string): void {
  if (craft.modes.has(by)) notes.mode(by);
  else notes.saidText(by);
}
