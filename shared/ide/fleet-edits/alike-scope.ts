/** Which differences between two craft are meant by a kind of thing, and which of them are chosen before anybody has looked. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { AlikeKind } from "../../protocol/fleet-change.ts";
import { sectionOf } from "../compare/compare.ts";
import { isPreselected, natureOf } from "../review/danger.ts";

const SECTIONS: Readonly<Record<AlikeKind, readonly string[]>> = {
  habits: ["modes"],
  safety: ["safety", "failsafe"],
  osd: ["osd", "osd-second"],
  rates: ["rates", "rates-second"],
  helpers: ["finder", "lights", "recorder", "navigation"],
  pack: ["pack"],
  link: ["link"],
};

/** What is made of a difference: it is taken, it stays as it is of one craft alone, or nobody asked for it. */
export type Meant = "taken" | "own" | "not-asked";

/** What is meant by the kinds and the layers: hardware is of one craft alone. */
export function meantBy(
  example: Craft,
  kinds: readonly AlikeKind[],
  layers: readonly FilePath[],
  catalogue: Catalogue,
): (what: string) => Meant {
  const sections = new Set(kinds.flatMap((kind) => SECTIONS[kind]));
  const said = new Set(
    example.scripts.flatMap(({ file, entries }) =>
      layers.includes(file) ? entries.map(({ section, name }) => `${section}.${name}`) : [],
    ),
  );
  return (what) => {
    if (!sections.has(baseOf(sectionOf(what))) && !said.has(what)) return "not-asked";
    return natureOf(what, catalogue) === "hardware" ? "own" : "taken";
  };
}

/** Whether a name is chosen unasked: what is to be found anew on each craft is not, nor what is only gone on the example. */
export function chosenUnasked(mine: Craft, example: Craft, catalogue: Catalogue): (what: string) => boolean {
  const about = {
    purpose: "carry" as const,
    catalogue,
    isGuessed: () => false,
    hasSection: (section: string) => mine.settings.has(section),
    isOtherChemistry: isOther(mine, example, "pack", "chemistry"),
    isOtherGrid: isOther(mine, example, "osd", "grid"),
  };
  return (what) => isPreselected(what, about);
}

function isOther(a: Craft, b: Craft, section: string, name: string): boolean {
  const [one, other] = [a, b].map((craft) => craft.settings.get(section)?.get(name)?.text);
  return one !== undefined && other !== undefined && one !== other;
}
