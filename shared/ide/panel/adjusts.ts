/** The settings that follow a control, as the panel shows them. */
import type { Positions } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type AdjustEnd, type Adjustment, adjustedAt, adjustedText, adjustmentsOf } from "../../numbers/adjustments.ts";
import type { AdjustPicture } from "../../protocol/adjust.ts";

/** What the lines of `adjust` do with the controls in these positions. */
export function adjustsOf(
  craft: Craft,
  { catalogue }: Pick<Workspace, "catalogue">,
  positions: Positions,
): AdjustPicture {
  const { moving, idle, faulty } = adjustmentsOf(craft, catalogue);
  return {
    moving: moving.map((adjustment) => {
      const { dial, name, from, to, ownIn, source } = adjustment;
      const pulseUs = positions[dial];
      const now = typeof pulseUs === "number" ? adjustedText(adjustment, adjustedAt(adjustment, pulseUs)) : null;
      const end = (each: AdjustEnd) => endOf(adjustment, each);
      return { control: dial, setting: name, from: end(from), to: end(to), now, ownIn, at: source };
    }),
    idle: idle.map(({ control, kind, name, source }) => ({ control, kind, setting: name, at: source })),
    faulty,
  };
}

function endOf(adjustment: Adjustment, { number, pulseUs }: AdjustEnd) {
  return { text: adjustedText(adjustment, number), pulseUs };
}
