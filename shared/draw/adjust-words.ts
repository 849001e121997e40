/** Settings that follow a dial, in words. */
import type { PanelAdjust } from "../protocol/adjust.ts";
import type { SwitchesState } from "../protocol/panel.ts";
import { joinWithAnd } from "../text/list.ts";

/** The settings that this control moves. */
export function adjustsBy(control: string, { adjusts }: Pick<SwitchesState, "adjusts">): readonly PanelAdjust[] {
  return adjusts.moving.filter((each) => each.control === control);
}

/** A setting and its value here, as in “overall 1.06”; with the dial not set, between which values it is. */
export function adjustBriefly({ setting, from, to, now }: PanelAdjust): string {
  return now === null ? `${setting} ${from.text} to ${to.text}` : `${setting} ${now}`;
}

/** From what to what a setting goes, with the pulses: “0.85 at 1000 us to 1.15 at 2000 us”. */
export function adjustRange({ from, to }: PanelAdjust): string {
  return `${from.text} at ${from.pulseUs} us to ${to.text} at ${to.pulseUs} us`;
}

/** What a setting is here and how far it goes. */
export function adjustInWords(adjust: PanelAdjust): string {
  const { setting, now, ownIn } = adjust;
  const own = ownIn === null ? "" : `; ${ownIn} has its own`;
  const range = `from ${adjustRange(adjust)}${own}`;
  return now === null ? `${setting} goes ${range}` : `${setting} is ${now} here; it goes ${range}`;
}

/** The settings that follow dials, in sentences: “KN sets overall to 1.06.” */
export function adjustSentences({ adjusts, on }: Pick<SwitchesState, "adjusts" | "on">): string[] {
  const controls = [...new Set(adjusts.moving.map(({ control }) => control))];
  const moved = controls.map((control) => {
    const own = adjusts.moving.filter((each) => each.control === control);
    const values = own.map(({ setting, from, to, now }) =>
      now === null ? `${setting} from ${from.text} to ${to.text}` : `${setting} to ${now}`,
    );
    const isSet = own.some(({ now }) => now !== null);
    return `${control} ${isSet ? "sets" : "may stand anywhere:"} ${joinWithAnd(values)}.`;
  });
  const second = adjusts.moving.flatMap(({ setting, control, ownIn }) => {
    if (ownIn === null || !on.some(({ name }) => name === ownIn)) return [];
    const set = ownIn.charAt(0).toUpperCase() + ownIn.slice(1);
    return [`${set} has its own ${setting}: whether ${control} moves that too is not said.`];
  });
  const faulty =
    adjusts.faulty.length === 0
      ? []
      : [
          `What ${joinWithAnd(adjusts.faulty)} ${adjusts.faulty.length === 1 ? "follows" : "follow"} is not known, since ${adjusts.faulty.length === 1 ? "its line has" : "their lines have"} a fault.`,
        ];
  return [...moved, ...second, ...faulty];
}
