/** Craft that break one comparison of the catalogue each: packs, motors and rates. */

/** Entries as `section.name value`, separated by `;`: bad, then good, then what the finding says. */
export const CASES: readonly (readonly [bad: string, good: string, says: string])[] = [
  [
    "board.input-limit 25 V; pack.cells 6; pack.full-at 4.2 V/cell",
    "board.input-limit 25.2 V; pack.cells 6; pack.full-at 4.2 V/cell",
    "input-limit is 25 V and must be at least the volts of the full pack (25.2 V, from lines 6 and 8)",
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
    "warn-after is 90 % (900 mAh) and must be at most the capacity less the reserve (800 mAh, from lines 6 and 8)",
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
    "arm-needs-cell-volts is 4.2 V/cell and must be below pack.full-at (4.2 V/cell, line 6)",
  ],
  [
    "safety.arm-needs-cell-volts 3.2 V/cell; pack.land-at 3.3 V/cell",
    "safety.arm-needs-cell-volts 3.6 V/cell; pack.land-at 3.3 V/cell",
    "arm-needs-cell-volts is 3.2 V/cell and must be at least pack.land-at (3.3 V/cell, line 6)",
  ],
  [
    "frame.mass-dry 640 g; frame.mass 460 g",
    "frame.mass-dry 460 g; frame.mass 640 g",
    "mass-dry is 640 g and must be below mass (460 g, line 6)",
  ],
  [
    "pack.pack-mass 1.9 kg; frame.mass 640 g",
    "pack.pack-mass 190 g; frame.mass 640 g",
    "pack-mass is 1.9 kg (1900 g) and must be below frame.mass (640 g, line 6)",
  ],
  [
    "frame.mass 500 g; frame.mass-dry 400 g; pack.pack-mass 190 g",
    "frame.mass 580 g; frame.mass-dry 400 g; pack.pack-mass 190 g",
    "mass is 500 g and must be at least 560.5 g, 0.95 times the dry mass and the mass of the pack together (590 g, from lines 6 and 8)",
  ],
  // The side of a square of 120 mm across the corners is 84.9 mm, less than five inches.
  [
    "frame.propeller-diameter 5 in; frame.wheelbase 120 mm; frame.motors 4",
    "frame.propeller-diameter 5 in; frame.wheelbase 180 mm; frame.motors 4",
    "propeller-diameter is 5 in (127 mm) and must be at most 87.4 mm, 1.03 times the room for a propeller between neighbouring motors (84.9 mm, from lines 6 and 8)",
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
    "most-current is 2.5 A (2500 mA) and must be at most board.supply-rating (2000 mA, line 6)",
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
    "roll end is 1100 deg/s and must be at most sensors.gyro-range (1000 deg/s, line 4)",
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
    "spin-guard is 700 deg/s and must be above rates.roll end (700 deg/s, line 6)",
  ],
  [
    "gains.spin-guard 700 deg/s; rates.pitch end 720 deg/s",
    "gains.spin-guard off; rates.pitch end 720 deg/s",
    "spin-guard is 700 deg/s and must be above rates.pitch end (720 deg/s, line 6)",
  ],
  [
    "gains.spin-guard 500 deg/s; rates.yaw end 600 deg/s",
    "gains.spin-guard 1500 deg/s; rates.yaw end 600 deg/s",
    "spin-guard is 500 deg/s and must be above rates.yaw end (600 deg/s, line 6)",
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
];
