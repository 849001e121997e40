/** Packs, motors and what they bear. */
import { practice } from "../sources.ts";
import type { Comparison } from "../specs.ts";
import { contradiction, rating } from "./compare.ts";

const definition = "by definition of the two";

export const powerComparisons: readonly Comparison[] = [
  rating("board.input-limit", "be at least", "=full-pack", "V", {
    reason:
      "A supply input that is given more than it is made for burns at the first plug-in, and braking motors push the volts higher still. Take a pack with fewer cells, or a board made for this one.",
    source: "by definition: the limit is that of the full pack",
  }),
  rating("motors.kv", "be at most", "=kv-for-tips", "rpm/V", {
    severity: "warning",
    reason:
      "Tips that near the speed of sound turn power into noise and heat: motors and controllers pay for it at every full throttle. Take motors of a lower kv, fewer cells, or a limit on the motors.",
    source: `${practice}: unloaded tips beyond some 390 m/s; the speed of sound is 343 m/s in air of 20 degC (from memory)`,
  }),
  rating("motors.kv", "be at most", "=kv-for-turns", "rpm/V", {
    severity: "warning",
    reason:
      "Few bearings, and few controllers that count electrical turns, follow so fast a motor. Take motors of a lower kv, or fewer cells.",
    source: `${practice}: beyond some 150 000 turns a minute, unloaded`,
  }),
  contradiction("motors.idle-speed", "be below", "=hover-turn-frequency", "Hz", {
    reason:
      "Motors held at so many turns carry the craft: it lifts off as it arms, with the stick closed. Look at the unit, turns a second.",
    source: "kv times nominal volts times throttle: a propeller slows the motor, so this is an upper bound",
  }),
  contradiction("motors.yaw-servo-middle", "be above", "motors.yaw-servo-pulses.from", "us", {
    reason: "The servo would hold the nose at its stop, and could turn it one way only.",
    source: definition,
  }),
  contradiction("motors.yaw-servo-middle", "be below", "motors.yaw-servo-pulses.to", "us", {
    reason: "The servo would hold the nose at its stop, and could turn it one way only.",
    source: definition,
  }),
  contradiction("pack.warn-after", "be at most", "pack.capacity", "mAh", {
    reason:
      "The warning by charge never comes, because the pack is empty before. Set it to some four fifths of the capacity.",
    source: definition,
  }),
  contradiction("pack.warn-after", "be at most", "=flyable-charge", "mAh", {
    severity: "warning",
    reason: "The warning comes when the reserve is already being flown. Warn earlier, or keep a smaller reserve.",
    source: "by subtraction: what lies above the reserve",
  }),
  contradiction("pack.reserve", "be below", "pack.capacity", "mAh", {
    reason: "With all of the charge held back there is no flight: the time left is nothing from the start.",
    source: definition,
  }),
  contradiction("pack.hover-current", "be below", "pack.full-current", "A", {
    reason:
      "No craft draws more in a hover than at full throttle: one of the two was misread, or stands in the other's line.",
    source: definition,
  }),
  contradiction("bench.rest-current", "be below", "pack.hover-current", "A", {
    reason: "Disarmed, a craft draws less than in a hover: one of the two was misread, perhaps by its unit.",
    source: definition,
  }),
  contradiction("pack.storage-at", "be below", "pack.full-at", "V/cell", {
    reason: "A pack put away as full as it can be ages in days.",
    source: definition,
  }),
  contradiction("pack.storage-at", "be above", "pack.land-at", "V/cell", {
    severity: "warning",
    reason:
      "A resting cell at the volts of an empty one sinks below its floor on the shelf. Put packs away at about half.",
    source: practice,
  }),
  contradiction("safety.arm-needs-cell-volts", "be below", "pack.full-at", "V/cell", {
    reason: "Not even a full pack lets the craft arm: ask for less.",
    source: definition,
  }),
  contradiction("safety.arm-needs-cell-volts", "be at least", "pack.land-at", "V/cell", {
    severity: "warning",
    reason:
      "The craft arms with a pack that is called empty as soon as it lifts. A resting cell shows more than one under load, so ask for more than the landing volts.",
    source: practice,
  }),
  contradiction("frame.mass-dry", "be below", "frame.mass", "g", {
    reason:
      "Without its pack the craft is lighter than at take-off: one of the two was misread, or stands in the other's line.",
    source: definition,
  }),
  contradiction("pack.pack-mass", "be below", "frame.mass", "g", {
    reason: "A pack is lighter than the craft that carries it: look at the units.",
    source: definition,
  }),
  contradiction("frame.mass", "be at least", "=mass-with-pack", "g", {
    times: 0.95,
    severity: "warning",
    reason: "What takes off weighs at least its parts. Weigh it again, pack and camera and all.",
    source: "masses add up; a twentieth for scales that differ",
  }),
  contradiction("frame.propeller-diameter", "be at most", "=propeller-room", "mm", {
    times: 1.03,
    reason: "Neighbouring propellers would strike each other: one of the two was misread, perhaps by its unit.",
    source: "by geometry; a thirtieth for frames measured by hand",
  }),
  contradiction("frame.propeller-pitch", "be at most", "frame.propeller-diameter", "in", {
    times: 1.4,
    severity: "warning",
    reason:
      "No propeller of a multirotor has so much pitch for its diameter: look at the two figures on the blade, and at their units.",
    source: practice,
  }),
  contradiction("osd.heat-alert", "be below", "motors.esc-heat-limit", "degC", {
    severity: "warning",
    reason: "The controllers cut their power before the display says a word. Let the alert come some 20 degC earlier.",
    source: definition,
  }),
  contradiction("osd.flight-time-alert", "be below", "=hover-minutes", "min", {
    severity: "warning",
    reason: "The pack is empty before the reminder comes. Set it to some three quarters of that time.",
    source: "by division: charge over current",
  }),
  rating("lights.most-current", "be at most", "board.supply-rating", "mA", {
    severity: "warning",
    reason:
      "The strip may take more than the board's supply gives, and when that sags the receiver restarts in flight. Lower the limit, or feed the lights from a supply of their own.",
    source: "by definition: the supply has to bear it",
  }),
  rating("lights.count", "be at most", "=lights-for-supply", "", {
    severity: "warning",
    reason:
      "So many lights take more than the board's supply gives, and when that sags the receiver restarts in flight. Dim them, set most-current, or feed them from a supply of their own.",
    source: `${practice}: some 40 mA for each light at full brightness`,
  }),
  contradiction("pack.warn-after", "be at least", "pack.capacity", "mAh", {
    times: 0.25,
    severity: "warning",
    reason:
      "The warning comes when the flight has hardly begun, and soon nobody listens to it. Look at the unit: four fifths of the capacity are usual.",
    source: practice,
  }),
  contradiction("pack.capacity", "be at most", "=charge-for-pack-mass", "mAh", {
    reason: "No pack of that mass holds so much: look at both figures on its label, and at their units.",
    source: `${practice}: at most some 300 Wh in each kilogram`,
  }),
  contradiction("pack.capacity", "be at most", "=charge-for-craft-mass", "mAh", {
    reason: "A pack of so much charge weighs more than the whole craft is said to: look at the units of both.",
    source: `${practice}: at most some 270 Wh in each kilogram of a craft that is nearly all pack`,
  }),
  contradiction("pack.cell-resistance", "be at most", "=resistance-for-current", "mohm", {
    severity: "warning",
    reason:
      "At full throttle the cells would be as good as empty. Look at the unit and at whether the figure is that of one cell; if it is right, the pack is worn out.",
    source: "Ohm's law",
  }),
  contradiction("pack.divider-top", "be at most", "=divider-top-for-pack", "kohm", {
    severity: "warning",
    reason:
      "The meter reaches so far beyond the pack that its steps say little. Read the resistor again: its last digit is a power of ten.",
    source: "by the divider's own formula",
  }),
  contradiction("motors.kv", "be at least", "=slow-tips-kv", "rpm/V", {
    severity: "warning",
    reason:
      "Propellers of that size turn too slowly on this pack to lift a craft. Look at the number of cells, the kv and the unit of the diameter.",
    source: `${practice}: tips slower than some 55 m/s, unloaded`,
  }),
  contradiction("pack.discharge-rating", "be at most", "45 C", "C", {
    while: [{ setting: "pack.chemistry", is: "li-ion" }],
    severity: "hint",
    reason:
      "Round cells give less current than that, whatever a label says. Look at the rating in ampere of one cell, times the strings, over the capacity.",
    source: `${practice}: the strongest round cells give some fifteen times their charge for long`,
  }),
];
