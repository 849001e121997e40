/** Controls that cannot be distinguished: by their channel, or by the pulses of their positions. */
import type { Craft, Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { ControlValue } from "../../syntax/value.ts";
import type { Report } from "../engine/rule.ts";
import { locationAt } from "./locations.ts";

interface ControlInFile {
  readonly name: string;
  readonly value: ControlValue;
  readonly source: Source;
  readonly fromHandset: boolean;
}

/** Two controls on one channel: in a handset's file, or in a craft if the craft or a layer contributes to it. */
export function sharedChannels(of: Script | Craft): Report[] {
  const { controls, concerns } = controlsOf(of);
  const nearness = ({ source, fromHandset }: ControlInFile): number =>
    source.file === of.file ? 2 : fromHandset ? 0 : 1;
  const first = new Map<number, ControlInFile>();
  return controls.flatMap((control) => {
    const before = first.get(control.value.channel);
    if (!before) {
      first.set(control.value.channel, control);
      return [];
    }
    if (!concerns(control) && !concerns(before) && control.source.file === before.source.file) return [];
    // The line to correct here is the one that restates a control for this craft, or adds one.
    const [at, other] = nearness(before) > nearness(control) ? [before, control] : [control, before];
    return [
      {
        at: locationAt(at.source, at.value.channelAt),
        message: `${at.name} and ${other.name} both drive ch${at.value.channel}: give one of them a channel of its own.`,
        related: [{ message: `${other.name} drives it here`, at: locationAt(other.source, other.value.channelAt) }],
        alsoOf: [other.source],
      },
    ];
  });
}

/** Two positions of one control with one pulse. */
export function alikePositions(of: Script | Craft): Report[] {
  const { controls, concerns } = controlsOf(of);
  return controls.filter(concerns).flatMap(({ name, value, source }) =>
    value.positions.flatMap((position, i) => {
      const before = value.positions.slice(0, i).find((each) => each.pulseUs === position.pulseUs);
      if (!before) return [];
      return [
        {
          at: locationAt(source, position),
          message: `${name} sends ${position.pulseUs} us both at “${before.name}” and at “${position.name}”: the craft cannot tell them apart.`,
          related: [{ message: `“${before.name}” stands here`, at: locationAt(source, before) }],
        },
      ];
    }),
  );
}

/** The controls of a handset's file or of a craft, and which of them may be reported here. */
function controlsOf(of: Script | Craft): { controls: ControlInFile[]; concerns: (control: ControlInFile) => boolean } {
  if ("entries" in of) {
    const last = new Map<string, ControlInFile>();
    if (of.kind === "handset") {
      for (const { kind, name, value, line } of of.entries) {
        if (kind === "control" && value?.kind === "control")
          last.set(name, { name, value, source: { file: of.file, line }, fromHandset: true });
      }
    }
    return { controls: [...last.values()], concerns: () => true };
  }
  const controls = [...of.controls.values()].flatMap(({ value, ...rest }) => (value ? [{ ...rest, value }] : []));
  return { controls, concerns: (control) => !control.fromHandset };
}

/** The positions of a control that a channel of two levels loses: those between its lowest and its highest pulse. */
export function lostPositions({ positions }: ControlValue): readonly string[] {
  const pulses = positions.map(({ pulseUs }) => pulseUs);
  const ends = [Math.min(...pulses), Math.max(...pulses)];
  return positions.filter(({ pulseUs }) => !ends.includes(pulseUs)).map(({ name }) => name);
}
