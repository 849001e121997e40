/**
 * What the display could show at five moments of a flight: for each a set of readings that are
 * consistent with each other and with the craft's pack, link and warnings. The scene itself (how
 * far, how fast, how warm) is the project's own example, no measurement.
 */
import type { Craft } from "../model/craft.ts";
import { oncePer } from "../model/memo.ts";
import { choiceOf, quantityOf } from "../model/setting-lookup.ts";
import type { SignalPhase } from "../protocol/signal.ts";
import { activeAlerts, alertText } from "./alerts.ts";
import type { Readings } from "./element-text.ts";
import { nameText } from "./layout.ts";
import {
  BRISK_FACTOR,
  type PackModel,
  type PackState,
  packAfter,
  packAtLanding,
  packModelOf,
  timeLeftS,
} from "./pack-state.ts";
import type { Scenario } from "./placed.ts";
import { phaseReadings } from "./signal-readings.ts";

/** What the display shows at one moment. */
export interface DisplayState {
  readonly readings: Readings;
  /** Elements that flash: their reading is past a threshold that the script sets. */
  readonly flashes: ReadonlySet<string>;
}

/** Used for what the craft does not set. */
const EXAMPLE = { videoMhz: 5800, videoMw: 25, packetHz: 150, handsetMw: 100 };

type Scene = Readonly<Record<string, number | string>>;

/** Brisk flight among trees, with half of the usable charge left. */
const MID_FLIGHT: Scene = {
  "link-quality": 98,
  "signal-dbm": -68,
  "noise-margin": 9,
  antenna: 1,
  day: "2026-05-01",
  "lap-time": 27,
  "lap-number": 3,
  throttle: 41,
  "sets-in-use": "R1 G1",
  adjusting: "",
  message: "",
  heading: 218,
  "pitch-angle": -12,
  "roll-angle": 8,
  "g-force": 1.1,
  height: 24.5,
  "ground-clearance": 22.8,
  "top-height": 41,
  climb: 0.8,
  speed: 48,
  "top-speed": 93,
  "home-distance": 164,
  "home-bearing": 47,
  satellites: 14,
  "fix-spread": 0.9,
  "esc-heat": 58,
  "board-heat": 46,
  "motor-rpm": 17_400,
  "camera-angle": 20,
  "recorder-left": 71,
  "loop-load": 34,
  "stick-roll": 6,
  "stick-pitch": 18,
  "stick-yaw": -3,
  "stick-throttle": 44,
};

/** The readings in which each moment differs from mid-flight. */
const SCENES: Readonly<Record<Scenario, Scene>> = {
  "mid-flight": {},
  "fresh-pack": {
    "link-quality": 100,
    "signal-dbm": -42,
    "noise-margin": 12,
    "lap-time": 8,
    "lap-number": 1,
    throttle: 27,
    message: "CHECKS PASSED",
    "pitch-angle": -2,
    "roll-angle": 1,
    "g-force": 1,
    height: 1.6,
    "ground-clearance": 1.6,
    "top-height": 2,
    climb: 0.2,
    speed: 12,
    "top-speed": 12,
    "home-distance": 9,
    "home-bearing": 180,
    "esc-heat": 34,
    "board-heat": 38,
    "motor-rpm": 14_100,
    "recorder-left": 88,
    "stick-roll": 0,
    "stick-pitch": 4,
    "stick-yaw": 0,
    "stick-throttle": 29,
  },
  "low-pack": {
    "signal-dbm": -57,
    "lap-number": 6,
    height: 12.1,
    "ground-clearance": 11.7,
    climb: -1.2,
    speed: 31,
    "home-distance": 58,
    "home-bearing": 4,
    "esc-heat": 66,
    "board-heat": 48,
    "motor-rpm": 18_300,
    "recorder-left": 58,
  },
  "link-fading": {
    "noise-margin": -4,
    antenna: 2,
    height: 46.2,
    "ground-clearance": 47.9,
    "top-height": 47,
    speed: 61,
    "home-distance": 640,
    "home-bearing": 171,
    "recorder-left": 66,
  },
  "signal-lost": {
    "link-quality": 0,
    "signal-dbm": -130,
    "noise-margin": -20,
    antenna: 2,
    height: 45.8,
    "ground-clearance": 47.1,
    "top-height": 47,
    climb: -0.4,
    speed: 52,
    "home-distance": 702,
    "home-bearing": 174,
    "recorder-left": 65,
    "stick-roll": 0,
    "stick-pitch": 0,
    "stick-yaw": 0,
  },
};

/** How much of a fresh pack is used: a hover of so many seconds, or this share of the budget, whichever is less. */
const FRESH = { hoverS: 8, share: 0.05 };
/** Seconds from plugging in to arming. */
const PLUG_IN_TO_ARM_S = 50;
/** When the craft was armed, in minutes: of the day, and of its total flight time. */
const ARMED_MIN = { ofDay: 15 * 60 + 40, ofLife: 2_470 };
/** The middle of the North Sea: nobody's home. */
const HOME = { latitude: 56, longitude: 3 };
/** Length of a degree on a sphere with the earth's mean radius, 6371.009 km (from memory). */
const METRES_A_DEGREE = (6_371_009 * Math.PI) / 180;

const displayStates = oncePer((_: Craft) => new Map<Scenario | SignalPhase, DisplayState>());

/**
 * The readings of a craft at a moment of a flight, and the elements that flash; of a lost signal in one of its
 * phases. Memoized per craft, and by the phase itself.
 */
export function displayStateOf(craft: Craft, scenario: Scenario, phase?: SignalPhase): DisplayState {
  const known = displayStates(craft, undefined);
  const moment = known.get(phase ?? scenario) ?? makeDisplayState(craft, scenario, phase);
  known.set(phase ?? scenario, moment);
  return moment;
}

function makeDisplayState(craft: Craft, scenario: Scenario, phase: SignalPhase | undefined): DisplayState {
  const readings = readingsOf(craft, scenario, phase);
  const alerts = activeAlerts(craft, readings);
  const alert = alertText(craft, alerts);
  readings.set("alert", alert);
  return {
    readings,
    flashes: new Set([...alerts.flatMap(({ elements }) => elements), ...(alert === "" ? [] : ["alerts"])]),
  };
}

function readingsOf(craft: Craft, scenario: Scenario, phase: SignalPhase | undefined): Map<string, number | string> {
  const model = packModelOf(craft);
  const pack = packStateIn(model, scenario);
  const lost = phase && phaseReadings(phase, choiceOf(craft, "failsafe.then"));
  const link =
    lost && !lost.told ? { ...heardLast(), ...linkReadings(craft, "link-fading") } : linkReadings(craft, scenario);
  const scene: Scene = { ...MID_FLIGHT, ...SCENES[scenario], ...link, ...lost?.scene };
  const flown = craft.modes.has("level") ? "LEVEL" : "RATES";
  const speedKmh = Number(scene.speed);
  // A mAh is 3.6 A·s.
  const flightS = Math.round((pack.usedMah * 3.6) / (model.hoverA * (scenario === "fresh-pack" ? 1 : BRISK_FACTOR)));
  return new Map<string, number | string>([
    ...Object.entries(scene),
    ["pack-volts", pack.cellV * model.cells],
    ["cell-volts", pack.cellV],
    ["rested-volts", pack.restedV],
    ["amps", pack.amps],
    ["watts", pack.cellV * model.cells * pack.amps],
    ["used-capacity", pack.usedMah],
    ["charge-left", Math.round(100 * (1 - pack.usedMah / model.capacityMah))],
    ["charge-per-distance", (pack.amps * 1000) / speedKmh],
    ["time-left", timeLeftS(model, pack)],
    ["flight-time", flightS],
    ["power-time", flightS + PLUG_IN_TO_ARM_S],
    ["lifetime", ARMED_MIN.ofLife + flightS / 60],
    ["time-of-day", (ARMED_MIN.ofDay + flightS / 60) % (24 * 60)],
    ["travelled", Math.round(Math.max(Number(scene["home-distance"]), (speedKmh / 3.6) * flightS * 0.8))],
    ...positionReadings(scene),
    ["packet-rate", quantityOf(craft, "link.packet-rate", "Hz") ?? EXAMPLE.packetHz],
    ["link-power", quantityOf(craft, "transmitter.power", "mW") ?? EXAMPLE.handsetMw],
    ["video-frequency", quantityOf(craft, "video.frequency", "MHz") ?? EXAMPLE.videoMhz],
    ["video-power", quantityOf(craft, "video.power", "mW") ?? EXAMPLE.videoMw],
    ["mode", scene.mode ?? (scenario === "signal-lost" && !lost ? "FAILSAFE" : flown)],
    ["craft-name", craft.name],
    ["pilot-name", nameText("osd.pilot-name", craft)],
  ]);
}

/**
 * Latitude and longitude of the craft, from its distance and bearing to home; so near that a plane is
 * accurate enough.
 */
function positionReadings(scene: Scene): [string, number][] {
  const way = ((Number(scene.heading) + Number(scene["home-bearing"])) * Math.PI) / 180;
  const degrees = Number(scene["home-distance"]) / METRES_A_DEGREE;
  return [
    ["latitude", HOME.latitude - degrees * Math.cos(way)],
    ["longitude", HOME.longitude - (degrees * Math.sin(way)) / Math.cos((HOME.latitude * Math.PI) / 180)],
  ];
}

function packStateIn(model: PackModel, scenario: Scenario): PackState {
  const briskA = model.hoverA * BRISK_FACTOR;
  switch (scenario) {
    case "fresh-pack":
      return packAfter(
        model,
        Math.min((model.hoverA * FRESH.hoverS) / 3.6, model.budgetMah * FRESH.share),
        model.hoverA,
      );
    case "mid-flight":
      return packAfter(model, model.budgetMah / 2, briskA);
    case "low-pack":
      return packAtLanding(model, briskA);
    case "link-fading":
      return packAfter(model, model.budgetMah * 0.6, briskA);
    case "signal-lost":
      return packAfter(model, model.budgetMah * 0.62, briskA);
  }
}

/**
 * The readings of the link. A fading one is just below the script's warning thresholds; without these, weak
 * by common practice.
 */
function linkReadings(craft: Craft, scenario: Scenario): Scene {
  if (scenario === "signal-lost") return { message: lossMessage(craft) };
  if (scenario !== "link-fading") return {};
  const alertShare = quantityOf(craft, "osd.link-alert", "%");
  const alertDbm = quantityOf(craft, "osd.signal-alert", "dBm");
  return {
    "link-quality": alertShare === undefined ? 52 : Math.max(1, Math.round(alertShare - 8)),
    "signal-dbm": alertDbm === undefined ? -101 : Math.round(alertDbm - 3),
  };
}

/** The link's figures as they were when they were last heard. */
function heardLast(): Scene {
  const scene = { ...MID_FLIGHT, ...SCENES["link-fading"] };
  const names = ["noise-margin", "stick-roll", "stick-pitch", "stick-yaw"];
  return Object.fromEntries(names.map((name) => [name, scene[name]!]));
}

/** The message at the loss of the signal, with what the craft does next by its `failsafe`. */
function lossMessage(craft: Craft): string {
  const then = choiceOf(craft, "failsafe.then");
  return then === undefined ? "SIGNAL LOST" : `SIGNAL LOST: ${then.toUpperCase()}`;
}
