import type { SectionSpec } from "../types.ts";

export const adjust: SectionSpec = {
  name: "adjust",
  what: "Settings that follow a dial of the handset while the craft flies.",
  why: "Tuning by landing, typing and taking off again loses the feel in between; a dial keeps it. Both ends of the dial are held to the setting's own limits, because in flight one will reach both. Take the line out once the value is found and write the value: a dial knocked in the bag is a tune that nobody chose.",
  words: ["in-flight tuning", "knob", "dial", "change a value in the air"],
  holds: "follows",
  in: ["craft", "layer"],
  settings: [],
};
