/** Craft that break one comparison of the catalogue each. */

/** As in relation-cases.ts: throttle, loop, filters, radio, navigation and picture. */
export const MORE_CASES: readonly (readonly [bad: string, good: string, says: string])[] = [
  [
    "safety.arm-throttle-limit 1000 us; link.endpoints 1000 us to 2000 us",
    "safety.arm-throttle-limit 1050 us; link.endpoints 1000 us to 2000 us",
    "arm-throttle-limit is 1000 us and must be above the lower end of link.endpoints (1000 us, line 6)",
  ],
  [
    "safety.arm-throttle-limit 1500 us",
    "safety.arm-throttle-limit 1500 us; motors.reversible yes; motors.reverse-band 1450 us to 1550 us",
    "arm-throttle-limit is 1500 us and must be below link.centre (1500 us)",
  ],
  [
    "motors.reverse-band 1510 us to 1560 us; link.centre 1500 us",
    "motors.reverse-band 1460 us to 1540 us; link.centre 1500 us",
    "The lower end of reverse-band is 1510 us and must be below link.centre (1500 us, line 6)",
  ],
  [
    "motors.reverse-band 1440 us to 1490 us; link.centre 1500 us",
    "motors.reverse-band 1460 us to 1540 us; link.centre 1500 us",
    "The upper end of reverse-band is 1490 us and must be above link.centre (1500 us, line 6)",
  ],
  [
    "safety.turtle-stop-after 5 s; safety.idle-disarm-after 5 s",
    "safety.turtle-stop-after 1 s; safety.idle-disarm-after 5 s",
    "turtle-stop-after is 5 s",
  ],
  [
    "safety.idle-disarm-after 5 s; modes.grip-at-idle when always",
    "safety.idle-disarm-after never; modes.grip-at-idle when always",
    "idle-disarm-after is 5 s and must be at least 10 s",
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
    "loop-rate is 3 kHz and must fit a whole number of times into gyro-rate (8 kHz, line 6)",
  ],
  [
    "recorder.rate 8 kHz; sensors.loop-rate 4 kHz",
    "recorder.rate 4 kHz; sensors.loop-rate 4 kHz",
    "rate is 8 kHz (8000 Hz) and must be at most sensors.loop-rate (4000 Hz, line 6)",
  ],
  [
    "recorder.rate 3 kHz; sensors.loop-rate 4 kHz",
    "recorder.rate 500 Hz; sensors.loop-rate 4 kHz",
    "rate is 3 kHz (3000 Hz) and must fit a whole number of times into sensors.loop-rate (4000 Hz, line 6)",
  ],
  // Pulses of 2 ms every 1 / 500 Hz, which are 2 ms.
  [
    "motors.esc-signal pulse; motors.pulse-range 1000 us to 2000 us; motors.pulse-rate 500 Hz",
    "motors.esc-signal pulse; motors.pulse-range 1000 us to 2000 us; motors.pulse-rate 490 Hz",
    "The upper end of pulse-range is 2000 us and must be below the time from one motor pulse to the next (2000 us, from line 8)",
  ],
  [
    "filters.smooth-gyro cut 600 Hz; sensors.gyro-rate 1 kHz",
    "filters.smooth-gyro cut 300 Hz; sensors.gyro-rate 1 kHz",
    "smooth-gyro cut is 600 Hz and must be below half of sensors.gyro-rate (1000 Hz, line 6)",
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
    "notch width is 300 Hz and must be below one and a half times notch at (180 Hz)",
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
    "motor-notches floor is 170 Hz and must be at most the turns a second that the unloaded motors make at the hover's throttle (161.9 Hz, from lines 6, 8, 10 and 12)",
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
    "lost-after is 30 ms and must be at least three times the time between two packets of the link (20 ms, from line 6)",
  ],
  [
    "link.endpoints 1510 us to 2000 us; link.centre 1500 us",
    "link.endpoints 1000 us to 2000 us; link.centre 1500 us",
    "The lower end of endpoints is 1510 us and must be below centre (1500 us, line 6)",
  ],
  [
    "link.endpoints 1000 us to 1490 us; link.centre 1500 us",
    "link.endpoints 1000 us to 2000 us; link.centre 1500 us",
    "The upper end of endpoints is 1490 us and must be above centre (1500 us, line 6)",
  ],
  [
    "transmitter.travel 1100 us to 2000 us; link.endpoints 1000 us to 2000 us",
    "transmitter.travel 1010 us to 1990 us; link.endpoints 1000 us to 2000 us",
    "The lower end of travel is 1100 us and must be at most 1015 us, 1.015 times the lower end of link.endpoints (1000 us, line 4)",
  ],
  [
    "transmitter.travel 1000 us to 1900 us; link.endpoints 1000 us to 2000 us",
    "transmitter.travel 988 us to 2012 us; link.endpoints 1000 us to 2000 us",
    "The upper end of travel is 1900 us and must be at least 1985 us, 0.993 times the upper end of link.endpoints (2000 us, line 4)",
  ],
  [
    "safety.arm-throttle-limit 1050 us; transmitter.travel 1100 us to 2000 us",
    "safety.arm-throttle-limit 1050 us; transmitter.travel 1000 us to 2000 us",
    "The lower end of travel is 1100 us and must be at most 1015 us, 1.015 times the lower end of link.endpoints (1000 us)",
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
    "power-lost is 1 W (1000 mW) and must be one of power-steps (25, 200, 600 mW, line 6)",
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
  [
    "pack.warn-after 13 mAh; pack.capacity 16 Ah",
    "pack.warn-after 13 Ah; pack.capacity 16 Ah",
    "warn-after is 13 mAh and must be at least 4000 mAh, 0.25 times capacity",
  ],
  // 300 Wh/kg · 0.18 kg / (3.7 V · 6) are 2432 mAh.
  [
    "pack.capacity 15000 mAh; pack.pack-mass 180 g; pack.cells 6",
    "pack.capacity 1500 mAh; pack.pack-mass 180 g; pack.cells 6",
    "capacity is 15000 mAh and must be at most the charge that the best cells of that mass hold (2432 mAh, from lines 6 and 8)",
  ],
  [
    "pack.capacity 15000 mAh; frame.mass 640 g; pack.cells 6",
    "pack.capacity 1500 mAh; frame.mass 640 g; pack.cells 6",
    "capacity is 15000 mAh and must be at most the charge that a pack as heavy",
  ],
  [
    "pack.cell-resistance 45 mohm; pack.full-current 115 A",
    "pack.cell-resistance 4.5 mohm; pack.full-current 115 A",
    "cell-resistance is 45 mohm and must be at most",
  ],
  [
    "pack.volts-from divider; pack.divider-top 100 kohm; pack.divider-bottom 1 kohm; pack.cells 6; pack.full-at 4.2 V/cell",
    "pack.volts-from divider; pack.divider-top 10 kohm; pack.divider-bottom 1 kohm; pack.cells 1; pack.full-at 4.2 V/cell",
    "divider-top is 100 kohm",
  ],
  [
    "motors.kv 1100 rpm/V; frame.propeller-diameter 3 in; pack.cells 2; pack.full-at 4.2 V/cell",
    "motors.kv 4500 rpm/V; frame.propeller-diameter 3 in; pack.cells 1; pack.full-at 4.2 V/cell",
    "kv is 1100 rpm/V and must be at least",
  ],
  [
    "pack.chemistry li-ion; pack.discharge-rating 90 C",
    "pack.chemistry lipo; pack.discharge-rating 90 C",
    "discharge-rating is 90 C and must be at most 45 C",
  ],
  [
    "failsafe.then descend; failsafe.descend-throttle 9 %; frame.hover-throttle 37 %",
    "failsafe.then descend; failsafe.descend-throttle 28 %; frame.hover-throttle 37 %",
    "descend-throttle is 9 % and must be at least 14.8 %, 0.4 times frame.hover-throttle",
  ],
  [
    "rates.throttle-hover 52 %; frame.hover-throttle 27 %",
    "rates.throttle-hover 52 %; frame.hover-throttle 27 %; rates.throttle-curve 0, 10, 100 %",
    "throttle-hover is 52 % and must agree with frame.hover-throttle (27 %, line 6) to within 15 %",
  ],
  [
    "filters.smooth-sticks 300 Hz; link.packet-rate 50 Hz",
    "filters.smooth-sticks 90 Hz; link.packet-rate 250 Hz",
    "smooth-sticks is 300 Hz",
  ],
  [
    "bench.centres roll 1530 us pitch 1500 us yaw 1500 us; link.centre 1500 us",
    "bench.centres roll 1508 us pitch 1500 us yaw 1500 us; link.centre 1500 us",
    "centres roll is 1530 us",
  ],
  [
    "bench.centres roll 1500 us pitch 1470 us yaw 1500 us",
    "bench.centres roll 1500 us pitch 1492 us yaw 1500 us",
    "centres pitch is 1470 us",
  ],
  [
    "bench.centres roll 1500 us pitch 1500 us yaw 1530 us",
    "bench.centres roll 1500 us pitch 1500 us yaw 1500 us",
    "centres yaw is 1530 us",
  ],
  [
    "link.wiring pulse-train; link.packet-rate 500 Hz",
    "link.wiring serial; link.packet-rate 500 Hz",
    "packet-rate is 500 Hz and must be at most 100 Hz",
  ],
  [
    "video.region europe; navigation.return-height 150 m",
    "video.region usa; navigation.return-height 150 m",
    "return-height is 150 m and must be at most 120 m",
  ],
  [
    "video.spare-frequency 5815 MHz; video.frequency 5806 MHz",
    "video.spare-frequency 5843 MHz; video.frequency 5806 MHz",
    "spare-frequency is 5815 MHz and must keep away from frequency (5806 MHz, line 6) by at least 18 MHz",
  ],
  [
    "filters.smooth-gyro cut 90 Hz; filters.smooth-d cut 200 Hz",
    "filters.smooth-gyro cut 90 Hz; filters.smooth-d cut 100 Hz",
    "smooth-d cut is 200 Hz and must be at most one and a half times smooth-gyro cut (90 Hz",
  ],
];
