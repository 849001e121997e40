/** What a need asks for, in a pilot's words: as it continues “level needs …”. */
import type { Having } from "../specs.ts";

/** By the setting and what is asked of it, by `mode NAME`, `section NAME` and `port NAME`. */
export const HAVING_WORDS: Readonly<Record<string, string>> = {
  "port camera": "a camera on a port",
  "port esc-data": "the controllers' data wire on a port",
  "port gps": "a satellite receiver on a port",
  "port identification": "the part that broadcasts who flies, on a port",
  "port receiver": "the link's receiver on a port",
  "port recorder": "a recorder on a port",
  "port video": "the video transmitter on a port",
  "bench.mount-checked": "the day on which the mount was checked, in bench.mount-checked",
  "safety.idle-disarm-after not never": "a craft that disarms by itself after a while",
  "section adjust": "a dial that adjusts something, in a section “adjust”",
  "section gains-second": "a second tune, in a section “gains-second”",
  "section lights": "lights, in a section “lights”",
  "section osd-second": "a second layout, in a section “osd-second”",
  "section pack": "a pack, in a section “pack”",
  "section rates-second": "a second set of rates, in a section “rates-second”",
  "section frame": "the frame, in a section “frame”",
  "camera.tilt not no": "a camera on a servo",
  "failsafe.then": "a failsafe that says what the craft does then",
  "failsafe.then is descend": "a failsafe that descends",
  "failsafe.then is return": "a failsafe that flies home",
  "failsafe.then-without-fix is descend": "one that descends where there is no fix",
  "filters.motor-notches": "notches that follow the motors",
  "finder.motors is yes": "motors that sound",
  "finder.sounder not none": "a sounder of its own",
  "frame.arm-layout is tri": "a frame with three motors and a servo",
  "frame.identification not none": "a part that broadcasts who flies",
  "gains.d-fast": "a d gain for fast moves",
  "gains.i-waits-on not none": "an axis on which the steady part waits",
  "gains.throttle-fade": "gains that fade with the throttle",
  "lights.count not 0": "at least one light",
  "lights.off-when-armed not yes": "lights that stay on while armed",
  "lights.pattern not steady": "a pattern that changes",
  "lights.rear-colour": "a colour for the rear",
  "lights.rear-first": "a first light of the rear",
  "link.on-loss is preset": "a receiver that sends preset values on loss",
  "link.telemetry is yes": "a receiver that talks back",
  "link.wiring is serial": "a receiver on a serial wire",
  "motors.esc-signal is digital": "a digital signal to the controllers",
  "motors.esc-signal is pulse": "a pulse signal to the controllers",
  "motors.poles": "the number of magnets in a motor",
  "motors.reversible is yes": "motors that can run backwards",
  "motors.rpm-feedback is yes": "controllers that answer with the motors' speed",
  "navigation.fence-distance not none": "a fence",
  "osd.alert-on has far": "the alert “far”",
  "osd.alert-on has high": "the alert “high”",
  "osd.alert-on has hot-esc": "the alert “hot-esc”",
  "osd.alert-on has long-flight": "the alert “long-flight”",
  "osd.alert-on has weak-link": "the alert “weak-link”",
  "osd.alert-on has weak-signal": "the alert “weak-signal”",
  "pack.current-from is shunt": "current measured across a shunt",
  "pack.current-from not none": "a current sensor",
  "pack.volts-from is divider": "volts measured behind a divider",
  "pack.volts-from not none": "a measurement of the pack's volts",
  "rates.lean-limit": "the lean at which it stops, as lean-limit in the rates",
  "recorder.to is serial": "a recorder outside the board",
  "recorder.to not off": "a recorder that is on",
  "recorder.when-full is overwrite": "a recorder that writes over old flights",
  "safety.spin-when-armed not no": "motors that turn as soon as it is armed",
  "sensors.accelerometer is yes": "an accelerometer",
  "sensors.barometer is yes": "a barometer",
  "sensors.compass is yes": "a compass",
  "sensors.flow is yes": "a flow sensor",
  "sensors.range-finder is yes": "a range finder",
  "video.camera-picture not 16:9": "a camera that gives a 4:3 picture",
  "video.viewer-polarisation not left": "a viewer whose aerial does not turn to the left",
  "video.viewer-polarisation not right": "a viewer whose aerial does not turn to the right",
  "video.set-by not hand": "a video transmitter that the board can set",
  "video.signal is analogue": "an analogue picture",
  "video.signal is digital": "a digital picture",
  "video.standard not ntsc": "a picture of 625 lines",
  "video.standard not pal": "a picture of 525 lines",
};

/** What a need asks for, under which `havingInWords` looks for its words. */
export function havingKey({ setting, mode, section, element, port, is, not, has, unsaid }: Having): string {
  if (mode !== undefined) return `mode ${mode}`;
  if (section !== undefined) return `section ${section}`;
  if (element !== undefined) return `element ${element}`;
  if (port !== undefined) return `port ${port}`;
  if (unsaid === "wanted") return `no ${setting}`;
  return `${setting}${is !== undefined ? ` is ${is}` : has !== undefined ? ` has ${has}` : not !== undefined ? ` not ${not}` : ""}`;
}

/** What is asked for, in words: “an accelerometer”. Of a pilot's own settings, and what has no words, by its names. */
export function havingInWords(having: Having): string {
  const { setting, mode, section, element, port, is, not, has, unsaid } = having;
  const known = HAVING_WORDS[havingKey(having)];
  if (known !== undefined) return known;
  if (mode !== undefined) return `the mode ${mode}`;
  if (section !== undefined) return `a section “${section}”`;
  if (element !== undefined) return `the element ${element}`;
  if (port !== undefined) return `a port that serves ${port}`;
  if (unsaid === "wanted") return `that nothing sets ${setting}`;
  if (is !== undefined) return `${setting} to be ${is}`;
  if (has !== undefined) return `${setting} to have ${has}`;
  return not === undefined ? `${setting}` : `${setting} to be other than ${not}`;
}
