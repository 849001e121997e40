import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { throttleRestsInMiddle } from "../../numbers/motor-of.ts";
import { fieldOf, numberOf } from "../../numbers/values.ts";
import type { Value } from "../../syntax/value.ts";
import type { CraftRule, Location, Report } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { type Hover, SAID_HOVERS, saidHovers } from "../lib/hovers.ts";
import { locationAt, restingOn, valueLocation } from "../lib/locations.ts";
import { MOTORS, saidMotors } from "../lib/said-motors.ts";
import { percentOf } from "../lib/throttle.ts";

/** A most that is asked of the motors, in percent. */
interface Limit {
  readonly what: string;
  readonly percent: number;
  readonly at: Location;
}

const SETS = ["rates", "rates-second"] as const;

function hoverInWords({ percent, pack }: Hover): string {
  return `${decimalText(percent, 0)} % of its throttle${pack === null ? "" : ` on pack “${pack}”`}`;
}

/** Said of the least that an end of a dial gives, too: in flight the dial reaches it. */
function limitsOf(craft: Craft, workspace: Workspace): Limit[] {
  const plain = (setting: Setting | undefined, what: string): Limit[] => {
    const percent = percentOf(craft, setting?.value);
    return setting && percent !== null ? [{ what, percent, at: valueLocation(workspace, setting.source) }] : [];
  };
  const ofMotors = saidMotors(craft).flatMap(({ name, setting }): Limit[] => {
    const value = fieldOf(setting.value, "limit") ?? null;
    const percent = percentOf(craft, value);
    if (!value || percent === null) return [];
    const source = setting.fieldSources.get("limit") ?? setting.source;
    return [{ what: `the limit of ${name}`, percent, at: locationAt(source, value) }];
  });
  const followed = ["throttle-limit", "limit"].flatMap((name): Limit[] => {
    const follows = craft.adjust.get(name);
    if (follows?.value?.kind !== "follows") return [];
    const ends = [follows.value.from, follows.value.to].flatMap((end) => percentOf(craft, end) ?? []);
    if (ends.length === 0) return [];
    const what = `${name} at one end of ${follows.value.dial}`;
    return [{ what, percent: Math.min(...ends), at: valueLocation(workspace, follows.source) }];
  });
  return [
    ...SETS.flatMap((section) => plain(settingOf(craft, `${section}.throttle-limit`), "throttle-limit")),
    ...plain(settingOf(craft, "motors.limit"), "limit"),
    ...ofMotors,
    ...followed,
  ];
}

function idleFaults(craft: Craft, workspace: Workspace, hovers: readonly Hover[]): Report[] {
  const idle = settingOf(craft, "motors.idle");
  const percent = percentOf(craft, idle?.value);
  const lowest = hovers.at(0);
  if (!idle || percent === null || !lowest || percent < lowest.percent) return [];
  return [
    {
      at: valueLocation(workspace, idle.source),
      message: `The motors idle at ${idle.text}, and the craft hovers with ${hoverInWords(lowest)}: it lifts off as it arms, and does not come down with the stick closed.`,
      ...restingOn(lowest.settings, workspace),
    },
  ];
}

function limitFaults(craft: Craft, workspace: Workspace, hovers: readonly Hover[]): Report[] {
  const highest = hovers.at(-1);
  if (!highest) return [];
  return limitsOf(craft, workspace)
    .filter(({ percent }) => percent <= highest.percent)
    .map(({ what, percent, at }) => ({
      at,
      message: `With ${what} of ${decimalText(percent, 0)} % the craft does not stay up: it hovers with ${hoverInWords(highest)}.`,
      ...restingOn(highest.settings, workspace),
    }));
}

function curveFaults(craft: Craft, workspace: Workspace, hovers: readonly Hover[]): Report[] {
  return SETS.flatMap((section) => {
    const curve = settingOf(craft, `${section}.throttle-curve`);
    if (curve?.value?.kind !== "list") return [];
    const points = curve.value.items.map((value) => ({ value, percent: numberOf(value, "%") ?? Number.NaN }));
    return pointFaults(points, hovers.at(-1)).map(
      ({ value, message, hover }): Report => ({
        at: value ? locationAt(curve.source, value) : valueLocation(workspace, curve.source),
        message,
        ...restingOn(hover?.settings ?? [], workspace),
      }),
    );
  });
}

interface Point {
  readonly value: Value;
  readonly percent: number;
}

/** What is wrong with the points of a curve: each where it begins, and where first it falls, and all of them together. */
function pointFaults(points: readonly Point[], highest: Hover | undefined) {
  const faults: { value?: Value; message: string; hover?: Hover }[] = [];
  const [first] = points;
  if (first && first.percent > 0)
    faults.push({
      value: first.value,
      message: `The curve begins at ${first.percent} %: so much thrust is there with the stick closed, as the craft arms and when it should come down. Begin at 0 %.`,
    });
  const falls = points.findIndex(({ percent }, i) => i > 0 && percent < points[i - 1]!.percent);
  if (falls > 0)
    faults.push({
      value: points[falls]!.value,
      message: `The curve falls from ${points[falls - 1]!.percent} % to ${points[falls]!.percent} %: more stick gives less power there, and a climb becomes a drop.`,
    });
  const top = Math.max(...points.map(({ percent }) => percent));
  if (highest && top <= highest.percent)
    faults.push({
      message: `The curve goes no higher than ${decimalText(top, 0)} %, and the craft hovers with ${hoverInWords(highest)}: it does not stay up.`,
      hover: highest,
    });
  return faults;
}

export const rule: CraftRule = {
  code: "thrust-odd",
  severity: "error",
  scope: "craft",
  summary: "Idle, a limit or the throttle curve gives thrust where none is wanted, or too little to hover.",
  prose:
    "An idle at the throttle of the hover, or a curve that begins above zero, lifts the craft as soon as it arms, and it does not come down. A limit at the hover or below keeps it on the ground or lets it fall, and where a curve falls, more stick gives less. Put idle clearly below the hover and each limit clearly above it, and let the curve rise from nothing. Of a craft whose throttle rests in its middle, limits and curve are not judged.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nframe\n  hover-throttle 30 %\n\nrates\n  throttle-limit 25 %\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nframe\n  hover-throttle 30 %\n\nrates\n  throttle-limit 70 %\n' },
  },
  looksAt: {
    settings: [
      ...SAID_HOVERS,
      MOTORS,
      "motors.idle",
      "motors.limit",
      "motors.reverse-band",
      "safety.arm-throttle",
      "rates.throttle-limit",
      "rates.throttle-curve",
    ],
  },
  check(craft, workspace) {
    const hovers = saidHovers(craft);
    const reports = idleFaults(craft, workspace, hovers);
    if (throttleRestsInMiddle(craft)) return reports;
    return [...reports, ...limitFaults(craft, workspace, hovers), ...curveFaults(craft, workspace, hovers)];
  },
};
