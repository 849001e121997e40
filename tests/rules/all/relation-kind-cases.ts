/** Craft that break one comparison of the catalogue each. */

/** As in relation-cases.ts: craft of less common kinds, and the link's region. */
export const KIND_CASES: readonly (readonly [bad: string, good: string, says: string])[] = [
  [
    "safety.arm-throttle middle; safety.arm-throttle-limit 1060 us; motors.reversible yes",
    "safety.arm-throttle middle; safety.arm-throttle-limit 1550 us; motors.reversible yes",
    "arm-throttle-limit is 1060 us and must be above link.centre (1500 us)",
  ],
  [
    "transmitter.power 250 mW; link.region europe; link.band 2.4 GHz",
    "transmitter.power 100 mW; link.region europe; link.band 2.4 GHz",
    "power is 250 mW",
  ],
  [
    "transmitter.power 2 W; link.region usa; link.band 915 MHz",
    "transmitter.power 1 W; link.region usa; link.band 915 MHz",
    "power is 2 W (2000 mW)",
  ],
  [
    "link.receiver-power 250 mW; link.telemetry yes; link.region europe; link.band 2.4 GHz",
    "link.receiver-power 250 mW; link.telemetry yes; link.region europe; link.band 868 MHz",
    "receiver-power is 250 mW",
  ],
  [
    "link.receiver-power 2 W; link.telemetry yes; link.region usa",
    "link.receiver-power 2 W; link.telemetry yes; link.region amateur",
    "receiver-power is 2 W (2000 mW)",
  ],
  [
    "motors.idle-speed 300 Hz; motors.kv 1900 rpm/V; frame.hover-throttle 20 %; pack.cells 4; pack.chemistry lipo",
    "motors.idle-speed 50 Hz; motors.kv 1900 rpm/V; frame.hover-throttle 20 %; pack.cells 4; pack.chemistry lipo",
    "idle-speed is 300 Hz",
  ],
  [
    "frame.arm-layout tri; motors.yaw-servo-middle 1000 us; motors.yaw-servo-pulses 1100 us to 1900 us",
    "frame.arm-layout tri; motors.yaw-servo-middle 1480 us; motors.yaw-servo-pulses 1100 us to 1900 us",
    "yaw-servo-middle is 1000 us and must be above the lower end of yaw-servo-pulses",
  ],
  [
    "frame.arm-layout tri; motors.yaw-servo-middle 1950 us; motors.yaw-servo-pulses 1100 us to 1900 us",
    "frame.arm-layout tri; motors.yaw-servo-middle 1480 us; motors.yaw-servo-pulses 1100 us to 1900 us",
    "yaw-servo-middle is 1950 us and must be below the upper end of yaw-servo-pulses",
  ],
];
