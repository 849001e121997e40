import type { SectionSpec } from "../specs.ts";

export const adjust: SectionSpec = {
  name: "adjust",
  what: "Settings that follow a dial of the handset while the craft flies.",
  why: "Tuning by landing, typing and taking off again loses the feel in between; a dial keeps it. What a dial may move is taste: nothing that the craft is made of, nor what it does when something goes wrong. Choose both ends so that the craft still flies well at either, because in flight the dial will reach both; each is held to the setting's own limits. Once the value is found, write it and take this line out: a dial knocked in the bag is a tune that nobody chose.",
  words: ["in-flight tuning", "knob", "dial", "change a value in the air"],
  holds: "follows",
  in: ["craft", "layer"],
  settings: [],
};
