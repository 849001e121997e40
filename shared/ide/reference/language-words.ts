/** The words of the language that have a place in its description, each with what it does. */

export interface LanguageWord {
  readonly word: string;
  /** In a sentence. */
  readonly summary: string;
  /** Other words by which the same place is found. */
  readonly also?: readonly string[];
}

/** In the order of the description. */
export const languageWords: readonly LanguageWord[] = [
  {
    word: "language",
    summary: "How a script is written, and how files combine: all of it.",
    also: ["the language", "script"],
  },
  { word: "craft", summary: "The header of one whole machine.", also: ["header", "file", "files"] },
  { word: "layer", summary: "The header of a part that several craft share.", also: ["layers"] },
  { word: "edition", summary: "The edition of the language, in the header." },
  { word: "grammar", summary: "The grammar of a script, rule by rule." },
  { word: "string", summary: "Text between double quotes.", also: ["text", "quotes"] },
  { word: "layout", summary: "How a script is laid out: indents, columns, blank lines.", also: ["format", "indent"] },
  { word: "units", summary: "Every unit, by what it measures.", also: ["unit"] },
  { word: "note", summary: "A comment that belongs to a line.", also: ["notes", "comment", "comments", "#"] },
  {
    word: "allow",
    summary: "Accepts a finding, with a reason.",
    also: ["accept a finding", "silence a finding", "ignore a finding"],
  },
  {
    word: "handset",
    summary: "The header of the pilot's transmitter and its controls.",
    also: ["handsets", "radio", "transmitter file"],
  },
  { word: "control", summary: "A switch, selector, button or dial of the handset." },
  { word: "switch", summary: "A control of two or three positions." },
  { word: "selector", summary: "A control of two to sixteen positions." },
  { word: "button", summary: "A control that springs back." },
  { word: "dial", summary: "A control that stands anywhere in its range." },
  { word: "rests", summary: "Where a control stands when the handset is switched on." },
  { word: "when", summary: "Begins the condition under which a mode is on.", also: ["condition", "conditions"] },
  { word: "is", summary: "Tests the position of a control.", also: ["position"] },
  { word: "and", summary: "Both conditions must hold." },
  { word: "or", summary: "One of two conditions is enough." },
  { word: "not", summary: "The opposite of a condition." },
  { word: "in", summary: "Tests for a pulse between two ends, both included." },
  { word: "above", summary: "Tests for a pulse above a bound." },
  { word: "below", summary: "Tests for a pulse below a bound." },
  { word: "always", summary: "A condition that every state fulfils." },
  { word: "state", summary: "Where all controls stand at one moment.", also: ["states"] },
  { word: "rest", summary: "Every control where it stands when the handset is switched on.", also: ["at rest"] },
  { word: "armed", summary: "The motors may run: arm is on, and what it waits for." },
  { word: "at", summary: "Places an element of the OSD on its grid.", also: ["place", "places"] },
  { word: "left", summary: "Counts columns from the left edge of the OSD." },
  { word: "centre", summary: "Counts columns from the middle of the OSD." },
  { word: "right", summary: "Counts columns from the right edge of the OSD." },
  { word: "top", summary: "Counts rows from the top of the OSD." },
  { word: "middle", summary: "Counts rows from the middle of the OSD." },
  { word: "bottom", summary: "Counts rows from the bottom of the OSD." },
  { word: "use", summary: "Lays another file below this one.", also: ["merge", "later wins", "include a file"] },
  { word: "drop", summary: "Takes back what earlier files say." },
  { word: "follows", summary: "Lets a dial move a setting in flight." },
  {
    word: "dialect",
    summary: "The header of a file that says what a board's text means, and how such a file is built.",
    also: ["dialects", "board text", "configuration of the board", "known-by", "opening", "closing", "repeats"],
  },
  {
    word: "dialect-lines",
    summary: "Lines of a dialect: left sides, slots and right sides.",
    also: ["slot", "left side", "right side", "unset", "cannot", "divider-ratio", "shunt-scale"],
  },
  {
    word: "dialect-codes",
    summary: "How a board spells a value: number, words, letters, list, bits, set, text.",
    also: ["code", "codes", "bits", "words of the board", "letters", "base 16", "steps of a number"],
  },
  {
    word: "dialect-reading",
    summary: "Headings, and how a board's text becomes a script.",
    also: ["under", "heading of board text", "read board text", "kept lines", "odd lines"],
  },
  {
    word: "dialect-writing",
    summary: "How a craft becomes text for its board: conditions, curves, and what stays.",
    also: ["write board text", "changes only", "curve", "formula of the rates"],
  },
  {
    word: "dialect-report",
    summary: "What is found in a dialect, what reading and writing tell, and how a dialect grows.",
    also: ["name this line", "learn a dialect", "board read", "board write", "board move", "board learn"],
  },
  {
    word: "dialect-guide",
    summary: "A dialect in half an hour: from a text of an unknown board to ten named lines, step by step.",
    also: ["how to write a dialect", "a dialect in half an hour", "first dialect", "tutorial"],
  },
  {
    word: "git",
    summary: "Keeping configurations in git: readable diffs, merges by entries, and only what a change brought.",
    also: [
      "diff",
      "git diff",
      "git merge",
      "history",
      "history of a value",
      "who changed a value",
      "revision",
      "commit",
      "blame",
      "version control",
      "textconv",
      "check --since",
      "check --staged",
    ],
  },
  {
    word: "git-merge",
    summary: "How merges go: what is put together, what is a conflict, how to settle one.",
    also: [
      "fettle merge",
      "three-way merge",
      "conflict",
      "merge conflict",
      "conflict markers",
      "resolve a conflict",
      "rebase",
      "cherry-pick",
    ],
  },
  {
    word: "git-hook",
    summary: "A hook that stops a commit which brings an error.",
    also: ["hook", "pre-commit", "before each commit"],
  },
  {
    word: "git-ci",
    summary: "Checking each change on a server: files for two services.",
    also: ["github actions", "gitlab ci", "continuous integration", "sarif", "pull request", "merge request"],
  },
  {
    word: "bench-list",
    summary: "What to check on the bench before a craft flies, in the order that is safe.",
    also: [
      "fettle bench",
      "checklist",
      "check list",
      "maiden flight",
      "first flight",
      "first power-up",
      "what to check before flying",
      "print a bench list",
      "bench test",
    ],
  },
  {
    word: "bench-put-back",
    summary: "How a craft is put back after newer software has wiped its board, and what is to be checked then.",
    also: [
      "fettle bench --wiped",
      "after a wipe",
      "wiped board",
      "update the firmware",
      "flash the board",
      "restore the settings",
      "everything is gone after the update",
      "back to defaults",
    ],
  },
  {
    word: "bench-hover",
    summary: "Which throttle and current to expect in a hover, roughly, and how that is worked out.",
    also: [
      "thrust",
      "how much thrust",
      "hover estimate",
      "expected hover throttle",
      "expected hover current",
      "momentum theory",
      "thrust coefficient",
    ],
  },
  {
    word: "fleet",
    summary: "All craft side by side, and where one is otherwise than most.",
    also: [
      "fettle fleet",
      "all craft",
      "compare all craft",
      "several craft",
      "habit",
      "habits",
      "same switch on every craft",
      "which switch on which craft",
    ],
  },
  {
    word: "channels-together",
    summary: "Which video channels go together, and the plan where they do not.",
    also: [
      "channels together",
      "fly together",
      "flying with friends",
      "frequency plan",
      "intermodulation",
      "third order",
      "fettle.together",
    ],
  },
];

export type OwnPages = "dialects" | "git" | "bench" | "fleet";

/** What a word with a page of its own is about; null for the others, which are explained in a part of the language's page. */
export function ownPageOf(name: string): OwnPages | null {
  if (name === "fleet" || name === "channels-together") return "fleet";
  if (name === "dialect" || name.startsWith("dialect-")) return "dialects";
  if (name.startsWith("bench-")) return "bench";
  return name === "git" || name.startsWith("git-") ? "git" : null;
}

/** Whether a word has a page of its own. */
export function hasOwnPage(name: string): boolean {
  return ownPageOf(name) !== null;
}

/** A word of the language by its name. */
export function languageWord(name: string): LanguageWord | undefined {
  return languageWords.find(({ word }) => word === name);
}
