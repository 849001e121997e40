import { boardOf } from "../../logic/from-craft.ts";
import type { StateSet, Switchboard } from "../../logic/switchboard-types.ts";
import type { CraftRule, Report } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { positionsInWords } from "../lib/positions-in-words.ts";

/** The modes that take a craft over, with what comes of it. */
const TAKES_OVER: readonly { readonly mode: string; readonly consequence: string }[] = [
  { mode: "turtle", consequence: "the first start is a somersault" },
  { mode: "return-home", consequence: "the craft flies where it takes home to be as soon as it has left the ground" },
  { mode: "loss-trial", consequence: "the craft does as if the link were lost as soon as it arms" },
  { mode: "launch-hold", consequence: "the craft leans on its feet when it arms, and waits to be let go" },
  { mode: "osd-hide", consequence: "the picture is bare, and warns of nothing" },
];

/** Whether a set holds with the switches at rest, wherever dials and other channels are. */
function holdsAtRest({ sets, rest, variables }: Switchboard, set: StateSet): boolean {
  const free = variables.map(({ name }) => name).filter((name) => !(name in rest));
  return sets.all(sets.given(set, rest), free) === sets.every;
}

/** The positions at rest on which a set depends: “ (TR up)”; nothing for one that depends on none. */
function restOf({ sets, rest }: Switchboard, set: StateSet): string {
  const names = sets.dependsOn(set).filter((name) => name in rest);
  return names.length === 0
    ? ""
    : ` (${positionsInWords(Object.fromEntries(names.map((name) => [name, rest[name]!])))})`;
}

export const rule: CraftRule = {
  code: "mode-at-rest",
  severity: "warning",
  scope: "craft",
  summary: "A mode that takes the craft over, or clears the picture, is on while every control rests.",
  prose:
    "Controls rest like this when the handset is switched on, and so do they whenever nobody thinks of them: what is selected then is selected on every flight that is begun without looking. Let such a mode be asked for by moving a control, mostly by the other end of the same switch, or say with “rests” where the switch really lies.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  turtle when TR is not down\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  turtle when TR is down\n',
      ...WHEEL,
    },
  },
  looksAt: { modes: [...TAKES_OVER.map(({ mode }) => mode), "arm", "arm-permit"] },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    const { sets, armed, atRest } = board;
    return TAKES_OVER.flatMap(({ mode, consequence }): Report[] => {
      const selected = board.selected(mode);
      if (selected === null || !holdsAtRest(board, selected)) return [];
      // What is always on is no matter of switches, and was meant so; but no craft always flies home.
      if (selected === sets.every && mode !== "return-home") return [];
      const isHint = mode === "osd-hide";
      // A picture that is bare until the craft is armed tells all when it counts.
      if (isHint && craft.modes.has("arm") && sets.meet(selected, armed) !== true) return [];
      // That it never acts in flight is another finding; turtle is chosen on the ground.
      if (mode !== "turtle" && craft.modes.has("arm") && sets.meet(selected, armed) === false) return [];
      const witness = board.witness(sets.and(selected, atRest));
      if (!witness) return [];
      return [
        {
          ...conditionLocation(craft, workspace, mode),
          message: `With every control at rest${restOf(board, selected)} ${mode} is selected: ${consequence}.`,
          severity: isHint ? "hint" : "warning",
          witness: witness.positions,
        },
      ];
    });
  },
};
