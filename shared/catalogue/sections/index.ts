/** Every section, in the order in which reference pages, `show` and comparisons list them. */
import type { SectionSpec } from "../specs.ts";
import { adjust } from "./adjust.ts";
import { bench } from "./bench.ts";
import { board } from "./board.ts";
import { camera } from "./camera.ts";
import { controls } from "./controls.ts";
import { failsafe } from "./failsafe.ts";
import { filters } from "./filters.ts";
import { finder } from "./finder.ts";
import { frame } from "./frame.ts";
import { gains, gainsSecond } from "./gains.ts";
import { lights } from "./lights.ts";
import { link } from "./link.ts";
import { modesSection } from "./modes.ts";
import { motors } from "./motors.ts";
import { navigation } from "./navigation.ts";
import { osd, osdSecond } from "./osd.ts";
import { outputs } from "./outputs.ts";
import { pack } from "./pack.ts";
import { ports } from "./ports.ts";
import { rates, ratesSecond } from "./rates.ts";
import { recorder } from "./recorder.ts";
import { safety } from "./safety.ts";
import { sensors } from "./sensors.ts";
import { transmitter } from "./transmitter.ts";
import { verbatim } from "./verbatim.ts";
import { video } from "./video.ts";

export const sections: readonly SectionSpec[] = [
  board,
  frame,
  pack,
  link,
  modesSection,
  outputs,
  safety,
  failsafe,
  osd,
  osdSecond,
  video,
  motors,
  sensors,
  filters,
  gains,
  gainsSecond,
  rates,
  ratesSecond,
  adjust,
  camera,
  finder,
  lights,
  recorder,
  navigation,
  ports,
  bench,
  transmitter,
  controls,
  verbatim,
];
