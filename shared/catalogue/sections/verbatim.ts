import type { SectionSpec } from "../specs.ts";

export const verbatim: SectionSpec = {
  name: "verbatim",
  what: "Lines of a board's own text that the named dialect could not read, kept letter for letter.",
  why: "Nothing that was pasted is ever lost: what is not understood stays here and goes back to the board unchanged. It is not checked either, so a line here can contradict one that is. Teach the dialect a line and it moves to its proper place.",
  words: ["raw lines", "unknown lines", "board text", "pasted text"],
  holds: "kept",
  in: ["craft", "layer"],
  title: "required",
  settings: [],
};
