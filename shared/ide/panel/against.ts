/** The other side of a comparison, as the panel shows it with the craft that is drawn. */
import type { Craft } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Against, AgainstPictures, RatesAgainst } from "../../protocol/against.ts";
import type { GogglesPicture, SwitchesPicture, ViewName } from "../../protocol/panel.ts";
import { type Difference, differencesOf } from "../compare/compare.ts";
import { missingParts } from "../context/missing-parts.ts";
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
    missing: missingParts(other.craft).map(({ message }) => message),
    goggles,
    noGoggles: here.goggles && !goggles ? whyNoneThere(other.craft, here.goggles.page) : null,
    switches,
    noSwitches: here.switches && !switches ? NO_CONTROLS : null,
    rates: here.view === "numbers" ? ratesAgainst(here.craft, other, differences) : null,
  };
}

/** Found once for each pair of craft: the panel asks again with every move of a control. */
function differencesBetween(here: Craft, there: Craft, { catalogue }: Workspace): readonly Difference[] {
  const kept = keptOf(here, there);
  kept.differences ??= differencesOf(here, there, catalogue);
  return kept.differences;
}

const keptOf = oncePer((_here: Craft, _there: Craft): { differences?: readonly Difference[] } => ({}));

/** The rates of the other side; null where none of what is drawn differs. */
function ratesAgainst(
  here: Craft,
  { craft, workspace }: OtherCraft,
  differences: readonly Difference[],
): RatesAgainst | null {
  if (!differences.some(({ what }) => /^rates(-second)?\./.test(what)) || !here.settings.has("rates")) return null;
  const first = ratesPictureOf(craft, workspace);
  const second = ratesPictureOf(craft, workspace, "rates-second");
  return first || second ? { first, second } : null;
}
