/** What a name may look like, and why some have no other one. */
import { unitSymbol } from "../../catalogue/units.ts";
import { RESERVED } from "../../syntax/read-context.ts";
import type { Thing, ThingKind } from "./thing.ts";

const NAME = /^[a-z][a-z0-9-]*$/;
const CONTROL = /^[A-Z][A-Za-z0-9]*$/;

/** Why something cannot have this name, in a sentence; null where it looks like one. */
export function whyNoName({ kind }: Thing, name: string): string | null {
  switch (kind) {
    case "control":
      return CONTROL.test(name)
        ? null
        : `“${name}” is no name of a control: it begins with a capital letter and goes on with letters and digits, as in “TL” or “K1”.`;
    case "position":
      return whyNoWord(name, "position") ?? whyReserved(name, "position") ?? whyUnit(name);
    case "output":
      return whyNoWord(name, "output") ?? whyReserved(name, "output");
    case "code":
    case "part":
      return whyNoWord(name, kind === "code" ? "code" : "part of bits");
    case "slot":
      if (name === "tab") return "“{tab}” stands for a tab of the board's text, so no slot can be called so.";
      return whyNoWord(name, "slot");
    default:
      return whyNoText(name);
  }
}

function whyNoWord(name: string, what: string): string | null {
  return NAME.test(name)
    ? null
    : `“${name}” is no name of ${/^[aeiou]/.test(what) ? "an" : "a"} ${what}: it begins with a small letter and goes on with small letters, digits and “-”.`;
}

function whyReserved(name: string, what: string): string | null {
  return RESERVED.has(name) ? `No ${what} can be called “${name}”: the language uses the word.` : null;
}

function whyUnit(name: string): string | null {
  return unitSymbol(name) === undefined ? null : `No position can be called “${name}”: that is a unit.`;
}

/** A name in quotes holds anything that one line can. */
function whyNoText(name: string): string | null {
  if (name.trim() === "") return "A name cannot be empty.";
  return /[\r\n]/.test(name) ? "A name stands on one line." : null;
}

/** Why a name that nobody chose stays as it is, by what it is the name of. */
const FIXED: Partial<Record<ThingKind, string>> = {
  mode: "is a mode that the language knows, and has this name on every craft",
  setting: "is a setting of the catalogue, and has this name on every craft",
  field: "is a part of a setting of the catalogue, and has this name on every craft",
  choice: "is a value that the catalogue names, the same on every craft",
  element: "is an element of the OSD that the catalogue knows, and has this name on every craft",
  section: "is a section of the language: there is one of this name, and what it holds goes by it",
  unit: "is a unit",
  channel: "is a channel of the link: channels have numbers and no names",
  rule: "is the code of a rule",
};

/** Why a thing keeps its name, in a sentence; null where it may have another. */
export function whyFixed({ kind, name }: Thing): string | null {
  if (kind === "slot" && name === "#") return "“{#}” is how a dialect counts its lines: it has no other name.";
  const why = FIXED[kind];
  return why === undefined ? null : `“${name}” ${why}. Only names that a pilot chose can be changed.`;
}
