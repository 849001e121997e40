/** Made-up inputs of the logic as scripts. */
import type { ControlSpec, SwitchInput } from "../../shared/logic/switchboard-types.ts";
import type { Condition } from "../../shared/syntax/condition.ts";
import { printCondition } from "../../shared/syntax/print-value.ts";

const NAMES = ["arm", "arm-permit", "level", "level-blend", "lights", "lights-off"];

/** The grammar wants ranges that rise, dials that turn, and of each kind its number of positions. */
export function written(input: SwitchInput): SwitchInput {
  const controls = input.controls.map((each): ControlSpec => {
    if (each.kind === "dial") return each.fromUs === each.toUs ? { ...each, toUs: each.toUs! + 1 } : each;
    const count = each.positions.length;
    return { ...each, kind: count === 2 ? each.kind : count === 3 && each.kind === "button" ? "switch" : "selector" };
  });
  const rename = (name: string) => NAMES[Number(name.slice(1))] ?? "finder";
  const condition = (each: Condition): Condition => {
    if (each.kind === "mode") return { ...each, name: rename(each.name) };
    if (each.kind === "in" && each.fromUs === each.toUs) return { ...each, toUs: each.toUs + 0.5 };
    if (each.kind === "not") return { ...each, part: condition(each.part) };
    return each.kind === "and" || each.kind === "or" ? { ...each, parts: each.parts.map(condition) } : each;
  };
  const conditions = input.conditions.map(({ name, lines }) => ({
    name: rename(name),
    lines: lines.map((line) => ({ ...line, condition: condition(line.condition!) })),
  }));
  return { ...input, controls, conditions, twoLevelChannels: [], measuredUs: new Map() };
}

/** A craft `jug.fettle` and its handset, as text. */
export function textsOf({ controls, conditions, endpointsUs }: SwitchInput): Record<string, string> {
  const lines = controls.map(({ name, kind, channel, positions, rest, fromUs, toUs }) => {
    const places = positions.map((each) => `${each.name} ${each.pulseUs} us`).join(" ");
    return `  ${name} ${kind} ch${channel} ${kind === "dial" ? `${fromUs} us to ${toUs} us` : `${places} rests ${rest}`}`;
  });
  const modes = conditions.flatMap((mode) =>
    mode.lines.map(({ condition }) => `  ${mode.name} when ${printCondition(condition!)}`),
  );
  const link = `link\n  endpoints ${endpointsUs.fromUs} us to ${endpointsUs.toUs} us\n`;
  return {
    "wheel.fettle": `handset "Wheel"\ncontrols\n${lines.join("\n")}\n`,
    "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\n${link}modes\n${modes.join("\n")}\n`,
  };
}
