/** What craft that fly together do to one another's pictures, and what is to be done about it, in sentences. */
import type { FilePath } from "../../model/files.ts";
import type { FlownCraft } from "../../model/flown.ts";
import type { Disturbance, Landing, Overlap } from "../../numbers/channels.ts";
import type { Flight, FlightMove, NoPlan } from "../../numbers/flight.ts";
import { MOST_TOGETHER } from "../../numbers/flight.ts";
import { ANALOGUE_WIDTH_MHZ } from "../../numbers/radio.ts";
import { joinWithAnd } from "../../text/list.ts";
import { decimalText } from "./figures.ts";

/** A frequency with as many decimals as it has. */
export function mhzText(mhz: number): string {
  return decimalText(mhz, 3);
}

/** A craft by its name in quotes, with its file where another has the same name; by its file alone where it has none. */
export function craftInWords(of: FlownCraft, craft: readonly FlownCraft[]): string {
  const namesakes = craft.filter(({ file, name }) => file !== of.file && name === of.name);
  if (of.name !== "" && namesakes.length === 0) return `“${of.name}”`;
  const file = endThatTells(
    of.file,
    namesakes.map((other) => other.file),
  );
  return of.name === "" ? file : `“${of.name}” (${file})`;
}

/** The end of a path that no other of them has. */
function endThatTells(file: FilePath, others: readonly FilePath[]): string {
  const parts = file.split("/");
  for (let count = 1; count < parts.length; count++) {
    const end = parts.slice(-count).join("/");
    if (others.every((other) => other !== end && !other.endsWith(`/${end}`))) return end;
  }
  return file;
}

/** As many others as are named; the rest are counted. */
const MOST_NAMED = 3;

/** What disturbs the picture of a craft, in a sentence; empty where nothing does. */
export function disturbanceInWords(index: number, { disturbances }: Flight, craft: readonly FlownCraft[]): string {
  const found = disturbances[index]!;
  const [first] = found;
  if (!first) return "";
  return first.kind === "overlap"
    ? overlapInWords(index, found.filter(isOverlap), craft)
    : landingInWords(index, first, found.length - 1, craft);
}

function isOverlap(disturbance: Disturbance): disturbance is Overlap {
  return disturbance.kind === "overlap";
}

function overlapInWords(index: number, found: readonly Overlap[], craft: readonly FlownCraft[]): string {
  const own = craft[index]!.carrierMhz!;
  const [first] = found;
  if (found.length === 1 && craft[first!.of]!.carrierMhz === own)
    return `${craftInWords(craft[first!.of]!, craft)} sends on ${mhzText(own)} MHz as well: each breaks up the other's picture.`;
  const named = found
    .slice(0, MOST_NAMED)
    .map(({ of }) => `${craftInWords(craft[of]!, craft)} at ${mhzText(craft[of]!.carrierMhz!)} MHz`);
  const more = found.length > MOST_NAMED ? [`${found.length - MOST_NAMED} more`] : [];
  return `The picture at ${mhzText(own)} MHz stands in the way of that of ${joinWithAnd([...named, ...more])}: an analogue signal is about ${ANALOGUE_WIDTH_MHZ} MHz wide, so they break each other up.`;
}

function landingInWords(index: number, landing: Landing, others: number, craft: readonly FlownCraft[]): string {
  const own = craft[index]!.carrierMhz!;
  const names = joinWithAnd([...landing.from].sort((a, b) => a - b).map((i) => craftInWords(craft[i]!, craft)));
  const away = landing.awayMhz === 0 ? "right on it" : `${mhzText(landing.awayMhz)} MHz from it`;
  const more =
    others === 0 ? "" : others === 1 ? ", and one more mixture lands there" : `, and ${others} more land there`;
  return `On the picture at ${mhzText(own)} MHz lands a mixture of the carriers of ${names}: ${productInWords(landing, craft)}, ${away}${more}.`;
}

/** As in `2 × 5769 − 5732 = 5806 MHz`. */
export function productInWords({ from, mhz }: Landing, craft: readonly FlownCraft[]): string {
  const [a, b, c] = from.map((i) => mhzText(craft[i]!.carrierMhz!));
  return `${c === undefined ? `2 × ${a} − ${b}` : `${a} + ${b} − ${c}`} = ${mhzText(mhz)} MHz`;
}

/** What is to be done, as a sentence to the pilot of one of the craft, or of none of them. */
export function planInWords(index: number | null, { plan, noPlan }: Flight, craft: readonly FlownCraft[]): string {
  if (plan === null) return noPlanInWords(noPlan!);
  const own = plan.filter((move) => move.craft === index);
  const moves = [...own, ...plan.filter((move) => move.craft !== index)].map((move) => {
    const name = move.craft === index ? "this craft" : craftInWords(craft[move.craft]!, craft);
    return `${name} to ${move.rank === "spare" ? "its spare frequency, " : ""}${mhzText(move.toMhz)} MHz`;
  });
  const hasAny = plan.some(({ rank }) => rank === "any");
  const whole = `Move ${joinWithAnd(moves)}, and nothing is left in the way`;
  return `${whole}${hasAny ? "; see first that viewer and transmitter have that frequency" : ""}.`;
}

/** The title of the repair that makes one of the moves. */
export function moveTitle({ toMhz, rank }: FlightMove): string {
  return `Move to ${rank === "spare" ? "the spare frequency, " : ""}${mhzText(toMhz)} MHz`;
}

/** Why there is no plan, and what to do then. */
export function noPlanInWords(why: NoPlan): string {
  switch (why.kind) {
    case "too-many":
      return `More than ${MOST_TOGETHER} pictures at once are too many to look for channels: fly fewer at a time.`;
    case "no-room":
      return why.fit === null || why.fit < 2
        ? "No channels are free for all of them: fly fewer at a time."
        : `No channels are free for all of them, as at most ${why.fit} go together there: fly fewer at a time.`;
    case "no-choice":
      return "No other channels are known here for any of them: write “spare-frequency”, or the “region” whose bands may be looked at.";
    case "too-much-work":
      return why.isHurried
        ? "Channels for all of them take longer to find than there is time for here: “fettle fleet --together” looks longer."
        : "Whether there are channels for all of them is too much work to find out: fly fewer at a time.";
  }
}
