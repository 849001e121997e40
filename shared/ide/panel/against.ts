/** The other side of a comparison, as the panel shows it with the craft that is drawn. */
import { baseOf, type Craft } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Against, AgainstPictures, NumbersAgainst } from "../../protocol/against.ts";
import type { RatesPicture } from "../../protocol/numbers.ts";
import type { GogglesPicture, SwitchesPicture, ViewName } from "../../protocol/panel.ts";
import { type Difference, differencesOf, sectionOf } from "../compare/compare.ts";
import { wordsOf } from "../compare/words.ts";
import { ratesPictureOf } from "./curves.ts";
import type { GogglesQuery } from "./goggles.ts";
import { gogglesAgainst, whyNoneThere } from "./goggles-against.ts";
import type { Other, OtherCraft } from "./other-craft.ts";
import { switchesAgainst } from "./switches-against.ts";

/** What the panel draws of this side. */
interface Here {
  readonly craft: Craft;
  readonly workspace: Workspace;
  readonly goggles: GogglesPicture | null;
  readonly switches: SwitchesPicture | null;
  readonly view: ViewName | undefined;
}

const NO_CONTROLS = "There no handset lists any controls, so there are no switches to compare with.";

/** The other side, or why there is none. */
export function againstOf(here: Here, other: Other, query: GogglesQuery): Against {
  return "message" in other ? { kind: "none", message: other.message } : picturesOf(here, other, query);
}

/** Both sides, drawn at the same moment and with the controls in the same positions. */
export function picturesOf(here: Here, other: OtherCraft, query: GogglesQuery): AgainstPictures {
  const differences = differencesBetween(here.craft, other.craft, here.workspace);
  const goggles = here.goggles && gogglesAgainst(here.goggles, here.craft, other, differences, query);
  const switches = here.switches && switchesAgainst(here.switches, here.craft, other, differences);
  return {
    kind: "pictures",
    name: other.name,
    from: other.from,
    notes: other.notes,
    goggles,
    noGoggles: here.goggles && !goggles ? whyNoneThere(other.craft, here.goggles.page) : null,
    switches,
    noSwitches: here.switches && !switches ? NO_CONTROLS : null,
    numbers: here.view === "numbers" ? numbersAgainst(here.craft, other, differences) : null,
  };
}

/** Found once for each pair of craft: the panel asks again with every move of a control. */
function differencesBetween(here: Craft, there: Craft, { catalogue }: Workspace): readonly Difference[] {
  const kept = keptOf(here, there);
  kept.differences ??= differencesOf(here, there, catalogue);
  return kept.differences;
}

const keptOf = oncePer((_here: Craft, _there: Craft): { differences?: readonly Difference[] } => ({}));

/** What of the rates, the packs, the filters and the loop differs. */
function numbersAgainst(
  here: Craft,
  { craft, workspace }: OtherCraft,
  differences: readonly Difference[],
): NumbersAgainst {
  const drawn = differences.filter(({ what }) => isDrawn(what));
  const differs = (set: RatesPicture["set"]) => drawn.some(({ what }) => what.startsWith(`${set}.`));
  // The second set falls back to the first.
  const second = differs("rates") || differs("rates-second");
  return {
    rates: differs("rates") ? ratesPictureOf(craft, workspace) : null,
    secondRates: second ? ratesPictureOf(craft, workspace, "rates-second") : null,
    words: drawn.map(({ what }) => wordsOf({ what }, here, craft, workspace)),
  };
}

const SECTIONS: ReadonlySet<string> = new Set(["rates", "rates-second", "pack", "filters"]);
const OF_THE_LOOP: ReadonlySet<string> = new Set(["sensors.loop-rate", "motors.esc-signal", "motors.esc-rate"]);

function isDrawn(what: string): boolean {
  return SECTIONS.has(baseOf(sectionOf(what))) || OF_THE_LOOP.has(what);
}
