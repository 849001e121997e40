/** Holds the conditions of right sides to the model. */
import { convert } from "../../catalogue/units.ts";
import { type Fault, unknownName } from "../../syntax/read-context.ts";
import type { RangeShape, Ref, Shape } from "../dialect.ts";
import { type Task, wholeBits, wrong } from "./right-task.ts";
import { samplesOf } from "./spellings.ts";

/** What is wrong with a condition: channels that are none, pulses in another unit, modes that do not exist. */
export function conditionFault(task: Task, shape: Shape): Fault | null {
  if (shape.kind === "always") return null;
  if (shape.kind === "ranges")
    return shape.ranges.reduce<Fault | null>((found, range) => found ?? rangeFault(task, range), null);
  if (typeof shape.mode === "string") return null;
  const holder = task.holder(shape.mode);
  const samples = holder && samplesOf(holder);
  if (!samples) return null;
  let first: Fault | null = null;
  let fits = samples.length === 0;
  for (const { text, words } of samples) {
    if (task.catalogue.mode(text)) {
      task.taken.take(words);
      fits = true;
      continue;
    }
    const names = task.catalogue.modes.map(({ name }) => name);
    const none = unknownName({ start: 0, end: 0 }, text, names, `There is no mode “${text}”.`);
    task.taken.refuse(words, none);
    first ??= none;
  }
  return fits || !first || task.taken.tell(samples, first) ? null : first;
}

function rangeFault(task: Task, { channel, from, to }: RangeShape): Fault | null {
  const problem = typeof channel === "number" ? null : channelFault(task, channel);
  if (problem) return problem;
  for (const end of [from, to]) {
    const holder = typeof end === "number" ? null : task.holder(end);
    if (!holder) continue;
    if (holder.code?.kind === "bits") return wholeBits(end as Ref, holder.code.parts);
    const unit = holder.code?.kind === "number" ? holder.code.unit : "";
    if (unit !== "" && convert(1, unit, "us") === undefined)
      return wrong(`The ends of a range are pulses in us, and “{${(end as Ref).slot}}” is in ${unit}.`);
    if (holder.code?.kind === "number" && holder.code.channels)
      return wrong(`The ends of a range are pulses in us, and “{${(end as Ref).slot}}” is a channel.`);
  }
  return null;
}

export function channelFault(task: Task, ref: Ref): Fault | null {
  const holder = task.holder(ref);
  if (!holder) return null;
  const { code } = holder;
  if (code?.kind === "bits") return wholeBits(ref, code.parts);
  if (code?.kind !== "number" || code.channels || code.unit === "") return null;
  return wrong(`“{${ref.slot}}” is in ${code.unit}, and a channel is expected: give its code “from ch5”.`);
}
