/** The controls of a craft as the panel shows them, and the resulting state. */
import { boardOf, linkOf } from "../../logic/from-craft.ts";
import type { ControlSpec, Positions, Switchboard } from "../../logic/switchboard-types.ts";
import { type Craft, isOutput, modeNamed } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import type { Workspace } from "../../model/workspace.ts";
import type {
  ControlsAt,
  LossPicture,
  PanelControl,
  PanelMode,
  ReadyPicture,
  SwitchesPicture,
  SwitchesState,
} from "../../protocol/panel.ts";
import { lostPositions } from "../../rules/lib/indistinct-controls.ts";
import { describeWay, readinessOf } from "../arming/readiness.ts";
import { adjustsOf } from "./adjusts.ts";

/** The most ways to turn a mode on that are listed; more are not read at a glance. */
const MOST_WAYS = 6;

/** The picture of the switches; null where the craft has no control. */
export function switchesOf(
  craft: Craft,
  workspace: Workspace,
  requested: ControlsAt | undefined,
): SwitchesPicture | null {
  const does = controlsAndModesOf(craft, workspace, requested);
  if (!does) return null;
  return {
    handset: craft.handset?.name ?? null,
    ...does,
    ready: readinessPicture(craft, workspace, does.state.positions),
    states: boardOf(craft, workspace).countStates(),
  };
}

/** What the controls do, and the resulting state; null where the craft has no control. */
export function controlsAndModesOf(
  craft: Craft,
  workspace: Workspace,
  requested: ControlsAt | undefined,
): Pick<SwitchesPicture, "controls" | "state" | "modes" | "loss"> | null {
  if (craft.controls.size === 0) return null;
  const board = boardOf(craft, workspace);
  const positions = { ...board.rest, ...possiblePositions(board, requested ?? {}) };
  return {
    controls: controlsOf(board, craft),
    state: stateOf(board, craft, workspace, positions),
    modes: board.names.map((name) => ({ ...modeOf(name, craft, workspace), ...waysOf(name, board) })),
    loss: lossOf(board),
  };
}

/** Why there are no switches to draw, and what to add. */
export function whyNoSwitches(craft: Craft): string {
  if (!craft.handset) return "No handset is in use: name the pilot's with a “use” line to see what its switches do.";
  return "The handset lists no controls yet: add them to its section “controls”.";
}

/** The requested positions that the controls have; the script may have changed since they were set. */
function possiblePositions(board: Switchboard, requested: ControlsAt): Positions {
  const kept: Record<string, string | number> = {};
  for (const { name, control } of board.variables) {
    const at = requested[name];
    if (at === undefined) continue;
    const isPosition = typeof at === "string" && control?.positions.some((each) => each.name === at);
    // Where no condition names a dial, the sets do not know its range.
    const takesPulse =
      typeof at === "number" && (control === null || (control.kind === "dial" && isWithin(at, control)));
    // A pulse outside the control's range belongs to no state.
    if ((isPosition || takesPulse) && board.sets.where({ [name]: at }) !== board.sets.none) kept[name] = at;
  }
  return kept;
}

function isWithin(pulseUs: number, { fromUs, toUs }: ControlSpec): boolean {
  return fromUs !== null && toUs !== null && pulseUs >= Math.min(fromUs, toUs) && pulseUs <= Math.max(fromUs, toUs);
}

function controlsOf(board: Switchboard, craft: Craft): PanelControl[] {
  const controls: PanelControl[] = [];
  const twoLevels = linkOf(craft).twoLevelChannels;
  for (const { control, positions, spans } of board.map().controls) {
    const own = craft.controls.get(control.name);
    if (!own) continue;
    const lost = own.value && twoLevels.includes(control.channel) ? lostPositions(own.value) : [];
    controls.push({
      name: control.name,
      kind: control.kind,
      channel: control.channel,
      positions: positions.map(({ name, pulseUs, modes }) => ({
        name,
        pulseUs,
        modes,
        ...(lost.includes(name) && { lost: true as const }),
      })),
      spans,
      rest: control.rest,
      ...(own.value?.lies && { lies: own.value.lies }),
      at: own.source,
    });
  }
  return controls;
}

function stateOf(board: Switchboard, craft: Craft, workspace: Workspace, positions: Positions): SwitchesState {
  const report = board.stateAt(positions);
  const linesBehind = board.linesBehind(positions);
  const withLines = (names: readonly string[]) =>
    names.map((name) => {
      const lines = linesBehind(name).map(({ file, line }) => ({ file, line }));
      return { ...modeOf(name, craft, workspace), lines };
    });
  const names = new Set([...Object.keys(board.rest), ...Object.keys(positions)]);
  const atRest = [...names].every((name) => positions[name] === board.rest[name]);
  return {
    positions,
    atRest,
    armed: armedIn(positions, craft, workspace),
    on: withLines(report.on),
    possible: withLines(report.possible),
    unknown: report.unknown,
    tangled: report.unknown.filter((name) => board.tangles.has(name)),
    ...(craft.gaps.length > 0 && { partMissing: true }),
    adjusts: adjustsOf(craft, workspace, positions),
  };
}

/**
 * Armed means that `arm` is on, and `arm-permit` where it is set up. If one of them is off, the other need not be
 * known. Where a part of the craft is missing, what it may say is not known.
 */
function armedIn(positions: Positions, craft: Craft, workspace: Workspace): SwitchesState["armed"] {
  const board = boardOf(knownPart(craft, workspace.catalogue), workspace);
  const report = board.stateAt(positions);
  const armModes = ["arm", "arm-permit"].filter((name) => board.names.includes(name));
  if (!armModes.includes("arm")) return null;
  if (armModes.every((name) => report.on.includes(name))) return "yes";
  const mayBe = [...report.on, ...report.possible, ...report.unknown];
  if (armModes.some((name) => !mayBe.includes(name))) return "no";
  return armModes.some((name) => report.unknown.includes(name)) ? "unknown" : "depends";
}

function waysOf(name: string, board: Switchboard): Pick<PanelMode, "ways" | "tangled"> {
  const set = board.selected(name);
  if (set === null) {
    const tangled = board.tangles.get(name);
    return { ways: null, ...(tangled !== undefined && { tangled }) };
  }
  const ways = set === board.sets.none ? [] : board.waysTo(set, MOST_WAYS).ways;
  return { ways: ways.map((way) => describeWay(way).words) };
}

function lossOf(board: Switchboard): LossPicture {
  const { onLoss, armed, outcomes } = board.loss();
  return { receiver: onLoss, armed, modes: [...outcomes].map(([name, becomes]) => ({ name, becomes })) };
}

function readinessPicture(craft: Craft, workspace: Workspace, positions: Positions): ReadyPicture {
  const { obstacles, moves } = readinessOf(craft, workspace, { positions });
  return {
    obstacles: obstacles.map(({ state, message, source }) => ({ state, message, at: source })),
    moves: moves === null ? null : moves.map(({ name, to }) => ({ name, to })),
  };
}

function modeOf(name: string, craft: Craft, workspace: Workspace): Omit<PanelMode, "ways" | "tangled"> {
  const lines = (modeNamed(craft, name)?.lines ?? []).map(({ source }) => source);
  const note = lines
    .map(({ file, line }) => workspace.script(file)?.noteOf(line).text ?? "")
    .find((text) => text !== "");
  return {
    name,
    what: isOutput(name) ? (note ?? "An output of the board.") : (workspace.catalogue.mode(name)?.what ?? ""),
    lines,
  };
}
