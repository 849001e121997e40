/** A difference in words: what the second craft has otherwise than the first, as one would tell it to a pilot. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { placedOn } from "../../osd/layout.ts";
import { type Difference, nameOf, sectionOf } from "./compare.ts";
import { conditionWords } from "./words-of-conditions.ts";
import { controlWords, handsetWords } from "./words-of-controls.ts";
import { placeWords } from "./words-of-places.ts";
import { followingWords, keptWords, settingWords } from "./words-of-settings.ts";

/**
 * One sentence without its full stop, such as “arm moves from TL down to TR up” or “warn-at goes down from
 * 3.5 V/cell to 3.4 V/cell”. It goes from `before` to `after`, the craft in which the difference was found.
 */
export function wordsOf(
  difference: Pick<Difference, "what">,
  before: Craft,
  after: Craft,
  { catalogue }: { readonly catalogue: Catalogue },
): string {
  const [section, name] = [sectionOf(difference.what), nameOf(difference.what)];
  switch (section) {
    case "handset":
      return handsetWords(before.handset?.name ?? null, after.handset?.name ?? null);
    case "modes":
      return conditionWords(name, name, before.modes.get(name), after.modes.get(name), before, after);
    case "outputs":
      return conditionWords(
        `outputs.${name}`,
        `the output ${name}`,
        before.outputs.get(name),
        after.outputs.get(name),
        before,
        after,
      );
    case "controls":
      return controlWords(name, before.controls.get(name), after.controls.get(name));
    case "adjust":
      return followingWords(name, before.adjust.get(name), after.adjust.get(name));
    case "verbatim":
      return keptWords(name, linesFor(name, before), linesFor(name, after));
    case "osd":
    case "osd-second":
      if ([before, after].some((craft) => placedOn(craft, section).has(name)))
        return placeWords(section, name, before, after, catalogue);
      break;
  }
  const [a, b] = [before, after].map((craft) => craft.settings.get(section)?.get(name));
  return settingWords(section, name, a, b, catalogue);
}

function linesFor(dialect: string, { kept }: Craft): readonly string[] {
  return kept.filter((each) => each.dialect === dialect).map(({ text }) => text);
}
