/** What can hurt somebody if it is adopted without a look, and what is never adopted unasked. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf } from "../../model/craft.ts";
import type { ReviewRow } from "../../protocol/review.ts";
import { nameOf, sectionOf } from "../compare/compare.ts";

const ARMING = "It decides when the motors can start.";
const TAKES_OVER = "It takes the craft over by itself.";

const BY_MODE: ReadonlyMap<string, string> = new Map([
  ["arm", ARMING],
  ["arm-permit", ARMING],
  ["turtle", "It starts motors on a craft that lies on the ground."],
  ["launch-hold", "It holds the craft back with its motors running."],
  ["level-now", TAKES_OVER],
  ["return-home", TAKES_OVER],
  ["loss-trial", "It makes the craft do what it does when the signal is lost."],
]);

const BY_SECTION: ReadonlyMap<string, string> = new Map([
  ["safety", ARMING],
  ["failsafe", "It decides what the craft does when the signal is lost."],
  ["link", "It decides how sticks and switches reach the craft."],
  ["motors", "It decides how the motors are driven: a wrong figure costs a motor, or a craft in the air."],
  ["ports", "A wire on another port leaves the board without its receiver or its motors."],
  ["controls", "Every condition that names this control then means other positions, or another channel."],
  ["handset", "Every control then is one of another handset."],
]);

const MOUNT = "A board that does not know how it sits in the frame corrects the wrong way.";
const TURNS = "A motor that is told wrongly flips the craft at take-off.";
const CHECKED = "It would say that your craft was checked when it was theirs.";

/** Why a name is dangerous, in a sentence; null where it is not. */
export function dangerOf(what: string): string | null {
  const [section, name] = [sectionOf(what), nameOf(what)];
  if (section === "modes") return BY_MODE.get(name) ?? null;
  if (section === "sensors") return /^(?:mount-|compass-)/.test(name) ? MOUNT : null;
  if (section === "motors" && /^(?:motor\d|spin|reversible|reverse-band|yaw-servo-)/.test(name)) return TURNS;
  if (section === "bench") return name.endsWith("-checked") ? CHECKED : null;
  return BY_SECTION.get(baseOf(section)) ?? null;
}

/** Whether a name is of the parts of a craft, of how its pilot likes it, or of what keeps it safe. */
export function natureOf(what: string, catalogue: Catalogue): ReviewRow["nature"] {
  const section = baseOf(sectionOf(what));
  const name = nameOf(what);
  switch (catalogue.section(section)?.holds) {
    case "modes":
      return "taste";
    case "outputs":
    case "controls":
    case "kept":
      return "hardware";
    case "follows":
      return settingMoved(name, catalogue)?.kind ?? "taste";
    case "places":
      return catalogue.setting(section, name)?.kind ?? "taste";
    case "settings":
      // What is read on a bench, and what a frame weighs, is of one craft, whatever it serves.
      return OF_ONE_CRAFT.has(section) ? "hardware" : (catalogue.setting(section, name)?.kind ?? null);
    default:
      return "hardware";
  }
}

const OF_ONE_CRAFT: ReadonlySet<string> = new Set(["bench", "frame", "board", "transmitter"]);

function settingMoved(name: string, catalogue: Catalogue) {
  return catalogue.sections.flatMap(({ settings }) => settings).find((each) => each.name === name && each.adjustable);
}

/** What names a person or one transmitter among many: taste, and yet of the one who wrote it. */
const PERSONAL: readonly string[] = ["osd.pilot-name", "osd-second.pilot-name"];

/** What depends on the stuff that a craft is made of, though it is felt. */
const TUNE: ReadonlySet<string> = new Set(["gains", "gains-second", "filters"]);

/** What is known of both sides when it is decided what is chosen unasked. */
export interface Preselecting {
  readonly purpose: "review" | "carry";
  readonly catalogue: Catalogue;
  /** Whether its condition names a control for which another only stands in because it was left over. */
  readonly isGuessed: (what: string) => boolean;
  /** Whether the craft has a section, such as `pack/Winter`. */
  readonly hasSection: (section: string) => boolean;
  /** The packs are of another chemistry: volts of a cell mean something else. */
  readonly isOtherChemistry: boolean;
  /** The picture has other cells: a place on one is none on the other. */
  readonly isOtherGrid: boolean;
}

/** Whether a name is chosen before anybody has looked: of a text the harmless taste, of a craft of one's own also what is safety. */
export function isPreselected(what: string, about: Preselecting): boolean {
  const { purpose, catalogue } = about;
  const [section, name] = [sectionOf(what), nameOf(what)];
  const nature = natureOf(what, catalogue);
  if (nature === null || nature === "hardware" || about.isGuessed(what)) return false;
  // A pack by its name is a thing on the shelf of whoever wrote it.
  if (section.startsWith("pack/") && !about.hasSection(section)) return false;
  if (about.isOtherChemistry && OF_CELLS.has(`${baseOf(section)}.${name}`)) return false;
  const isPlace = catalogue.section(section)?.holds === "places" && catalogue.element(name) !== undefined;
  if (about.isOtherGrid && isPlace) return false;
  if (purpose === "review") return nature === "taste" && dangerOf(what) === null && !PERSONAL.includes(what);
  const isTune = TUNE.has(section) || (section === "adjust" && !isOfRates(name, catalogue));
  return !isTune && !OF_PARTS.has(what);
}

/** Volts of one cell. */
const OF_CELLS: ReadonlySet<string> = new Set(["pack.warn-at", "pack.land-at", "safety.arm-needs-cell-volts"]);

function isOfRates(name: string, catalogue: Catalogue): boolean {
  return catalogue.setting("rates", name) !== undefined;
}

/** Taste or safety by its nature, and still to be found anew on each craft. */
const OF_PARTS: ReadonlySet<string> = new Set([
  "failsafe.descend-throttle",
  "pack.warn-after",
  "pack.reserve",
  "video.frequency",
  "video.channel-label",
  "rates.note",
  "rates-second.note",
]);
