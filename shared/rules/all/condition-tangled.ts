import { boardOf } from "../../logic/from-craft.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";
import { type Craft, modeNamed } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { walkCondition } from "../../syntax/condition.ts";
import type { CraftRule, ExampleFiles, Report } from "../engine/rule.ts";
import { conditionLocation, conditionLocations } from "../lib/condition-locations.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";
import { precedencePairs } from "../lib/precedence.ts";

/** Switches in each of the two rows of the example's handset: with fewer the condition below is followed. */
const ROW = 10;
const row = Array.from({ length: ROW }, (_, i) => i + 1);
const DESK: ExampleFiles = {
  "desk.fettle": `handset "Desk"\n\ncontrols\n${[
    ...row.map((i) => `  A${i} switch ch${4 + i} up 1000 us mid 1500 us down 2000 us\n`),
    ...row.map((i) => `  B${i} switch ch${4 + ROW + i} up 1000 us mid 1500 us down 2000 us\n`),
  ].join("")}`,
};
const sideBySide = row.map((i) => `A${i} is down and B${i} is down`).join(" or ");
const crosswise = row.map((i) => `A${i} is up and B${ROW + 1 - i} is up`).join(" or ");
const askew = row
  .slice(1)
  .map((i) => `A${i} is up and B${i - 1} is up`)
  .join(" or ");
const jug = (output: string) => `craft "Jug"\n\nuse "desk.fettle"\n\noutputs\n${output}`;

export const rule: CraftRule = {
  code: "condition-tangled",
  severity: "warning",
  scope: "craft",
  looksAt: { modes: [EVERY_MODE] },
  summary: "A condition combines so many controls that it cannot be followed.",
  prose:
    "What a condition does is computed for all combinations of the controls at once, which is quick for any condition that a pilot can keep in mind. Where dozens of controls are combined crosswise, the work multiplies, and above a limit it stops: then nothing is claimed of that mode, good or bad, here or anywhere else, nor of modes that name it. All others stay exact. Take controls out of the condition, combine each control only with a few listed near it, or split the condition into several modes that each depend on a few; what nobody can follow is also hard to fly. Naming a part of it as a mode of its own makes it easier to read, and helps here only if the whole then depends on fewer controls. The limit is counted in steps of work, and is the same on every machine.",
  examples: {
    bad: {
      "jug.fettle": jug(
        `  # two down side by side, and two up crosswise\n  lamp when (${sideBySide}) and (${crosswise})\n`,
      ),
      ...DESK,
    },
    good: {
      "jug.fettle": jug(`  # two down side by side, and two up askew\n  lamp when (${sideBySide}) and (${askew})\n`),
      ...DESK,
    },
  },
  check(craft, workspace) {
    const board = boardOf(craft, workspace);
    return [...tangledAlone(craft, workspace, board), ...tangledTogether(craft, workspace, board)];
  },
};

/** Conditions that are tangled themselves; those that depend on one are named in its finding. */
function tangledAlone(craft: Craft, workspace: Workspace, board: Switchboard): Report[] {
  const behind = new Map<string, string[]>();
  for (const [name, root] of board.tangles) {
    const others = behind.get(root) ?? [];
    if (name !== root) others.push(name);
    behind.set(root, others);
  }
  return [...behind].map(([name, others]) => {
    const nor = others.length > 0 ? `, nor of what depends on it: ${others.join(", ")}` : "";
    return {
      ...conditionLocation(craft, workspace, name),
      message: `${name} is too tangled to follow: ${conditionSize(craft, name)} decide it in more ways than can be gone through, so nothing is claimed of it${nor}. Let fewer controls decide it, or split it into several modes that each depend on a few.`,
    };
  });
}

/** How much stands in a condition, in words; the modes that it names count as one test each. */
function conditionSize(craft: Craft, name: string): string {
  let tests = 0;
  const tested = new Set<string>();
  for (const { condition } of modeNamed(craft, name)?.lines ?? []) {
    for (const node of condition ? walkCondition(condition) : []) {
      const subject = "subject" in node ? node.subject : null;
      if (node.kind === "is") tested.add(node.control);
      else if (node.kind === "mode") tested.add(node.name);
      else if (subject) tested.add(subject.kind === "control" ? subject.name : `ch${subject.channel}`);
      else continue;
      tests++;
    }
  }
  return `${counted(tests, "test")} of ${counted(tested.size, "control")}`;
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** Modes that can each be followed alone, but not together with another that they relate to; one finding a mode. */
function tangledTogether(craft: Craft, workspace: Workspace, board: Switchboard): Report[] {
  const { clashes } = workspace.catalogue.modeRelations;
  const pairs = [
    { over: "arm", under: "arm-permit" },
    ...clashes.map(({ modes: [over, under] }) => ({ over, under })),
    ...precedencePairs(craft, workspace),
  ];
  const reported = new Set<string>();
  return pairs.flatMap(({ over, under }) => {
    const [one, other] = [board.selected(over), board.selected(under)];
    if (one === null || other === null || reported.has(under)) return [];
    if (board.sets.and(one, other) !== null && board.sets.within(other, one) !== null) return [];
    reported.add(under);
    return [
      {
        ...conditionLocations(craft, workspace, under, over),
        message: `${over} and ${under} are too tangled to follow together, though each by itself is not: nothing is claimed of what they do to one another. Let them depend on the same controls in the same order, or on fewer.`,
      },
    ];
  });
}
