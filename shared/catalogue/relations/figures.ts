/** Quantities that several settings give together, with which others are compared. `shared/numbers/figures-of.ts` computes them. */
import { practice } from "../sources.ts";
import type { FigureSpec } from "../specs.ts";

const fullPack = ["pack.cells", "pack.full-at", "pack.chemistry"];

export const figures: readonly FigureSpec[] = [
  {
    name: "full-pack",
    what: "the volts of the full pack",
    from: fullPack,
    source: "volts of cells in series add up; where full-at is not said, the charge limit of the chemistry",
  },
  {
    name: "kv-for-turns",
    what: "the kv that turns the unloaded motors 150 000 times a minute on a full pack",
    from: ["motors.limit", ...fullPack],
    source: "revolutions a minute are kv times volts: 5700 rpm/V at 11.1 V are 63 270 rpm",
  },
  {
    name: "kv-for-tips",
    what: "the kv that moves the unloaded tips at 390 m/s on a full pack",
    from: ["frame.propeller-diameter", "motors.limit", ...fullPack],
    source: "by geometry: the circumference of the circle, times the turns",
  },
  {
    name: "propeller-room",
    what: "the room for a propeller between neighbouring motors",
    from: ["frame.wheelbase", "frame.motors", "frame.arm-layout"],
    source: "by geometry: the side of a square, a hexagon or an octagon with that diagonal",
  },
  {
    name: "mass-with-pack",
    what: "the dry mass and the mass of the pack together",
    from: ["frame.mass-dry", "pack.pack-mass"],
    source: "masses add up",
  },
  {
    name: "flyable-charge",
    what: "the capacity less the reserve",
    from: ["pack.capacity", "pack.reserve"],
    source: "by subtraction",
  },
  {
    name: "hover-minutes",
    what: "the minutes in which a hover empties the pack",
    from: ["pack.capacity", "pack.hover-current"],
    source: "by division: charge over current",
  },
  {
    name: "hover-turn-frequency",
    what: "the turns a second that the unloaded motors make at the hover's throttle",
    from: ["motors.kv", "frame.hover-throttle", "pack.hover-throttle", "pack.cells", "pack.chemistry"],
    source: "kv times nominal volts times throttle: a propeller slows the motor, so this is an upper bound",
  },
  {
    name: "packet-time",
    what: "the time between two packets of the link",
    from: ["link.packet-rate"],
    source: "by division: one over the rate",
  },
  {
    name: "pulse-period",
    what: "the time from one motor pulse to the next",
    from: ["motors.pulse-rate"],
    source: "by division: one over the rate",
  },
  {
    name: "position-data",
    what: "what the positions take on the line",
    from: ["navigation.update-rate"],
    source: `${practice}: some 250 bytes for each position, of ten bits each on the line`,
  },
  {
    name: "record-data",
    what: "what the record takes on the line",
    from: ["recorder.rate"],
    source: `${practice}: some 30 bytes for each line of a record, of ten bits each on the line`,
  },
  {
    name: "lights-for-supply",
    what: "the number of lights that the board's supply feeds",
    from: ["board.supply-rating", "lights.brightness", "lights.most-current"],
    source: `${practice}: some 40 mA for each light at full brightness; any number where the strip limits itself`,
  },
  {
    name: "charge-for-pack-mass",
    what: "the charge that the best cells of that mass hold",
    from: ["pack.pack-mass", "pack.cells"],
    source: `${practice}: at most some 300 Wh in each kilogram, at 3.7 V a cell`,
  },
  {
    name: "charge-for-craft-mass",
    what: "the charge that a pack as heavy as the whole craft would hold",
    from: ["frame.mass", "pack.cells"],
    source: `${practice}: at most some 270 Wh in each kilogram, at 3.7 V a cell`,
  },
  {
    name: "resistance-for-current",
    what: "the resistance at which the full current takes 1.2 V off each cell",
    from: ["pack.full-current"],
    source: "Ohm's law; a cell that sags by more is as empty as it looks",
  },
  {
    name: "divider-top-for-pack",
    what: "the resistor with which the meter reaches to ten times the full pack",
    from: ["pack.divider-bottom", "pack.adc-reference", "pack.cells", "pack.full-at", "pack.chemistry"],
    source: "by the divider's own formula; ten times for boards that are made for many cells",
  },
  {
    name: "slow-tips-kv",
    what: "the kv that moves the unloaded tips at 55 m/s on a full pack",
    from: ["frame.propeller-diameter", "motors.limit", "pack.cells", "pack.full-at", "pack.chemistry"],
    source: `${practice}: slower tips lift no craft`,
  },
];
