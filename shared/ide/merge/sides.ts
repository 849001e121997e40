/** What the three texts of a merge say, name by name, and what the result has to say. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import type { Document } from "./document.ts";
import { renamedSections, SIDES, type Side } from "./match.ts";
import { ALL, isListed, KEPT, saidIn } from "./said.ts";

/** What the three texts say. */
export interface Said {
  /** Of each name that only one side changed, or both alike, what the result has to say; null: nothing. */
  readonly expected: ReadonlyMap<string, string | null>;
  /** The names that both sides changed in different ways. */
  readonly clashing: ReadonlyMap<string, string>;
  /** Sections that would come to stand under one name, though neither side has them so. */
  readonly joined: readonly string[];
  /** The name under which a section of the result is compared. */
  readonly sectionOf: (section: string) => string;
  isList(section: string, name: string): boolean;
  isDroppedAnywhere(section: string, name: string): boolean;
}

export function saidOf(
  scripts: Readonly<Record<Side, Script>>,
  documents: Readonly<Record<Side, Document>>,
  catalogue: Catalogue,
): Said {
  const renamed = {
    base: new Map<string, string>(),
    ours: renamedSections(documents.base, documents.ours),
    theirs: renamedSections(documents.base, documents.theirs),
  };
  const said = (side: Side) => saidIn(scripts[side], catalogue, (name) => renamed[side].get(name) ?? name);
  const [base, ours, theirs] = [said("base"), said("ours"), said("theirs")];
  const expected = new Map<string, string | null>();
  const clashing = new Map<string, string>();
  for (const key of new Set([...base.keys(), ...ours.keys(), ...theirs.keys()])) {
    const [b, o, t] = [base.get(key) ?? null, ours.get(key) ?? null, theirs.get(key) ?? null];
    const [section = "", name = ""] = key.split("\0");
    if (o === t || t === b) expected.set(key, o);
    else if (o === b) expected.set(key, t);
    else if (name === KEPT ? isInParts(section, documents, renamed) : !isListed(section, name, catalogue))
      clashing.set(key, "changed in two ways");
  }
  const dropped = new Set(
    SIDES.flatMap((side) =>
      scripts[side].drops.flatMap(({ section, all, names }) =>
        [...(all ? [ALL] : []), ...names.map(({ text }) => text)].map(
          (name) => `${renamed[side].get(section) ?? section}\0${name}`,
        ),
      ),
    ),
  );
  const { sectionOf, joined } = namesOfSections(documents, renamed);
  return {
    expected,
    clashing,
    joined,
    sectionOf,
    isList: (section, name) => isListed(section, name, catalogue),
    isDroppedAnywhere: (section, name) => dropped.has(`${section}\0${name}`),
  };
}

/** Whether a text has a section more than once: which of its lines of board text come first depends on the places of both. */
function isInParts(
  section: string,
  documents: Readonly<Record<Side, Document>>,
  renamed: Readonly<Record<Side, ReadonlyMap<string, string>>>,
): boolean {
  return SIDES.some((side) => {
    const parts = documents[side].blocks.filter(
      (block) => (renamed[side].get(block.section) ?? block.section) === section,
    );
    return parts.length > 1;
  });
}

/** How the sections of the result go back to those that are compared, and which would be joined under one name. */
function namesOfSections(
  documents: Readonly<Record<Side, Document>>,
  renamed: Readonly<Record<Side, ReadonlyMap<string, string>>>,
) {
  const back = new Map<string, string>();
  for (const side of ["theirs", "ours"] as const) for (const [to, from] of renamed[side]) back.set(to, from);
  const joined: string[] = [];
  for (const [side, other] of [
    ["ours", "theirs"],
    ["theirs", "ours"],
  ] as const)
    for (const [to, from] of renamed[side]) {
      const alike = renamed[other].get(to);
      // One name for two sections, or more parts of a section than the other side knew when it renamed it.
      if (alike !== undefined && alike !== from) joined.push(from);
      if (partsOf(documents[other], from) > partsOf(documents.base, from)) joined.push(to, from);
    }
  for (const [to, from] of back) {
    const isThere = SIDES.some(
      (side) => !renamed[side].has(to) && documents[side].blocks.some(({ section }) => section === to),
    );
    if (isThere) joined.push(to, from);
  }
  return { sectionOf: (section: string) => back.get(section) ?? section, joined };
}

function partsOf({ blocks }: Document, name: string): number {
  return blocks.filter(({ section }) => section === name).length;
}
