import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { IntegerType, QuantityType, UsualBand, ValueType } from "../../shared/catalogue/specs.ts";

const catalogue = makeCatalogue();

interface Craft {
  readonly propellerIn: number;
  readonly cells: number;
  /** SECTION.NAME or SECTION.NAME.FIELD, then the numbers that such craft commonly have, in the catalogue's unit. */
  readonly values: string;
}

/** What well-flying craft of each size commonly carry (common practice, no source). */
const craft: Record<string, Craft> = {
  "a 31 mm whoop on one cell": {
    propellerIn: 1.22,
    cells: 1,
    values: `
      motors.kv 19500 25000 30000 · motors.poles 12 · motors.idle 5 9 · motors.esc-rating 5 12 · motors.switching-rate 48 96
      motors.limit 60 100 · video.power 25 200 400 · video.frequency 5658 5917 · sensors.loop-rate 4 8 · sensors.gyro-rate 3.2 8
      filters.smooth-gyro.cut 200 500 1000 · filters.smooth-d.cut 90 200 · filters.motor-notches.count 3 · filters.motor-notches.floor 100
      gains.roll.p 0.6 1.4 · gains.yaw.d 0 · gains.level-stiffness 6 10 · gains.level-tilt 50 · gains.thrust-curve 20 40
      gains.i-throttle-lift 100 250 · rates.roll.slope 150 400 · rates.roll.end 550 750 · rates.yaw.end 500 · camera.uptilt 15 25
      osd.link-alert 50 70 · osd.signal-alert -100 · osd.flight-time-alert 2.5
      pack.capacity 260 300 450 · pack.reserve 10 20 · pack.warn-at 3.2 3.3 · pack.land-at 2.9 3.0 · pack.hover-current 2 3.5
      pack.full-current 10 25 · pack.cell-resistance 15 60 · safety.arm-throttle-limit 1020 1060 1100 · safety.disarm-hold 0 100 250
      safety.idle-disarm-after 8 20 60 · safety.arm-tilt-limit 30 180 · safety.turtle-power 60 100 · motors.pulse-rate 400 4000 32000
      frame.mass 22 30 · frame.mass-dry 16 22 · frame.wheelbase 65 · frame.propeller-pitch 1 1.4 · frame.propeller-blades 2 4 · frame.hover-throttle 35 55
      failsafe.hold-for 0.3 1.5 · failsafe.descend-throttle 25 45 · link.lost-after 100 300 1000 · link.packet-rate 250 500 · link.telemetry-every 2 128
      filters.notch.at 850 · filters.tracking-notches.ceiling 900 · filters.moving-cut.idle 300 · filters.moving-cut.full 1000
      camera.delay 12 40 · camera.view-angle 140 160 · bench.rest-current 0.35 2.4 · bench.centres.roll 1488 1503 · board.hole-spacing 25.5 26.5 · gains.spin-guard 1800`,
  },
  "an 85 mm whoop on two cells": {
    propellerIn: 2,
    cells: 2,
    values: `
      motors.kv 11000 14000 · motors.idle 5 8 · pack.capacity 450 550 · pack.hover-current 4 9 · pack.full-current 20 45 · pack.warn-at 3.4 3.5
      frame.mass 55 110 · frame.mass-dry 40 80 · frame.wheelbase 85 · frame.propeller-pitch 1 2 · frame.propeller-blades 3 5 · frame.hover-throttle 30 50
      failsafe.hold-for 0.5 · failsafe.descend-throttle 25 45 · camera.uptilt 10 30 · bench.rest-current 0.5 1.5 · bench.motor-heat-read 30 70
      filters.smooth-gyro.cut 150 500 · filters.smooth-d.cut 80 150 · gains.thrust-curve 0 40 · gains.level-tilt 40 60 · lights.count 0 8`,
  },
  "a two-inch ducted craft on three cells": {
    propellerIn: 2,
    cells: 3,
    values: `
      motors.kv 5000 8000 · motors.poles 12 14 · motors.idle 5 · motors.esc-rating 13 35 · video.power 25 400 800
      filters.smooth-gyro.cut 120 300 · filters.smooth-d.cut 70 150 · gains.roll.p 0.7 2 · gains.overall 0.8 1.4
      rates.roll.slope 100 250 · rates.roll.end 300 500 · rates.yaw.end 120 300 · camera.uptilt 0 15 · rates.throttle-limit 80`,
  },
  "a three-inch craft on four cells": {
    propellerIn: 3,
    cells: 4,
    values: `
      motors.kv 3800 5500 · motors.poles 12 14 · motors.idle 4.5 6 · motors.esc-rating 20 45 · video.power 25 1000
      filters.smooth-gyro.cut 90 250 500 · gains.roll.d 0.5 1.3 · rates.roll.end 600 1000 · sensors.level-trim-pitch -2 3 · frame.mass 110 249 · frame.wheelbase 120 150 · frame.propeller-pitch 2 3
      frame.hover-throttle 18 35 · failsafe.descend-throttle 15 30 · bench.rest-current 0.4 1`,
  },
  "a bare five-inch racer on six cells": {
    propellerIn: 5.1,
    cells: 6,
    values: `
      motors.kv 1750 2150 · motors.poles 14 · motors.idle 4 6.5 · motors.esc-rating 45 65 · motors.esc-rate 300 600 · motors.esc-pause 2 30
      motors.limit 85 100 · motors.advance 16 25 · video.frequency 5658 5695 5769 5843 5880 · video.power 25 200
      frame.mass 280 450 700 · frame.wheelbase 200 250 · frame.propeller-pitch 3 5.1 · frame.hover-throttle 12 30 · failsafe.hold-for 0.3 1.5 · failsafe.descend-throttle 0 10 22
      link.packet-rate 250 1000 · link.lost-after 50 300 · camera.delay 15 45 · bench.motor-heat-read 45 75 · gains.spin-guard 1600 1900 · filters.smooth-feed 60 300
      sensors.loop-rate 4 8 · filters.smooth-gyro.cut 100 500 · filters.smooth-d.cut 75 150 · filters.notch.at 150 · filters.notch.width 20
      filters.motor-notches.count 1 3 · filters.motor-notches.floor 80 150 · filters.motor-notches.width 20 60 · filters.smooth-sticks 60 200
      gains.roll.p 0.8 1.3 · gains.pitch.i 1 2 · gains.yaw.feed 1 2 · gains.launch-tilt 30 60 · gains.i-waits-above 150 400
      gains.throttle-fade 30 60 · gains.throttle-fade-from 70 · rates.roll.slope 80 200 · rates.roll.end 640 900 1200 · rates.roll.bend 2 3 5
      camera.uptilt 35 55 · osd.heat-alert 90 110 · recorder.rate 1000 2000 4000`,
  },
  "a seven-inch long-ranger on six cells": {
    propellerIn: 7,
    cells: 6,
    values: `
      motors.kv 1100 1700 · motors.poles 14 · motors.idle 3.5 5.5 · motors.esc-rating 45 60 · motors.switching-rate 24 48
      video.power 25 600 1600 · video.frequency 1280 5800 · filters.smooth-gyro.cut 50 120 · filters.smooth-d.cut 40 90
      filters.motor-notches.floor 40 70 · gains.roll.p 0.6 1.2 · gains.i-waits-above 60 120 · gains.level-stiffness 3 6
      rates.roll.end 300 550 · rates.yaw.end 150 250 · camera.uptilt 5 20 · camera.view-angle 120 160
      navigation.fix-needs 6 8 10 · navigation.return-height 30 60 100 · navigation.return-speed 6 12 18 · navigation.worst-spread 1.5 2 3 · navigation.landing-speed 0.5 1 · navigation.home-radius 3 15
      navigation.start-distance 15 50 · navigation.obstacle-height 0 25 60 · osd.height-alert 60 110 · osd.distance-alert 500 3000
      sensors.declination -12 3 14 · recorder.rate 100 500`,
  },
  "a ten-inch carrier on eight cells": {
    propellerIn: 10,
    cells: 8,
    values: `
      motors.kv 500 900 1300 · motors.poles 14 24 28 · motors.idle 3 6 · motors.esc-rating 50 80 · filters.smooth-gyro.cut 35 80
      filters.smooth-d.cut 25 60 · filters.motor-notches.floor 30 50 · gains.roll.p 0.5 1.5 · gains.roll.d 0.5 2
      rates.roll.end 200 400 · rates.yaw.end 80 150 · lights.count 8 40 · navigation.climb-speed 2 5 · navigation.descend-speed 1 3`,
  },
};

/** Every value of a craft's table, with the numeric type that its place in the catalogue has. */
function rows({ values }: Craft): { place: string; number: number; type: QuantityType | IntegerType }[] {
  return values.split(/[\n·]/).flatMap((line) => {
    const [place, ...numbers] = line.trim().split(/\s+/);
    if (!place) return [];
    const [section = "", name = "", field] = place.split(".");
    const types: readonly ValueType[] = catalogue.setting(section, name)?.types ?? [];
    const inField = types.flatMap((type) =>
      type.is === "fields" ? (type.fields.find((one) => one.name === field)?.types ?? []) : [],
    );
    const type = (field ? inField : types).find((one) => one.is === "quantity" || one.is === "integer");
    if (type?.is !== "quantity" && type?.is !== "integer") throw new Error(`${place} is no number of the catalogue`);
    return numbers.map((number) => ({ place, number: Number(number), type }));
  });
}

/** All of them have four motors, a throttle that rests at its end, and notches. */
function fits({ when }: UsualBand, { propellerIn, cells }: Craft): boolean {
  const inside = (span: { from?: number; to?: number } | undefined, number: number) =>
    (span?.from ?? -Infinity) <= number && number <= (span?.to ?? Infinity);
  const isSuch = when?.throttle !== "middle" && when?.notches !== "none";
  return isSuch && inside(when?.propellerIn, propellerIn) && inside(when?.cells, cells) && inside(when?.motors, 4);
}

const outside = (number: number, from = -Infinity, to = Infinity): boolean => number < from || number > to;

test.each(Object.entries(craft))("nothing is unusual on %s", (_, one) => {
  const strange = rows(one).flatMap(({ place, number, type }) => {
    const band = type.usual?.find((candidate) => fits(candidate, one));
    if (outside(number, type.min?.at, type.max?.at)) return [`${place} ${number} is out of range`];
    if (number === type.off) return [];
    return outside(number, band?.from, band?.to) ? [`${place} ${number} is unusual`] : [];
  });
  expect(strange).toEqual([]);
});

test.each([
  ["a whoop's motor on a ten-inch propeller", "a ten-inch carrier on eight cells", "motors.kv", 25000],
  ["a long-ranger's motor on a whoop", "a 31 mm whoop on one cell", "motors.kv", 1300],
  ["a damping cut that lets everything through", "a ten-inch carrier on eight cells", "filters.smooth-d.cut", 900],
  ["a motor that idles at a third", "a bare five-inch racer on six cells", "motors.idle", 33],
  ["rates nobody can follow", "a seven-inch long-ranger on six cells", "rates.roll.end", 3500],
  ["a blind descent that climbs", "a bare five-inch racer on six cells", "failsafe.descend-throttle", 60],
  ["ten seconds of flight without a pilot", "a bare five-inch racer on six cells", "failsafe.hold-for", 10],
  ["a link called lost after two seconds", "a 31 mm whoop on one cell", "link.lost-after", 2000],
  ["a spin guard that the gyro cannot reach", "a bare five-inch racer on six cells", "gains.spin-guard", 2300],
  ["a stick that rests off its middle", "an 85 mm whoop on two cells", "bench.centres.yaw", 1530],
  ["a motor hot enough to lose its magnets", "a bare five-inch racer on six cells", "bench.motor-heat-read", 84],
  ["damping far above any craft's of this size", "a bare five-inch racer on six cells", "gains.roll.d", 3.6],
  ["a landed craft that waits a minute to be let off", "a 31 mm whoop on one cell", "failsafe.stop-if-idle-for", 60],
  ["home set from three satellites", "a seven-inch long-ranger on six cells", "navigation.fix-needs", 3],
  ["home set from five satellites", "a seven-inch long-ranger on six cells", "navigation.fix-needs", 5],
  ["a position too soft to come home by", "a seven-inch long-ranger on six cells", "navigation.worst-spread", 6],
  ["a way home below the roofs", "a seven-inch long-ranger on six cells", "navigation.return-height", 6],
  ["a wide ring in which it only drops", "a seven-inch long-ranger on six cells", "navigation.start-distance", 150],
  ["a landing far from home", "a seven-inch long-ranger on six cells", "navigation.home-radius", 50],
  ["a landing that bounces", "a seven-inch long-ranger on six cells", "navigation.landing-speed", 3],
  ["a pack flown to its last drop", "a bare five-inch racer on six cells", "pack.reserve", 0],
  ["an alarm that waits the pack out", "a 31 mm whoop on one cell", "pack.warn-delay", 10],
  ["arming with the throttle a fifth open", "a bare five-inch racer on six cells", "safety.arm-throttle-limit", 1200],
  ["motors that go on after disarming", "a bare five-inch racer on six cells", "safety.disarm-hold", 500],
  ["a blocked motor pushed for ten seconds", "a bare five-inch racer on six cells", "safety.turtle-stop-after", 10],
  ["a craft left armed in the grass", "a bare five-inch racer on six cells", "safety.idle-disarm-after", 300],
])("%s is noticed", (_, name, place, number) => {
  const one = { ...craft[name]!, values: `${place} ${number}` };
  const [row] = rows(one);
  const band = row?.type.usual?.find((candidate) => fits(candidate, one));
  expect(outside(number, band?.from, band?.to)).toBe(true);
});
