/** Offers for the next word of a control's line. */
import { freeChannel } from "../../model/free-channel.ts";
import type { Script } from "../../model/script.ts";
import { FACES, SIDES } from "../../syntax/value.ts";
import { type Offer, unitOffer } from "./completion-item.ts";
import { keywordOffer, pulseOffer } from "./conditions.ts";

/** Offers after a control's name in a handset: kind, next free channel, positions, where it rests and where it lies. */
export function offerControlLine(script: Script, written: string): Offer[] {
  const tokens = written.trim().split(/\s+/).filter(Boolean);
  if (/\S$/.test(written)) tokens.pop();
  if (tokens.length === 0) {
    return ["switch", "selector", "button", "dial"].map(
      (label): Offer => ({ label, kind: "keyword", text: `${label} `, group: 0, retrigger: true }),
    );
  }
  if (tokens.length === 1)
    return [{ label: `ch${freeChannel(script)}`, kind: "value", detail: "the next channel that is free", group: 0 }];
  const lies = tokens.lastIndexOf("lies");
  if (lies > 2) return offerPlace(tokens.slice(lies + 1));
  const last = tokens.at(-1) ?? "";
  if (tokens[0] === "dial") {
    if (tokens.length === 2) return [pulseOffer(`\${1:1000} us to \${2:2000} us`, "its two stops")];
    return tokens.includes("to") && last === "us" ? [liesOffer] : [];
  }
  const names = positionNames(tokens);
  if (last === "rests") return names.map((label): Offer => ({ label, kind: "position", group: 0 }));
  if (tokens.at(-2) === "rests") return [liesOffer];
  if (/^-?\d+(\.\d+)?$/.test(last)) return [unitOffer("us", 0)];
  if (last === "us" || tokens.length === 2) {
    const usual = ["up", "mid", "down"].filter((each) => !names.includes(each));
    const more = names.length >= 2 ? [keywordOffer("rests", "where it stands when switched on", 4), liesOffer] : [];
    return [...usual.map((label): Offer => ({ label, kind: "position", text: `${label} `, group: 1 })), ...more];
  }
  return [];
}

const liesOffer = keywordOffer("lies", "where the hand finds it", 5);

const FACE_DETAILS = {
  shoulder: "the edge under the index finger",
  face: "the front, under the thumb",
  back: "the side turned away, under the other fingers",
} as const;

/** Offers after “lies”: a side, then a face. */
function offerPlace(said: readonly string[]): Offer[] {
  if (said.length === 0)
    return SIDES.map((label): Offer => {
      const detail = label === "middle" ? "between the hands" : `at the ${label} hand`;
      return { label, kind: "choice", detail, group: 0 };
    });
  if (said.length > 1) return [];
  return FACES.map((label): Offer => ({ label, kind: "choice", detail: FACE_DETAILS[label], group: 0 }));
}

function positionNames(tokens: readonly string[]): string[] {
  return tokens.slice(2).filter((each) => /^[a-z]/.test(each) && each !== "us" && each !== "rests");
}
