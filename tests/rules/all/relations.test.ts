/**
 * Each comparison of the catalogue by a craft that breaks it and one that just keeps it: in a line the section, then
 * what must not stand together, `|` what may. Sources of the bounds stand beside the comparisons.
 */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { reported, understood, workspaceOf } from "../check.ts";

const RULES = ["values-contradict", "beyond-rating"];
const catalogue = makeCatalogue();

/** Entries as `section.name value`, separated by `;`: bad, then good, then what the finding says. */
const CASES: readonly (readonly [bad: string, good: string, says: string])[] = [
  [
    "board.input-limit 25 V; pack.cells 6; pack.full-at 4.2 V/cell",
    "board.input-limit 25.2 V; pack.cells 6; pack.full-at 4.2 V/cell",
    "input-limit is 25 V and must be at least the volts of the full pack (25.2 V, line 6)",
  ],
  [
    "board.input-limit 25 V; pack.cells 6; pack.chemistry lipo",
    "board.input-limit 27 V; pack.cells 6; pack.chemistry lihv",
    "input-limit is 25 V",
  ],
  // π · 0.0254 m · 5 in · (2450 · 25.2 / 60) turns a second: 410 m/s.
  [
    "motors.kv 2450 rpm/V; frame.propeller-diameter 5 in; pack.cells 6; pack.full-at 4.2 V/cell",
    "motors.kv 2300 rpm/V; frame.propeller-diameter 5 in; pack.cells 6; pack.full-at 4.2 V/cell",
    "kv is 2450 rpm/V and must be at most the kv that moves the unloaded tips at 390 m/s",
  ],
  [
    "motors.kv 20000 rpm/V; pack.cells 2; pack.full-at 4.2 V/cell",
    "motors.kv 17000 rpm/V; pack.cells 2; pack.full-at 4.2 V/cell",
    "150 000 times a minute",
  ],
  [
    "pack.warn-after 1101 mAh; pack.capacity 1100 mAh",
    "pack.warn-after 1100 mAh; pack.capacity 1.1 Ah",
    "warn-after is 1101 mAh and must be at most capacity (1100 mAh, line 6)",
  ],
  [
    "pack.warn-after 90 %; pack.capacity 1000 mAh; pack.reserve 20 %",
    "pack.warn-after 80 %; pack.capacity 1000 mAh; pack.reserve 20 %",
    "warn-after is 900 mAh and must be at most the capacity less the reserve (800 mAh",
  ],
  [
    "pack.reserve 1000 mAh; pack.capacity 1000 mAh",
    "pack.reserve 200 mAh; pack.capacity 1000 mAh",
    "reserve is 1000 mAh and must be below capacity",
  ],
  [
    "pack.hover-current 60 A; pack.full-current 6 A",
    "pack.hover-current 6 A; pack.full-current 60 A",
    "hover-current is 60 A",
  ],
  [
    "bench.rest-current 5 A; pack.hover-current 4 A",
    "bench.rest-current 0.5 A; pack.hover-current 4 A",
    "rest-current is 5 A",
  ],
  [
    "pack.storage-at 4.2 V/cell; pack.full-at 4.2 V/cell",
    "pack.storage-at 3.8 V/cell; pack.full-at 4.2 V/cell",
    "storage-at is 4.2 V/cell",
  ],
  [
    "pack.storage-at 3.3 V/cell; pack.land-at 3.3 V/cell",
    "pack.storage-at 3.8 V/cell; pack.land-at 3.3 V/cell",
    "storage-at is 3.3 V/cell",
  ],
  [
    "safety.arm-needs-cell-volts 4.2 V/cell; pack.full-at 4.2 V/cell",
    "safety.arm-needs-cell-volts 3.9 V/cell; pack.full-at 4.2 V/cell",
    "must be below full-at",
  ],
  [
    "safety.arm-needs-cell-volts 3.2 V/cell; pack.land-at 3.3 V/cell",
    "safety.arm-needs-cell-volts 3.6 V/cell; pack.land-at 3.3 V/cell",
    "must be at least land-at",
  ],
  [
    "frame.mass-dry 640 g; frame.mass 460 g",
    "frame.mass-dry 460 g; frame.mass 640 g",
    "mass-dry is 640 g and must be below mass (460 g, line 6)",
  ],
  ["pack.pack-mass 1.9 kg; frame.mass 640 g", "pack.pack-mass 190 g; frame.mass 640 g", "pack-mass is 1900 g"],
  [
    "frame.mass 500 g; frame.mass-dry 400 g; pack.pack-mass 190 g",
    "frame.mass 580 g; frame.mass-dry 400 g; pack.pack-mass 190 g",
    "must be at least 0.95 times the dry mass and the mass of the pack together (590 g",
  ],
  // The side of a square of 120 mm across the corners is 84.9 mm, less than five inches.
  [
    "frame.propeller-diameter 5 in; frame.wheelbase 120 mm; frame.motors 4",
    "frame.propeller-diameter 5 in; frame.wheelbase 180 mm; frame.motors 4",
    "propeller-diameter is 127 mm and must be at most 1.03 times the room for a propeller between neighbouring motors (84.85 mm",
  ],
  [
    "frame.propeller-pitch 8 in; frame.propeller-diameter 5 in",
    "frame.propeller-pitch 4.3 in; frame.propeller-diameter 5 in",
    "propeller-pitch is 8 in",
  ],
  [
    "osd.heat-alert 110 degC; motors.esc-heat-limit 100 degC",
    "osd.heat-alert 90 degC; motors.esc-heat-limit 110 degC",
    "heat-alert is 110 degC",
  ],
  // 1000 mAh at 10 A are six minutes.
  [
    "osd.flight-time-alert 6 min; pack.capacity 1000 mAh; pack.hover-current 10 A",
    "osd.flight-time-alert 5 min; pack.capacity 1000 mAh; pack.hover-current 10 A",
    "flight-time-alert is 6 min",
  ],
  [
    "lights.most-current 2.5 A; board.supply-rating 2 A",
    "lights.most-current 1.5 A; board.supply-rating 2 A",
    "most-current is 2500 mA",
  ],
  [
    "lights.count 60; board.supply-rating 2 A",
    "lights.count 60; lights.brightness 50 %; board.supply-rating 2 A",
    "count is 60 and must be at most the number of lights that the board's supply feeds (50",
  ],
  [
    "rates.roll slope 700 deg/s end 450 deg/s",
    "rates.roll slope 450 deg/s end 450 deg/s",
    "roll slope is 700 deg/s and must be at most roll end (450 deg/s)",
  ],
  [
    "rates.pitch slope 700 deg/s end 450 deg/s",
    "rates.pitch slope 200 deg/s end 450 deg/s",
    "pitch slope is 700 deg/s",
  ],
  ["rates.yaw slope 700 deg/s end 450 deg/s", "rates.yaw slope 200 deg/s end 450 deg/s", "yaw slope is 700 deg/s"],
  [
    "rates.top-rate 600 deg/s; rates.roll end 700 deg/s",
    "rates.top-rate 700 deg/s; rates.roll end 700 deg/s",
    "top-rate is 600 deg/s and must be at least roll end (700 deg/s, line 6)",
  ],
  [
    "rates.top-rate 600 deg/s; rates.pitch end 700 deg/s",
    "rates.top-rate 800 deg/s; rates.pitch end 700 deg/s",
    "must be at least pitch end",
  ],
  [
    "rates.top-rate 600 deg/s; rates.yaw end 700 deg/s",
    "rates.top-rate 800 deg/s; rates.yaw end 700 deg/s",
    "must be at least yaw end",
  ],
  [
    "sensors.gyro-range 1000 deg/s; rates.roll end 1100 deg/s",
    "sensors.gyro-range 2000 deg/s; rates.roll end 1100 deg/s",
    "roll end is 1100 deg/s and must be at most gyro-range",
  ],
  [
    "sensors.gyro-range 1000 deg/s; rates.pitch end 1100 deg/s",
    "sensors.gyro-range 2000 deg/s; rates.pitch end 1100 deg/s",
    "pitch end is 1100",
  ],
  [
    "sensors.gyro-range 1000 deg/s; rates.yaw end 1100 deg/s",
    "sensors.gyro-range 2000 deg/s; rates.yaw end 1100 deg/s",
    "yaw end is 1100",
  ],
  [
    "gains.spin-guard 700 deg/s; rates.roll end 700 deg/s",
    "gains.spin-guard 1800 deg/s; rates.roll end 700 deg/s",
    "spin-guard is 700 deg/s and must be above roll end",
  ],
  [
    "gains.spin-guard 700 deg/s; rates.pitch end 720 deg/s",
    "gains.spin-guard off; rates.pitch end 720 deg/s",
    "must be above pitch end",
  ],
  [
    "gains.spin-guard 500 deg/s; rates.yaw end 600 deg/s",
    "gains.spin-guard 1500 deg/s; rates.yaw end 600 deg/s",
    "must be above yaw end",
  ],
  ["gains.d-fast roll 0.5; gains.roll p 1 d 0.8", "gains.d-fast roll 1.1; gains.roll p 1 d 0.8", "d-fast roll is 0.5"],
  [
    "gains.d-fast pitch 0.5; gains.pitch p 1 d 0.8",
    "gains.d-fast pitch 1.1; gains.pitch p 1 d 0.8",
    "d-fast pitch is 0.5",
  ],
  ["gains.d-fast yaw 0.1; gains.yaw p 1 d 0.2", "gains.d-fast yaw 0.3; gains.yaw p 1 d 0.2", "d-fast yaw is 0.1"],
  [
    "rates.top-rate 2500 deg/s; sensors.gyro-range 2000 deg/s",
    "rates.top-rate 1900 deg/s; sensors.gyro-range 2000 deg/s",
    "top-rate is 2500 deg/s",
  ],
  [
    "gains.spin-guard 2500 deg/s; sensors.gyro-range 2000 deg/s",
    "gains.spin-guard 1900 deg/s; sensors.gyro-range 2000 deg/s",
    "spin-guard is 2500 deg/s",
  ],
  [
    "safety.arm-throttle-limit 1000 us; link.endpoints 1000 us to 2000 us",
    "safety.arm-throttle-limit 1050 us; link.endpoints 1000 us to 2000 us",
    "arm-throttle-limit is 1000 us and must be above endpoints from",
  ],
  [
    "safety.arm-throttle-limit 1500 us",
    "safety.arm-throttle-limit 1500 us; motors.reversible yes; motors.reverse-band 1450 us to 1550 us",
    "must be below centre (1500 us)",
  ],
  [
    "motors.reverse-band 1510 us to 1560 us; link.centre 1500 us",
    "motors.reverse-band 1460 us to 1540 us; link.centre 1500 us",
    "reverse-band from is 1510 us",
  ],
  [
    "motors.reverse-band 1440 us to 1490 us; link.centre 1500 us",
    "motors.reverse-band 1460 us to 1540 us; link.centre 1500 us",
    "reverse-band to is 1490 us",
  ],
  [
    "safety.turtle-stop-after 5 s; safety.idle-disarm-after 5 s",
    "safety.turtle-stop-after 1 s; safety.idle-disarm-after 5 s",
    "turtle-stop-after is 5 s",
  ],
  [
    "safety.idle-disarm-after 5 s; modes.grip-at-idle when always",
    "safety.idle-disarm-after never; modes.grip-at-idle when always",
    "idle-disarm-after is 5 s and must be at least 30 s",
  ],
  [
    "failsafe.then descend; failsafe.hold-for 9 s; failsafe.descend-for 3 s",
    "failsafe.then stop; failsafe.hold-for 9 s; failsafe.descend-for 3 s",
    "hold-for is 9 s",
  ],
  [
    "sensors.loop-rate 8 kHz; sensors.gyro-rate 3.2 kHz",
    "sensors.loop-rate 3.2 kHz; sensors.gyro-rate 3.2 kHz",
    "loop-rate is 8 kHz and must be at most gyro-rate (3.2 kHz, line 6)",
  ],
  [
    "sensors.loop-rate 3 kHz; sensors.gyro-rate 8 kHz",
    "sensors.loop-rate 2 kHz; sensors.gyro-rate 8 kHz",
    "loop-rate is 3 kHz and must be a whole part of gyro-rate (8 kHz",
  ],
  [
    "recorder.rate 8 kHz; sensors.loop-rate 4 kHz",
    "recorder.rate 4 kHz; sensors.loop-rate 4 kHz",
    "rate is 8000 Hz and must be at most loop-rate",
  ],
  [
    "recorder.rate 3 kHz; sensors.loop-rate 4 kHz",
    "recorder.rate 500 Hz; sensors.loop-rate 4 kHz",
    "rate is 3000 Hz and must be a whole part of loop-rate",
  ],
  // Pulses of 2 ms every 1 / 500 Hz, which are 2 ms.
  [
    "motors.esc-signal pulse; motors.pulse-range 1000 us to 2000 us; motors.pulse-rate 500 Hz",
    "motors.esc-signal pulse; motors.pulse-range 1000 us to 2000 us; motors.pulse-rate 490 Hz",
    "pulse-range to is 2000 us and must be below the time from one motor pulse to the next (2000 us",
  ],
  [
    "filters.smooth-gyro cut 600 Hz; sensors.gyro-rate 1 kHz",
    "filters.smooth-gyro cut 300 Hz; sensors.gyro-rate 1 kHz",
    "smooth-gyro cut is 600 Hz and must be below 0.5 times gyro-rate",
  ],
  [
    "filters.smooth-d cut 600 Hz; sensors.gyro-rate 1 kHz",
    "filters.smooth-d cut 300 Hz; sensors.gyro-rate 1 kHz",
    "smooth-d cut is 600 Hz",
  ],
  [
    "filters.smooth-yaw 600 Hz; sensors.gyro-rate 1 kHz",
    "filters.smooth-yaw 200 Hz; sensors.gyro-rate 1 kHz",
    "smooth-yaw is 600 Hz",
  ],
  [
    "filters.notch at 600 Hz width 50 Hz; sensors.gyro-rate 1 kHz",
    "filters.notch at 200 Hz width 50 Hz; sensors.gyro-rate 1 kHz",
    "notch at is 600 Hz",
  ],
  [
    "filters.tracking-notches count 2 floor 100 Hz ceiling 600 Hz width 20 Hz; sensors.gyro-rate 1 kHz",
    "filters.tracking-notches count 2 floor 100 Hz ceiling 400 Hz width 20 Hz; sensors.gyro-rate 1 kHz",
    "tracking-notches ceiling is 600 Hz",
  ],
  [
    "filters.moving-cut idle 100 Hz full 600 Hz; sensors.gyro-rate 1 kHz",
    "filters.moving-cut idle 100 Hz full 400 Hz; sensors.gyro-rate 1 kHz",
    "moving-cut full is 600 Hz",
  ],
  [
    "filters.moving-cut-d idle 80 Hz full 600 Hz; sensors.gyro-rate 1 kHz",
    "filters.moving-cut-d idle 80 Hz full 400 Hz; sensors.gyro-rate 1 kHz",
    "moving-cut-d full is 600 Hz",
  ],
  [
    "filters.notch at 180 Hz width 300 Hz",
    "filters.notch at 180 Hz width 40 Hz",
    "notch width is 300 Hz and must be below 1.5 times notch at",
  ],
  [
    "filters.tracking-notches count 2 floor 400 Hz ceiling 100 Hz width 20 Hz",
    "filters.tracking-notches count 2 floor 100 Hz ceiling 400 Hz width 20 Hz",
    "tracking-notches floor is 400 Hz",
  ],
  [
    "filters.moving-cut idle 400 Hz full 150 Hz",
    "filters.moving-cut idle 150 Hz full 400 Hz",
    "moving-cut idle is 400 Hz",
  ],
  [
    "filters.moving-cut-d idle 200 Hz full 80 Hz",
    "filters.moving-cut-d idle 80 Hz full 200 Hz",
    "moving-cut-d idle is 200 Hz",
  ],
  // 1750 rpm/V · 6 · 3.7 V · 25 % are 9712 turns a minute, 162 a second.
  [
    "filters.motor-notches count 2 floor 170 Hz width 20 Hz; motors.kv 1750 rpm/V; frame.hover-throttle 25 %; pack.cells 6; pack.chemistry lipo",
    "filters.motor-notches count 2 floor 100 Hz width 20 Hz; motors.kv 1750 rpm/V; frame.hover-throttle 25 %; pack.cells 6; pack.chemistry lipo",
    "motor-notches floor is 170 Hz and must be at most the turns a second that the unloaded motors make at the hover's throttle (161.88 Hz",
  ],
  [
    "recorder.to serial; recorder.rate 2 kHz; ports.recorder-speed 115.2 kbit/s",
    "recorder.to serial; recorder.rate 250 Hz; ports.recorder-speed 115.2 kbit/s",
    "recorder-speed is 115.2 kbit/s",
  ],
  [
    "transmitter.power-least 250 mW; transmitter.power 100 mW",
    "transmitter.power-least 10 mW; transmitter.power 100 mW",
    "power-least is 250 mW",
  ],
  [
    "link.lost-after 30 ms; link.packet-rate 50 Hz",
    "link.lost-after 300 ms; link.packet-rate 50 Hz",
    "lost-after is 30 ms and must be at least 3 times the time between two packets of the link (20 ms",
  ],
  [
    "link.endpoints 1510 us to 2000 us; link.centre 1500 us",
    "link.endpoints 1000 us to 2000 us; link.centre 1500 us",
    "endpoints from is 1510 us",
  ],
  [
    "link.endpoints 1000 us to 1490 us; link.centre 1500 us",
    "link.endpoints 1000 us to 2000 us; link.centre 1500 us",
    "endpoints to is 1490 us",
  ],
  [
    "transmitter.travel 1100 us to 2000 us; link.endpoints 1000 us to 2000 us",
    "transmitter.travel 1010 us to 1990 us; link.endpoints 1000 us to 2000 us",
    "travel from is 1100 us",
  ],
  [
    "transmitter.travel 1000 us to 1900 us; link.endpoints 1000 us to 2000 us",
    "transmitter.travel 988 us to 2012 us; link.endpoints 1000 us to 2000 us",
    "travel to is 1900 us",
  ],
  [
    "safety.arm-throttle-limit 1050 us; transmitter.travel 1100 us to 2000 us",
    "safety.arm-throttle-limit 1050 us; transmitter.travel 1000 us to 2000 us",
    "arm-throttle-limit is 1050 us and must be above travel from",
  ],
  [
    "bench.stick-jitter 6 us; link.deadband 2 us",
    "bench.stick-jitter 1 us; link.deadband 4 us",
    "stick-jitter is 6 us",
  ],
  ["camera.channels-used 8; link.channels 8", "camera.channels-used 3; link.channels 8", "channels-used is 8"],
  [
    "navigation.home-radius 25 m; navigation.start-distance 5 m",
    "navigation.home-radius 5 m; navigation.start-distance 25 m",
    "home-radius is 25 m and must be below start-distance (5 m",
  ],
  [
    "navigation.landing-height 50 m; navigation.return-height 40 m",
    "navigation.landing-height 5 m; navigation.return-height 40 m",
    "landing-height is 50 m",
  ],
  [
    "navigation.landing-speed 2 m/s; navigation.descend-speed 1 m/s",
    "navigation.landing-speed 0.5 m/s; navigation.descend-speed 2 m/s",
    "landing-speed is 2 m/s",
  ],
  [
    "navigation.start-distance 80 m; navigation.fence-distance 60 m",
    "navigation.start-distance 20 m; navigation.fence-distance 300 m",
    "start-distance is 80 m",
  ],
  [
    "osd.alert-on far; osd.distance-alert 400 m; navigation.fence-distance 300 m",
    "osd.alert-on low-pack; osd.distance-alert 400 m; navigation.fence-distance 300 m",
    "distance-alert is 400 m",
  ],
  [
    "navigation.home-radius 80 m; navigation.fence-distance 60 m",
    "navigation.home-radius 5 m; navigation.fence-distance none",
    "home-radius is 80 m",
  ],
  [
    "osd.alert-on high; navigation.return-height 60 m; osd.height-alert 50 m",
    "osd.alert-on high; navigation.return-height 60 m; osd.height-alert 100 m",
    "return-height is 60 m",
  ],
  // Five positions of some 250 bytes and ten bits a byte are 12.5 kbit each second.
  [
    "ports.gps-speed 9.6 kbit/s; navigation.update-rate 5 Hz",
    "ports.gps-speed 57.6 kbit/s; navigation.update-rate 10 Hz",
    "gps-speed is 9.6 kbit/s and must be at least what the positions take on the line (12.5 kbit/s",
  ],
  [
    "navigation.hold-speed 36 m/s; navigation.return-speed 10 m/s",
    "navigation.hold-speed 36 km/h; navigation.return-speed 10 m/s",
    "hold-speed is 36 m/s",
  ],
  [
    "video.power 100 mW; video.power-steps 25, 200, 600 mW",
    "video.power 200 mW; video.power-steps 25, 200, 600 mW",
    "power is 100 mW and must be one of power-steps (25, 200, 600 mW",
  ],
  [
    "video.power-disarmed 10 mW; video.power-steps 25, 200, 600 mW",
    "video.power-disarmed lowest; video.power-steps 25, 200, 600 mW",
    "power-disarmed is 10 mW",
  ],
  [
    "video.power-lost 1 W; video.power-steps 25, 200, 600 mW",
    "video.power-lost 600 mW; video.power-steps 25, 200, 600 mW",
    "power-lost is 1000 mW",
  ],
  [
    "video.power-disarmed 200 mW; video.power 25 mW",
    "video.power-disarmed 25 mW; video.power 25 mW",
    "power-disarmed is 200 mW",
  ],
  [
    "lights.rear-first 13; lights.rear-colour red; lights.count 12",
    "lights.rear-first 7; lights.rear-colour red; lights.count 12",
    "rear-first is 13",
  ],
];

const HANDSET = ["transmitter"];

/** The files of a craft with these entries; those of a handset stand in one of its own. */
function filesOf(entries: string): Record<string, string> {
  const lines = entries.split("; ").filter((each) => each !== "");
  const text = (isOfHandset: boolean) =>
    lines
      .filter((each) => HANDSET.includes(each.split(".")[0]!) === isOfHandset)
      .map((each) => each.replace(/^([a-z-]+)\.(.*)$/, "$1\n  $2"))
      .join("\n");
  return {
    "jug.fettle": `craft "Jug"\nuse "hand.fettle"\n${text(false)}\n`,
    "hand.fettle": `handset "Hand"\n${text(true)}\n`,
  };
}

function found(entries: string): string[] {
  return understood(findingsOf(workspaceOf(filesOf(entries)), "jug.fettle"))
    .filter(({ code }) => RULES.includes(code))
    .map(({ message }) => message);
}

test.each(CASES)("%s", (bad, good, says) => {
  expect(found(bad)).toContainEqual(expect.stringContaining(says));
  expect(found(good)).toEqual([]);
});

test("every comparison has a case", () => {
  const said = CASES.flatMap(([bad]) => found(bad)).join("\n");
  expect(
    catalogue.comparisons.filter(({ reason }) => !said.includes(reason)).map(({ of, than }) => `${of} ${than}`),
  ).toEqual([]);
});

test("each pack is looked at by itself, and what it only inherits is reported once", () => {
  const packs = (...lines: string[]) => reported("values-contradict", lines);
  expect(
    packs("pack", "  capacity 1100 mAh", "  warn-after 1500 mAh", 'pack "B"', "  warn-at 3.5 V/cell"),
  ).toHaveLength(1);
  expect(packs("pack", "  capacity 1500 mAh", "  warn-after 1200 mAh", 'pack "B"', "  capacity 850 mAh")).toEqual([
    expect.stringMatching(/^error capacity 850 mAh: Pack “B”: warn-after is 1200 mAh and must be at most capacity/),
  ]);
});

test("a second set is looked at with what it takes from the first", () => {
  const rates = (...lines: string[]) =>
    reported("values-contradict", ["rates", "  roll slope 200 deg/s end 700 deg/s", ...lines]);
  expect(rates("rates-second", "  pitch slope 100 deg/s end 300 deg/s")).toEqual([]);
  expect(rates("rates-second", "  roll end 150 deg/s")).toEqual([
    expect.stringMatching(
      /^error roll end 150 deg\/s: In rates-second: roll slope is 200 deg\/s and must be at most roll end/,
    ),
  ]);
});

test("nothing is said of defaults alone, nor of a line with a fault", () => {
  expect(reported("values-contradict", ["pack", "  capacity much", "  warn-after 1500 mAh"])).toEqual([]);
  expect(reported("values-contradict", ["link", "  channels 8"])).toEqual([]);
});
