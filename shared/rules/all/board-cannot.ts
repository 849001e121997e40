import type { Cover } from "../../dialect/conditions/cover.ts";
import { planConditions } from "../../dialect/conditions/plan.ts";
import type { Dialect } from "../../dialect/dialect.ts";
import { dialectNamedBy } from "../../dialect/dialects.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import { perFile } from "../../model/memo.ts";
import type { CraftRule } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";
import { positionsInWords } from "../lib/positions-in-words.ts";

const JUG = 'craft "Jug"\n\nuse "wheel.fettle"\n\nboard\n  dialect "kiln.fettle"\n\nmodes\n  arm when TL is down\n';

/** A dialect whose lines hold one range, or two. */
function kiln(left: string, right: string) {
  return `dialect "Kiln"\n\ntext\n  repeats "shelf"\n\ncodes\n  does  words a arm, f level\n  flue  number 0 to 11 from ch5\n  draw  number 0 to 60 from 880 us each 20 us\n\nmodes\n  "shelf {m:does} by {c:flue} {a:draw}..{b:draw}${left}"  {m} when {c} in {a} to {b}${right}\n`;
}

export const rule: CraftRule = {
  code: "board-cannot",
  severity: "warning",
  scope: "craft",
  summary: "The lines of the craft's board cannot say when a mode is on.",
  prose:
    "A board holds a condition as lines that test the pulses of channels, as many lines and as many tests in each as it has room for. Where no such lines together mean exactly what the script says, writing the board's text leaves the mode out, and the board has it off. Put the condition more simply, so that it needs fewer controls at once or fewer lines, or move it to a control that the board can test.",
  examples: {
    bad: {
      "jug.fettle": `${JUG}  level when TL is down and TR is mid\n`,
      "kiln.fettle": kiln("", ""),
      ...WHEEL,
    },
    good: {
      "jug.fettle": `${JUG}  level when TL is down and TR is mid\n`,
      "kiln.fettle": kiln(" by {d:flue} {x:draw}..{y:draw}", " and {d} in {x} to {y}"),
      ...WHEEL,
    },
  },
  looksAt: { settings: ["board.dialect", "link.endpoints", "link.two-level"], modes: [EVERY_MODE] },
  restsOn: (craft, workspace) => dialectNamedBy(workspace, craft),
  check(craft, workspace) {
    const dialect = dialectNamedBy(workspace, craft);
    if (!dialect) return [];
    return [...planOf(craft, boardOf(craft, workspace), dialect)].flatMap(([name, cover]) => {
      // What is not known has a finding of its own.
      if (cover.kind !== "cannot" || !cover.positions) return [];
      const bare = name.replace(/^outputs\./, "");
      return {
        ...conditionLocation(craft, workspace, name),
        message: `Board text of “${dialect.name}” cannot say when ${bare} is on: ${cover.why}. With ${positionsInWords(cover.positions)} it is on here, and on the board, without a line for it, it is off.`,
        witness: cover.positions,
      };
    });
  },
};

/** The last plan of a craft: most keys concern neither switches nor the dialect. */
const lastPlan = perFile((): { board?: Switchboard; dialect?: Dialect; plan?: ReadonlyMap<string, Cover> } => ({}));

function planOf(craft: Craft, board: Switchboard, dialect: Dialect): ReadonlyMap<string, Cover> {
  const last = lastPlan(craft);
  if (!last.plan || last.board !== board || last.dialect !== dialect)
    Object.assign(last, { board, dialect, plan: planConditions(board, dialect) });
  return last.plan!;
}
