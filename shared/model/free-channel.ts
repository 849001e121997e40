/** The channels that the controls of a script leave free. */
import type { Script } from "./script.ts";

/** Channels 1 to 4 carry the sticks. */
export const FIRST_CONTROL_CHANNEL = 5;

/** The first channel that no control of the script uses. */
export function freeChannel(script: Script): number {
  return nextFreeChannel(script.entries.flatMap(({ value }) => (value?.kind === "control" ? [value.channel] : [])));
}

/** The first channel for a control that is not among these. */
export function nextFreeChannel(taken: Iterable<number>): number {
  const channels = new Set(taken);
  let channel = FIRST_CONTROL_CHANNEL;
  while (channels.has(channel)) channel++;
  return channel;
}
