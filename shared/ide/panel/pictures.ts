/** Single pictures of a craft, or the reason why there is none: for image files, without a panel. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { AgainstPictures } from "../../protocol/against.ts";
import type { MotorsPicture } from "../../protocol/motors.ts";
import type { FiltersPicture, RatesPicture } from "../../protocol/numbers.ts";
import type { GogglesPicture, SwitchesPicture } from "../../protocol/panel.ts";
import { picturesOf } from "./against.ts";
import { filtersPictureOf, ratesPictureOf } from "./curves.ts";
import { type GogglesQuery, gogglesOf, whyNoGoggles } from "./goggles.ts";
import { motorsPicture } from "./motors.ts";
import { NO_MOTORS, NO_RATES, whyNoFilters } from "./numbers.ts";
import type { OtherCraft } from "./other-craft.ts";
import { switchesOf, whyNoSwitches } from "./switches.ts";

/** A picture, or why there is nothing to draw and what to add to the script. */
export type Drawable<T> = { readonly picture: T } | { readonly why: string };

export interface RatesPictures {
  readonly first: RatesPicture;
  readonly second: RatesPicture | null;
}

/** One page of the OSD at one moment of a flight, optionally on another grid. */
export function osdDrawable(craft: Craft, workspace: Workspace, query: GogglesQuery): Drawable<GogglesPicture> {
  const picture = gogglesOf(craft, workspace, query);
  return picture ? { picture } : { why: whyNoGoggles(craft) };
}

/** The controls at rest, with the modes that their positions turn on. */
export function switchesDrawable(craft: Craft, workspace: Workspace): Drawable<SwitchesPicture> {
  const picture = switchesOf(craft, workspace, undefined);
  return picture ? { picture } : { why: whyNoSwitches(craft) };
}

/** One page of the OSD of a craft, and of another at the same moment. */
export function osdAgainst(
  craft: Craft,
  workspace: Workspace,
  query: GogglesQuery,
  other: OtherCraft,
): AgainstPictures {
  const goggles = gogglesOf(craft, workspace, query);
  return picturesOf({ craft, workspace, goggles, switches: null, view: "goggles" }, other, query);
}

/** The controls of a craft at rest, and of another with its controls in the same positions. */
export function switchesAgainst(craft: Craft, workspace: Workspace, other: OtherCraft): AgainstPictures {
  const switches = switchesOf(craft, workspace, undefined);
  return picturesOf({ craft, workspace, goggles: null, switches, view: "switches" }, other, {});
}

/** The rates by stick, with the second set where there is one. */
export function ratesDrawable(craft: Craft, workspace: Workspace): Drawable<RatesPictures> {
  const first = ratesPictureOf(craft, workspace);
  return first ? { picture: { first, second: ratesPictureOf(craft, workspace, "rates-second") } } : { why: NO_RATES };
}

/** The response and the delay of the filters. */
export function filtersDrawable(craft: Craft, workspace: Workspace): Drawable<FiltersPicture> {
  const picture = filtersPictureOf(craft, workspace);
  return picture ? { picture } : { why: whyNoFilters(craft, workspace) };
}

/** The motors from above. */
export function motorsDrawable(craft: Craft, workspace: Workspace): Drawable<MotorsPicture> {
  const picture = motorsPicture(craft, workspace);
  return picture ? { picture } : { why: NO_MOTORS };
}
