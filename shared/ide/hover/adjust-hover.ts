/** What the hovers of controls and conditions say of the settings that follow a dial. */
import { type Craft, modeNamed } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Adjustment, adjustedAt, adjustedText, adjustmentsOf } from "../../numbers/adjustments.ts";
import { type Condition, type Subject, walkCondition } from "../../syntax/condition.ts";
import { joinWithAnd } from "../../text/list.ts";
import { plainText } from "../../text/plain-text.ts";
import { list, paragraphs } from "../context/markdown.ts";
import { type LinkTargets, lineLink } from "./links.ts";

/** The settings that follow a control, each with its ends and its line; "" where none does. */
export function followersText(
  workspace: Workspace,
  craft: Craft,
  control: string,
  from: string,
  links: LinkTargets,
): string {
  const { moving, idle } = adjustmentsOf(craft, workspace.catalogue);
  const moved = moving.filter(({ dial }) => dial === control);
  const still = idle.filter((each) => each.control === control);
  const lines = [
    ...moved.map((each) => {
      const own =
        each.ownIn === null ? "" : `; ${plainText(each.ownIn)} has its own, and whether it moves too is not said`;
      return `${each.name}, from ${endsText(each)}, ${lineLink(each.source, from, links)}${own}`;
    }),
    ...still.map(
      ({ name, kind, source }) =>
        `not ${name}, though it is said to, ${lineLink(source, from, links)}: only a dial moves a setting, and this is a ${kind}`,
    ),
  ];
  return lines.length === 0 ? "" : paragraphs("It moves:", list(lines));
}

/** “0.85 at 1000 us to 1.15 at 2000 us”. */
function endsText(adjustment: Adjustment): string {
  const end = ({ number, pulseUs }: Adjustment["from"]) => `${adjustedText(adjustment, number)} at ${pulseUs} us`;
  return `${end(adjustment.from)} to ${end(adjustment.to)}`;
}

/** What the dials of a mode's condition move besides, and what that is at the condition's own bounds; "" for none. */
export function conditionFollowersText(
  workspace: Workspace,
  craft: Craft,
  { kind, name }: Pick<Entry, "kind" | "name">,
): string {
  if (kind !== "mode" && kind !== "output") return "";
  const { moving } = adjustmentsOf(craft, workspace.catalogue);
  if (moving.length === 0) return "";
  const tests = (modeNamed(craft, kind === "output" ? `outputs.${name}` : name)?.lines ?? []).flatMap(
    ({ condition }) => (condition ? [...walkCondition(condition)] : []),
  );
  const sentences = moving.flatMap((adjustment) => {
    const bounds = tests.flatMap((test) =>
      "subject" in test && isOf(craft, test.subject, adjustment.dial) ? boundsUs(test) : [],
    );
    if (bounds.length === 0) return [];
    const values = [...new Set(bounds)].map(
      (us) => `${adjustedText(adjustment, adjustedAt(adjustment, us))} at ${us} us`,
    );
    return [`${adjustment.dial} also moves ${adjustment.name}: ${joinWithAnd(values)}.`];
  });
  return sentences.join(" ");
}

function isOf(craft: Craft, subject: Subject, dial: string): boolean {
  return subject.kind === "control"
    ? subject.name === dial
    : subject.channel === craft.controls.get(dial)?.value?.channel;
}

function boundsUs(test: Condition): number[] {
  if (test.kind === "in") return [test.fromUs, test.toUs];
  return test.kind === "above" || test.kind === "below" ? [test.boundUs] : [];
}

/** The control that drives a channel; null where none does. */
export function controlOn(craft: Craft, channel: number): string | null {
  for (const { name, value } of craft.controls.values()) if (value?.channel === channel) return name;
  return null;
}
