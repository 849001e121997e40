/** How the motors of a frame stand round it, by its layout. Names of places: the catalogue's. */

/** One way in which motors stand: the arms in order round the frame, and how many motors each carries. */
export interface Arrangement {
  /** The words of `frame.arm-layout` that mean it. */
  readonly layouts: readonly string[];
  /** Clockwise seen from above. */
  readonly arms: readonly string[];
  /** Every place of a motor. */
  readonly places: ReadonlySet<string>;
  /** Whether one motor of each arm sits below another. */
  readonly stacked: boolean;
  /** Whether neighbours round the frame turn against each other: not where a servo or each arm's pair balances their drag. */
  readonly alternates: boolean;
}

const UNDER = "under-";

/** The place of the lower motor on an arm. */
export function underPlace(arm: string): string {
  return `${UNDER}${arm}`;
}

/** Whether a place is that of the lower motor on an arm. */
export function isUnder(place: string): boolean {
  return place.startsWith(UNDER);
}

/** The place above that of a lower motor. */
export function upperPlace(place: string): string {
  return place.slice(UNDER.length);
}

function arrangement(layouts: string, arms: string, kind: "single" | "stacked" | "steered" = "single"): Arrangement {
  const names = arms.split(" ");
  const stacked = kind === "stacked";
  return {
    layouts: layouts.split(" "),
    arms: names,
    places: new Set(stacked ? names.flatMap((arm) => [arm, underPlace(arm)]) : names),
    stacked,
    alternates: kind === "single",
  };
}

const X = "front-left front-right rear-right rear-left";
const PLUS = "front right rear left";
const THREES = [
  "front-left front-right rear",
  "front rear-right rear-left",
  "left right rear",
  "front right left",
] as const;

/** Every arrangement that is known, from few motors to many. Common practice, no source. */
export const ARRANGEMENTS: readonly Arrangement[] = [
  ...THREES.map((arms) => arrangement("tri", arms, "steered")),
  arrangement("true-x wide-x stretched-x", X),
  arrangement("plus", PLUS),
  arrangement("hexagon", "front-left front-right right rear-right rear-left left"),
  arrangement("hexagon", "front front-right rear-right rear rear-left front-left"),
  ...THREES.map((arms) => arrangement("stacked stacked-tri", arms, "stacked")),
  arrangement("octagon", "front-left front-right right-front right-rear rear-right rear-left left-rear left-front"),
  arrangement("octagon", "front front-right right rear-right rear rear-left left front-left"),
  arrangement("stacked", X, "stacked"),
  arrangement("stacked", PLUS, "stacked"),
];
