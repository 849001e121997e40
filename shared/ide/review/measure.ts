/** What has to be measured or checked anew on a craft to which settings were carried over, and where the reading goes. */
import type { Craft, Source } from "../../model/craft.ts";
import { lineForEntry } from "../edits/script-edits.ts";
import { saidOf } from "./said.ts";

/** Something to measure or to try, by the name whose line holds it. */
export interface Measure {
  /** SECTION.NAME. */
  readonly what: string;
  readonly words: string;
  readonly at: Source;
  readonly isWritten: boolean;
}

interface Item {
  readonly what: string;
  readonly words: string;
  /** Names of which the craft says at least one where this is of use; always where there are none. */
  readonly where?: readonly string[];
  /** What stands in the way: a choice that makes it useless, as SECTION.NAME TEXT. */
  readonly unless?: readonly string[];
}

const METER = "Read it beside a meter that you trust";

/** In the order in which one goes about it on the bench: propellers off, then the pack, then the first hover. */
const ITEMS: readonly Item[] = [
  {
    what: "bench.order-checked",
    words: "Each stick moves its own channel: order and receiver are those of this craft.",
  },
  { what: "bench.direction-checked", words: "Each stick moves its channel the right way." },
  {
    what: "bench.centres",
    words: "Where each stick rests, as this receiver gives it: dead zones stand on that.",
  },
  {
    what: "bench.mount-checked",
    words: "Tilted by hand, this board feels each tilt the right way round.",
  },
  {
    what: "sensors.level-trim-roll",
    words: "On a level table, how far this board believes to lean to the side.",
    where: ["modes.level", "modes.level-blend", "modes.level-now", "modes.return-home", "sensors.level-trim-roll"],
  },
  {
    what: "sensors.level-trim-pitch",
    words: "On a level table, how far this board believes to lean forwards.",
    where: ["modes.level", "modes.level-blend", "modes.level-now", "modes.return-home", "sensors.level-trim-pitch"],
  },
  {
    what: "sensors.compass-yaw",
    words: "How this compass sits: the heading must grow as the nose goes to the right.",
    where: ["sensors.compass", "sensors.compass-yaw"],
    unless: ["sensors.compass no"],
  },
  {
    what: "bench.motors-checked",
    words: "Each motor is in its place and turns its way. Propellers off.",
  },
  {
    what: "modes.arm",
    words:
      "Armed and disarmed with propellers off: only the switch that is meant does it, and it stops the motors at once.",
    where: ["modes.arm", "safety.stick-arming"],
  },
  {
    what: "bench.failsafe-checked",
    words: "With propellers off and the handset switched off, the craft does what “failsafe” says.",
  },
  {
    what: "bench.pack-volts-read",
    words: `${METER}: the volts of the pack, as the meter has them.`,
    where: ["pack.volts-from", "pack.divider-top", "osd.pack-volts", "osd.cell-volts", "pack.warn-at", "pack.land-at"],
    unless: ["pack.volts-from none"],
  },
  {
    what: "bench.pack-volts-shown",
    words: "The volts that the craft shows at the same moment; together they set its divider.",
    where: ["pack.volts-from", "pack.divider-top", "osd.pack-volts", "osd.cell-volts", "pack.warn-at", "pack.land-at"],
    unless: ["pack.volts-from none"],
  },
  {
    what: "pack.shunt-offset",
    words: "What the current meter shows while nothing flows.",
    where: ["pack.current-from", "pack.shunt"],
    unless: ["pack.current-from none"],
  },
  {
    what: "frame.mass",
    words: "What this craft weighs with its pack.",
  },
  {
    what: "bench.range-checked",
    words: "How far the link reaches at reduced power, with the antennas as they sit on this craft.",
  },
  {
    what: "frame.hover-throttle",
    words: "The throttle at which it hovers: what the craft does after a lost signal may rest on it.",
  },
  {
    what: "failsafe.descend-throttle",
    words: "The throttle at which it sinks gently, a little below that at which it hovers.",
    where: [
      "failsafe.descend-throttle",
      "failsafe.descend-for",
      "failsafe.then descend",
      "failsafe.then-without-fix descend",
      "failsafe.pack-empty-then descend",
    ],
  },
  {
    what: "bench.hover-checked",
    words:
      "After half a minute of hovering each motor can be touched: gains and filters fit this craft. Pack out first.",
  },
  {
    what: "pack.hover-current",
    words: "The current at which it hovers: flight times are reckoned from it.",
    where: ["pack.hover-current", "pack.current-from", "pack.shunt"],
    unless: ["pack.current-from none"],
  },
  {
    what: "bench.charge-put-back",
    words: "What the charger puts back after a flight.",
    where: ["pack.current-from", "pack.shunt", "osd.used-capacity", "pack.warn-after"],
    unless: ["pack.current-from none"],
  },
  {
    what: "bench.charge-counted",
    words: "What the craft counted in that flight; together they set its current meter.",
    where: ["pack.current-from", "pack.shunt", "osd.used-capacity", "pack.warn-after"],
    unless: ["pack.current-from none"],
  },
  {
    what: "bench.finder-checked",
    words: "The finder is heard on this craft, from where one would look for it.",
    where: ["modes.finder", "finder.after-lost", "finder.motors"],
  },
  {
    what: "navigation.home-set",
    words: "The way home, tried once at low height over open ground before one depends on it.",
    where: ["modes.return-home", "failsafe.then return-home", "failsafe.then return"],
  },
];

/** The list for a craft, as it would be with what is carried over; lines are those of `mine`, before anything is written. */
export function measuresFor(mine: Craft, result: Craft): readonly Measure[] {
  const has = (wanted: string) => {
    const [what = "", text] = wanted.split(" ", 2);
    const said = saidOf(result, what);
    return said !== null && (text === undefined || said.text === text);
  };
  return ITEMS.filter(({ where, unless = [] }) => (where === undefined || where.some(has)) && !unless.some(has)).map(
    ({ what, words }) => {
      const said = saidOf(mine, what);
      const section = what.slice(0, what.indexOf("."));
      return {
        what,
        words,
        at: said?.source ?? { file: mine.file, line: lineForEntry(mine.script, section) },
        isWritten: said !== null,
      };
    },
  );
}
