/**
 * The settings that lead to one person, or that are a secret, as SECTION.NAME: they are taken out of a script before
 * it is shared. All others say what a craft is and does. Looked at and left: that a craft identifies itself
 * (`frame.identification`) and the declination of the compass (`sensors.declination`), which is alike along a line
 * across a whole country, lead to nobody; what the texts of `board.note` and `rates.note` say is looked at instead.
 */
import type { SettingSpec } from "./specs.ts";

export const PRIVATE: Readonly<Record<string, NonNullable<SettingSpec["private"]>>> = {
  "board.dialect": { kind: "place", reason: "It leads to a file of yours, which does not go along." },
  "board.text": { kind: "place", reason: "It leads to a file of yours, which does not go along." },
  "frame.owner": { kind: "person", reason: "It says whose craft this is, and how to reach them." },
  "frame.registration": { kind: "identity", reason: "A registration mark leads to the person who answers for it." },
  "frame.identification-number": {
    kind: "identity",
    reason: "The number that the craft broadcasts leads to the person who registered it.",
  },
  "link.pair-secret": {
    kind: "secret",
    reason: "Whoever knows the secret can pair a handset of their own with this receiver.",
  },
  "osd.pilot-name": { kind: "person", reason: "It is the name or the call sign of the pilot." },
};
