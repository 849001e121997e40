/** The checks on the bench that have a day, and what each of them covers: what was seen to be right, and is so no longer once it changes. */

import type { SettingName } from "../engine/rule.ts";

/** What a check covers. */
export interface BenchCheck {
  readonly name: SettingName;
  /** What it is about, such as “motors”. */
  readonly title: string;
  /** The board's software may change its result. */
  readonly restsOnSoftware: boolean;
  readonly settings?: readonly SettingName[];
  /** Everything in a section, except for some of it. */
  readonly sections?: readonly { readonly section: string; readonly except: readonly string[] }[];
  /** Of each motor these fields. */
  readonly motorFields?: readonly string[];
  /** Ports that are used so. */
  readonly portsFor?: readonly string[];
  /** Modes by name, or every one. */
  readonly modes?: readonly string[] | "all";
  /** What else hangs on a condition or on a dial, each taken together. */
  readonly together?: readonly ("outputs" | "adjust")[];
  /** Where each element stands, on these pages. */
  readonly pages?: readonly ("osd" | "osd-second")[];
  /** Its result is of the sticks, which a craft with a handset has although no line names them. */
  readonly ofSticks?: true;
}

/** The motors, each said by itself. */
export const MOTOR_NAMES = Array.from({ length: 8 }, (_, i) => `motor${i + 1}`);
const RECEIVER: readonly SettingName[] = ["link.receiver", "link.band", "board.model"];

/** In the order in which they are made. */
export const BENCH_CHECKS: readonly BenchCheck[] = [
  {
    name: "bench.order-checked",
    title: "order of the sticks",
    restsOnSoftware: true,
    settings: ["link.order", "transmitter.stick-mode", "transmitter.module", ...RECEIVER],
    ofSticks: true,
  },
  {
    name: "bench.direction-checked",
    title: "direction of the sticks",
    restsOnSoftware: true,
    settings: ["link.order", "link.reversed", "transmitter.stick-mode", "transmitter.module", ...RECEIVER],
    ofSticks: true,
  },
  {
    name: "bench.motors-checked",
    title: "motors",
    restsOnSoftware: true,
    settings: [
      "frame.motors",
      "board.model",
      "motors.spin",
      "motors.reversible",
      "motors.esc-signal",
      "motors.esc-rating",
      "motors.kv",
      "motors.poles",
      "motors.yaw-servo-output",
      "motors.yaw-servo-reversed",
    ],
    motorFields: ["place", "direction", "output"],
    portsFor: ["esc-data"],
  },
  {
    name: "bench.mount-checked",
    title: "mount of the board",
    restsOnSoftware: true,
    settings: [
      "sensors.mount-roll",
      "sensors.mount-pitch",
      "sensors.mount-yaw",
      "sensors.compass",
      "sensors.compass-yaw",
      "sensors.compass-flipped",
      "board.model",
    ],
  },
  {
    name: "bench.failsafe-checked",
    title: "lost signal",
    restsOnSoftware: true,
    settings: ["link.on-loss", "link.lost-after", "link.preset-channels", ...RECEIVER],
    sections: [{ section: "failsafe", except: [] }],
  },
  {
    name: "bench.range-checked",
    title: "range",
    restsOnSoftware: false,
    settings: [
      "link.antennas",
      "link.packet-rate",
      "link.receiver",
      "link.band",
      "link.receiver-power",
      "transmitter.band",
      "transmitter.module",
      "transmitter.power",
    ],
  },
  {
    name: "bench.hover-checked",
    title: "hover",
    restsOnSoftware: true,
    settings: [
      "frame.motors",
      "frame.propeller-diameter",
      "frame.propeller-pitch",
      "frame.propeller-blades",
      "frame.ducts",
      "frame.wheelbase",
      "frame.arm-layout",
      "frame.arm-thickness",
      "frame.mass",
      "pack.chemistry",
      "pack.cells",
      "board.model",
      "board.soft-mount",
      "sensors.gyro-rate",
      "sensors.loop-rate",
    ],
    sections: [
      { section: "gains", except: [] },
      { section: "gains-second", except: [] },
      { section: "filters", except: [] },
      { section: "motors", except: ["esc-heat-limit", "rpm-feedback", "reversible", "reverse-band", ...MOTOR_NAMES] },
    ],
  },
  {
    name: "bench.finder-checked",
    title: "finder",
    restsOnSoftware: true,
    settings: ["board.model"],
    sections: [{ section: "finder", except: [] }],
    modes: ["finder"],
  },
  {
    name: "bench.weighed-on",
    title: "weight",
    restsOnSoftware: false,
    settings: [
      "frame.motors",
      "frame.propeller-diameter",
      "frame.propeller-blades",
      "frame.ducts",
      "frame.wheelbase",
      "frame.arm-layout",
      "frame.arm-thickness",
      "board.model",
      "link.receiver",
      "motors.kv",
      "pack.chemistry",
      "pack.cells",
      "pack.parallel",
      "pack.capacity",
      "pack.pack-mass",
    ],
  },
  {
    name: "bench.ends-checked",
    title: "ends of the sticks",
    restsOnSoftware: false,
    settings: [
      "link.order",
      "link.endpoints",
      "link.centre",
      "transmitter.module",
      "transmitter.travel",
      "transmitter.stick-mode",
      ...RECEIVER,
    ],
  },
  {
    name: "bench.switches-checked",
    title: "switches and modes",
    restsOnSoftware: true,
    settings: ["link.two-level", "link.channels", "transmitter.module", ...RECEIVER],
    modes: "all",
    together: ["outputs", "adjust"],
  },
  {
    name: "bench.arming-checked",
    title: "arming",
    restsOnSoftware: true,
    settings: ["link.two-level", "navigation.fix-needs", "transmitter.start-check", ...RECEIVER],
    sections: [{ section: "safety", except: ["turtle-power", "turtle-stop-after", "tumble-stop"] }],
    modes: ["arm", "arm-permit"],
  },
  {
    name: "bench.meters-checked",
    title: "meters of the pack",
    restsOnSoftware: true,
    settings: [
      "board.model",
      "pack.volts-from",
      "pack.divider-top",
      "pack.divider-bottom",
      "pack.adc-bits",
      "pack.adc-reference",
      "pack.current-from",
      "pack.shunt",
      "pack.shunt-gain",
      "pack.shunt-offset",
    ],
  },
  {
    name: "bench.helpers-checked",
    title: "lights, recorder and camera mount",
    restsOnSoftware: true,
    settings: ["board.model", "camera.tilt", "camera.servo-output", "camera.servo-pulses", "camera.recording"],
    sections: [
      { section: "lights", except: [] },
      { section: "recorder", except: [] },
    ],
  },
  {
    name: "bench.picture-checked",
    title: "picture in the goggles",
    restsOnSoftware: true,
    settings: ["board.model", "video.signal", "video.standard", "video.camera-picture", "video.viewer-grid"],
    sections: [
      { section: "osd", except: [] },
      { section: "osd-second", except: [] },
    ],
    pages: ["osd", "osd-second"],
  },
  {
    name: "bench.home-checked",
    title: "way home",
    restsOnSoftware: true,
    settings: [
      "board.model",
      "failsafe.then",
      "failsafe.then-without-fix",
      "safety.arm-needs-fix",
      "sensors.compass",
      "sensors.compass-yaw",
      "sensors.compass-flipped",
      "sensors.barometer",
    ],
    sections: [{ section: "navigation", except: [] }],
    portsFor: ["gps"],
    modes: ["return-home"],
  },
];
