/** How many motors a craft says that it has, by their number and by the layout of its arms. */
import type { Craft, Setting } from "../../model/craft.ts";
import { choiceOf, integerOf, settingOf } from "../../model/setting-lookup.ts";
import { ARRANGEMENTS, type Arrangement } from "./motor-arrangements.ts";
import type { SaidMotor } from "./said-motors.ts";

/** Motors of a craft that says neither their number nor its layout: the catalogue's default. */
const USUAL_MOTORS = 4;

/** What a craft says of its frame; null where it does not. */
export interface FrameCounts {
  readonly count: { readonly is: number; readonly setting: Setting } | null;
  readonly layout: { readonly is: string; readonly setting: Setting } | null;
  /** The numbers of motors that frames of this layout have, ascending; empty where nothing is known of it. */
  readonly fitting: readonly number[];
  /** Whether number and layout exclude each other. */
  readonly differ: boolean;
  /** The most motors for which there is room; null where it is not said. */
  readonly most: number | null;
}

export function frameCounts(craft: Craft): FrameCounts {
  const count = said(integerOf(craft, "frame.motors"), settingOf(craft, "frame.motors"));
  const layout = said(choiceOf(craft, "frame.arm-layout"), settingOf(craft, "frame.arm-layout"));
  const sizes = ARRANGEMENTS.filter(({ layouts }) => layout && layouts.includes(layout.is)).map(
    ({ places }) => places.size,
  );
  const fitting = [...new Set(sizes)].sort((a, b) => a - b);
  const differ = count !== null && fitting.length > 0 && !fitting.includes(count.is);
  const most = differ ? Math.max(count.is, ...fitting) : (count?.is ?? fitting.at(-1) ?? null);
  return { count, layout, fitting, differ, most };
}

function said<T>(is: T | undefined, setting: Setting | undefined): { is: T; setting: Setting } | null {
  return is === undefined || !setting ? null : { is, setting };
}

/**
 * The arrangements in which motors may stand by what is said of the frame; of four where nothing is, unless
 * a later motor is said. Where number and layout exclude each other, those of either.
 */
export function possibleArrangements(
  { count, layout, differ }: FrameCounts,
  motors: readonly SaidMotor[],
): readonly Arrangement[] {
  const hasCount = ({ places }: Arrangement) => places.size === count?.is;
  const hasLayout = ({ layouts }: Arrangement) => layout !== null && layouts.includes(layout.is);
  if (differ) return ARRANGEMENTS.filter((each) => hasCount(each) || hasLayout(each));
  if (count || layout) return ARRANGEMENTS.filter((each) => (!count || hasCount(each)) && (!layout || hasLayout(each)));
  return motors.some(({ number }) => number > USUAL_MOTORS)
    ? ARRANGEMENTS
    : ARRANGEMENTS.filter(({ places }) => places.size === USUAL_MOTORS);
}
