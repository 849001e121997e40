/** Consequences for steering and for a lost signal: rates, throttle, arming, failsafe, return, dials. */

import type { Catalogue } from "../../catalogue/catalogue.ts";
import { capital } from "../../draw/words.ts";
import type { Craft } from "../../model/craft.ts";
import { hoverSettingOf, motorsOf } from "../../numbers/motor-of.ts";
import {
  halfRateStick,
  highestRate,
  rateAt,
  stickAtRate,
  stickAtThrottle,
  throttleAt,
  turnS,
} from "../../numbers/rates.ts";
import { ratesOf, secondRatesOf, stickTravelsOf } from "../../numbers/rates-of.ts";
import { throttleShare } from "../../numbers/sticks.ts";
import { numberIn, numberOf, settingIn, valueIn, wordIn } from "../../numbers/values.ts";
import type { Value } from "../../syntax/value.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatDuration, formatNumber, formatPercent } from "../context/format.ts";
import {
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  consequence,
} from "./provider.ts";

function ratesFiguresOf({ craft, catalogue, section }: ConsequenceSubject) {
  return section === "rates-second" ? secondRatesOf(craft, catalogue) : ratesOf(craft, catalogue);
}

const rateAxis: ConsequenceProvider = (subject) => {
  const { section, name } = subject;
  const figures = ratesFiguresOf(subject);
  const found = name === "roll" || name === "pitch" || name === "yaw" ? figures?.[name] : null;
  if (!figures || !found) return [];
  const topDegS = figures.topDegS ?? Number.POSITIVE_INFINITY;
  const rate = (stick: number) => Math.min(topDegS, rateAt(found, stick));
  const endDegS = rate(1);
  const halfAt = topDegS < found.endDegS ? stickAtRate(found, endDegS / 2) : halfRateStick(found);
  const from = ["slope", "end", "bend"].map((field) => `${section}.${name}:${field}`);
  if (topDegS < highestRate(found)) from.push(`${section}.top-rate`);
  const turn = endDegS > 0 ? `, a turn in ${formatDuration(turnS(endDegS))}` : "";
  const half = halfAt === null || endDegS <= 0 ? "" : `; half of that at ${formatPercent(halfAt)} of stick`;
  return consequence(
    `Half stick turns at ${formatNumber(rate(0.5))} deg/s, full stick at ${formatNumber(endDegS, 4)} deg/s${turn}${half}`,
    from,
    `${formatNumber(rate(0.5))} deg/s at half stick`,
  );
};

const topRate: ConsequenceProvider = (subject) => {
  const figures = ratesFiguresOf(subject);
  const topDegS = figures?.topDegS ?? null;
  if (!figures || topDegS === null) return [];
  const cut = (["roll", "pitch", "yaw"] as const).flatMap((name) => {
    const found = figures[name];
    const stick = found && highestRate(found) > topDegS ? stickAtRate(found, topDegS) : null;
    return stick === null ? [] : { name, text: `${name} from ${formatPercent(stick)} of stick on` };
  });
  const own = `${subject.section}.top-rate`;
  return cut.length === 0
    ? consequence("No axis reaches it", [own])
    : consequence(`It limits ${joinWithAnd(cut.map(({ text }) => text))}`, [
        own,
        ...cut.map(({ name }) => `${subject.section}.${name}`),
      ]);
};

const STICKS = [0.25, 0.5, 0.75, 1];
const THROTTLE = ["throttle-curve", "throttle-soft", "throttle-hover", "throttle-limit", "throttle-limit-by"];

const throttleCurve: ConsequenceProvider = (subject) => {
  const { craft, catalogue, section } = subject;
  const found = ratesFiguresOf(subject)?.throttle;
  if (!found) return [];
  const from = THROTTLE.filter((name) => settingIn(craft, section, name)).map((name) => `${section}.${name}`);
  const gives = STICKS.map((stick) => Math.round(throttleAt(found, stick) * 100)).join(", ");
  const { hoverShare } = motorsOf(craft, catalogue);
  const stick = hoverShare === null ? null : stickAtThrottle(found, hoverShare);
  const hover =
    hoverShare === null
      ? []
      : consequence(
          stick === null
            ? `Full stick gives less than the ${formatPercent(hoverShare)} of the hover: the craft does not lift off`
            : `It hovers, at ${formatPercent(hoverShare)} throttle, with the stick at ${formatPercent(stick)}`,
          [...from, hoverSettingOf(craft).join(".")],
        );
  return [...consequence(`The stick at 25, 50, 75, 100 % gives ${gives} % throttle`, from), ...hover];
};

const armThrottle: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const limitUs = numberOf(value, "us");
  const ends = stickTravelsOf(craft, catalogue)?.throttle;
  if (limitUs === null || !ends) return [];
  const share = throttleShare(limitUs, ends.fromUs, ends.toUs);
  const from = ["safety.arm-throttle-limit", "link.endpoints"];
  if (share <= 0) return consequence(`It lies at or below the stick's low end, ${ends.fromUs} us`, from);
  return consequence(
    `It is ${formatPercent(share)} of the throttle stick, from ${ends.fromUs} us to ${ends.toUs} us`,
    from,
    `${formatPercent(share)} of the stick`,
  );
};

const HELD = {
  last: "with its sticks as last heard",
  centred: "with roll, pitch and yaw in the middle",
  level: "level, with its throttle as it was",
} as const;

/** A throttle, given as a share or as a pulse, in words. */
function throttleText(value: Value | null): string {
  if (value?.kind !== "quantity") return "";
  return ` at ${formatNumber(value.number, 4)} ${value.unit}${value.unit === "%" ? " throttle" : ""}`;
}

/** Why nothing in `failsafe` begins with this receiver; null where it may. */
const NEVER_BEGINS: Readonly<Record<string, string>> = {
  hold: "Nothing of the failsafe begins: the receiver repeats what it heard last, and the board never learns of the loss",
  preset: "To most boards the receiver's presets look like a live link, and then nothing of the failsafe begins",
};

/** What happens after the last packet, step by step, with the total time. */
const linkLoss: ConsequenceProvider = (subject) => {
  const { craft, catalogue } = subject;
  const onLoss = wordIn(craft, catalogue, "link", "on-loss") ?? "";
  const never = NEVER_BEGINS[onLoss];
  // Presets may turn on the mode that plays the loss to the board.
  const mayBegin = onLoss === "preset" && craft.modes.has("loss-trial");
  return never === undefined || mayBegin ? noticedLoss(subject) : consequence(never, ["link.on-loss"]);
};

/** The same where the board learns of the loss. */
const noticedLoss: ConsequenceProvider = ({ craft, catalogue }) => {
  const seconds = (section: string, name: string) => numberIn(craft, catalogue, section, name, "s");
  const [lostS, holdS, descendS] = [
    seconds("link", "lost-after"),
    seconds("failsafe", "hold-for"),
    seconds("failsafe", "descend-for"),
  ];
  const then = wordIn(craft, catalogue, "failsafe", "then");
  const held = wordIn(craft, catalogue, "failsafe", "hold-with");
  const from: string[] = [];
  const steps: string[] = [];
  if (lostS !== null) {
    from.push("link.lost-after");
    steps.push(`after ${formatDuration(lostS)} without a packet the signal counts as lost`);
  }
  if (holdS !== null) {
    from.push("failsafe.hold-for");
    const how = held !== null && held in HELD ? ` ${HELD[held as keyof typeof HELD]}` : "";
    if (how !== "") from.push("failsafe.hold-with");
    steps.push(holdS === 0 ? "the craft acts at once" : `for ${formatDuration(holdS)} it flies on${how}`);
  }
  let endS = lostS === null && holdS === null ? null : (lostS ?? 0) + (holdS ?? 0);
  if (then !== null) from.push("failsafe.then");
  if (then === "stop") steps.push("then the motors stop");
  else if (then === "return") {
    steps.push(`then it flies home${withoutFix(craft, catalogue, from)}`);
    endS = null;
  } else if (then === "descend") {
    const at = valueIn(craft, catalogue, "failsafe", "descend-throttle");
    if (at) from.push("failsafe.descend-throttle");
    if (descendS !== null) from.push("failsafe.descend-for");
    const long = descendS === null ? "" : descendS === 0 ? ", without an end" : ` for ${formatDuration(descendS)}`;
    steps.push(`then it comes down${throttleText(at)}${long}${descendS ? ", and the motors stop" : ""}`);
    endS = endS !== null && descendS ? endS + descendS : null;
  } else endS = null;
  if (steps.length < 2) return [];
  return consequence(`${capital(steps.join(", "))}${endS === null ? "" : `: ${formatDuration(endS)} in all`}`, from);
};

/** What takes the place of the way home; its settings are added to `from`. */
function withoutFix(craft: Craft, catalogue: Catalogue, from: string[]): string {
  const word = wordIn(craft, catalogue, "failsafe", "then-without-fix");
  if (word !== "stop" && word !== "descend") return "";
  from.push("failsafe.then-without-fix");
  return word === "stop" ? ", and without a fix the motors stop" : ", and without a fix it comes down";
}

/** The same for a setting of the descent, which has no effect where the motors stop immediately. */
const descentAfterLoss: ConsequenceProvider = (subject) => {
  const { craft, catalogue, name } = subject;
  const then = wordIn(craft, catalogue, "failsafe", "then");
  if (then !== "stop") return linkLoss(subject);
  return consequence("It has no effect: with `then stop` the motors stop at once", [
    `failsafe.${name}`,
    "failsafe.then",
  ]);
};

const resumeDelay: ConsequenceProvider = ({ value }) => {
  const seconds = numberOf(value, "s");
  if (seconds === null) return [];
  return consequence(
    seconds === 0
      ? "The first packet that comes through gives the craft back to the pilot"
      : `The link must be back for ${formatDuration(seconds)} without a gap before the pilot has the craft again`,
    ["failsafe.resume-after"],
  );
};

/** How long climbing or descending takes, over the return height. */
const climbTime: ConsequenceProvider = ({ craft, catalogue, name }) => {
  const speed = (of: string) => numberIn(craft, catalogue, "navigation", of, "m/s");
  const heightM = numberIn(craft, catalogue, "navigation", "return-height", "m");
  if (heightM === null) return [];
  const legs = [
    { of: "climb-speed", verb: "Climbing", does: "to" },
    { of: "descend-speed", verb: "Coming down", does: "from" },
  ].filter(({ of }) => name === "return-height" || name === of);
  return legs.flatMap(({ of, verb, does }) => {
    const ms = speed(of);
    return ms === null || ms <= 0
      ? []
      : consequence(
          `${verb} ${does} ${formatNumber(heightM)} m at ${formatNumber(ms)} m/s takes ${formatDuration(heightM / ms)}`,
          ["navigation.return-height", `navigation.${of}`],
        );
  });
};

const timeHome: ConsequenceProvider = ({ craft, catalogue }) => {
  const number = (of: string, unit: string) => numberIn(craft, catalogue, "navigation", of, unit);
  const [speedMs, fenceM] = [number("return-speed", "m/s"), number("fence-distance", "m")];
  if (speedMs === null || speedMs <= 0) return [];
  const [distanceM, what] =
    fenceM === null ? [100, "100 m away"] : [fenceM, `the fence, ${formatNumber(fenceM)} m away`];
  return consequence(`From ${what} it is home in ${formatDuration(distanceM / speedMs)}, in still air`, [
    "navigation.return-speed",
    ...(fenceM === null ? [] : ["navigation.fence-distance"]),
  ]);
};

/** What a dial does to a setting: the whole range, the step per microsecond, and the value in the middle. */
export const followProvider: ConsequenceProvider = ({ craft, name, value }) => {
  if (value.kind !== "follows") return [];
  const dial = craft.controls.get(value.dial)?.value;
  const [from, to] = [plainNumber(value.from), plainNumber(value.to)];
  if (!from || !to || dial?.fromUs == null || dial.toUs == null || dial.fromUs === dial.toUs) return [];
  if (from.unit !== to.unit) return [];
  const unit = from.unit === "" ? "" : ` ${from.unit}`;
  const stepUs = Math.abs((to.number - from.number) / (dial.toUs - dial.fromUs));
  return consequence(
    `${value.dial}, from ${dial.fromUs} us to ${dial.toUs} us, moves it by ${formatNumber(Math.abs(to.number - from.number), 4)}${unit}: ${formatNumber(stepUs)}${unit} a us; in the middle it stands at ${formatNumber((from.number + to.number) / 2, 4)}${unit}`,
    [`adjust.${name}`, `controls.${value.dial}`],
  );
};

function plainNumber(value: Value): { number: number; unit: string } | null {
  if (value.kind === "integer") return { number: value.number, unit: "" };
  return value.kind === "quantity" ? { number: value.number, unit: value.unit } : null;
}

export const rateProviders: ConsequenceProviders = {
  roll: rateAxis,
  pitch: rateAxis,
  yaw: rateAxis,
  "top-rate": topRate,
  "throttle-curve": throttleCurve,
  "throttle-soft": throttleCurve,
  "throttle-hover": throttleCurve,
  "throttle-limit": throttleCurve,
  "throttle-limit-by": throttleCurve,
};

export const safetyProviders: ConsequenceProviders = { "arm-throttle-limit": armThrottle };

export const failsafeProviders: ConsequenceProviders = {
  // Not written as a literal key: an object with a member `then` looks like a promise.
  ...Object.fromEntries(["hold-for", "hold-with", "then"].map((name) => [name, linkLoss])),
  "descend-for": descentAfterLoss,
  "descend-throttle": descentAfterLoss,
  "resume-after": resumeDelay,
};

/** The sequence after a lost signal, for `link.lost-after`. */
export const lossProvider: ConsequenceProvider = linkLoss;

export const navigationProviders: ConsequenceProviders = {
  "return-height": climbTime,
  "climb-speed": climbTime,
  "descend-speed": climbTime,
  "return-speed": timeHome,
  "fence-distance": timeHome,
};
