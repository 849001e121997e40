/** Positions of controls as text: `TL=down`, `KN=1500`, `ch9=1700`. */
import type { Positions, Switchboard, Variable } from "../../logic/switchboard-types.ts";
import { similarNames } from "../../model/similar-names.ts";

export type ParsedPositions =
  | { readonly kind: "positions"; readonly positions: Positions }
  /** Why they cannot be used: a sentence without a full stop. */
  | { readonly kind: "refused"; readonly why: string };

type ParsedPosition = { readonly at: string | number } | { readonly why: string };

/** Parses positions for a craft; a control that it does not have, or that is named twice, is refused. */
export function parsePositions(assignments: readonly string[], board: Switchboard): ParsedPositions {
  const positions: Record<string, string | number> = {};
  for (const text of assignments) {
    const equals = text.indexOf("=");
    const name = text.slice(0, equals).trim();
    const place = text.slice(equals + 1).trim();
    if (equals < 0 || name === "" || place === "")
      return refusedPositions(`“${text}” is no position: write a control and its position, as in TL=down or KN=1500`);
    const variable = board.variables.find((each) => each.name === name);
    if (!variable) return refusedPositions(whyUnknown(name, board));
    if (Object.hasOwn(positions, name)) return refusedPositions(`${name} is set twice: one position at a time`);
    const read = parsePosition(variable, place, board);
    if ("why" in read) return refusedPositions(read.why);
    positions[name] = read.at;
  }
  return { kind: "positions", positions };
}

function refusedPositions(why: string): ParsedPositions {
  return { kind: "refused", why };
}

function whyUnknown(name: string, board: Switchboard): string {
  if (board.input.faultyControls?.includes(name)) return `the line of ${name} has a fault: “fettle check” tells which`;
  const channel = /^ch(\d+)$/.exec(name);
  if (channel) {
    const driver = board.variables.find(({ channel: at }) => at === Number(channel[1]));
    return driver
      ? `${name} is what ${driver.name} drives: set ${driver.name}`
      : `no condition names ${name}, so nothing depends on it`;
  }
  const names = board.variables.map((each) => each.name);
  if (names.length === 0) return `there is no control ${name}: this craft knows no control at all`;
  const near = similarNames(name, names, 2);
  return near.length > 0
    ? `there is no control ${name}: did you mean ${near.join(" or ")}?`
    : `there is no control ${name}: this craft has ${names.join(", ")}`;
}

function parsePosition({ name, control }: Variable, text: string, board: Switchboard): ParsedPosition {
  if (control && control.kind !== "dial") {
    const names = control.positions.map((position) => position.name);
    if (names.includes(text)) return { at: text };
    return { why: `${name} has no position “${text}”: it has ${names.join(", ")}` };
  }
  const pulse = /^(\d+)(?: ?us)?$/.exec(text);
  if (!pulse) return { why: `${name} takes a pulse in whole us, as in ${name}=1500, not “${text}”` };
  const ends = control
    ? [control.fromUs!, control.toUs!]
    : [board.input.endpointsUs.fromUs, board.input.endpointsUs.toUs];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const at = Number(pulse[1]);
  return at >= low && at <= high ? { at } : { why: `${name} goes from ${low} us to ${high} us, and not to ${at} us` };
}
