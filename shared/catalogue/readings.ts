/**
 * The quantities that a craft knows in flight. The sample texts of the display are made from them.
 *
 * An element's `shows` has one template for each row. Text outside braces is literal; in braces:
 * - `{amps}` is the reading rounded to a whole number, in the unit given here;
 * - `{amps.1}` is the same with that many decimals, always written out (`4.0`);
 * - `{flight-time:clock}` is a time of day or a duration: a reading in s prints as m:ss, one in min
 *   as h:mm; the second part always has two digits, the first as many as it needs.
 * A reading without a unit is a bare number or a few words; words print unchanged.
 * A negative number has a minus sign; a positive one has no sign.
 */
import type { ReadingSpec } from "./specs.ts";

export const readings: readonly ReadingSpec[] = [
  reading("pack-volts", "V", "Volts of the whole pack under the load of this moment."),
  reading("cell-volts", "V/cell", "Pack volts divided by the number of cells."),
  reading("rested-volts", "V/cell", "Volts of a cell as they would be without load, worked out from the current."),
  reading("amps", "A", "Current drawn from the pack at this moment."),
  reading("watts", "W", "Power drawn from the pack: its volts times its amps."),
  reading("used-capacity", "mAh", "Charge taken from the pack since it was plugged in."),
  reading("charge-left", "%", "Share of the pack's capacity that has not been used."),
  reading("charge-per-distance", "mAh", "Charge used for each kilometre over the ground, at this speed."),
  reading("time-left", "s", "Time until the landing reserve is reached, at the current of the last seconds."),
  reading("link-quality", "%", "Share of the handset's packets that arrived in the last second."),
  reading("signal-dbm", "dBm", "Received strength of the handset's signal at the better antenna."),
  reading("noise-margin", "dB", "How far the handset's signal stands above the noise."),
  reading("link-power", "mW", "Power with which the handset transmits at this moment."),
  reading("packet-rate", "Hz", "Packets that the handset sends each second."),
  reading("antenna", "", "The receiver's antenna that hears better, counted from 1."),
  reading("flight-time", "s", "Time armed since the pack was plugged in."),
  reading("power-time", "s", "Time since the pack was plugged in."),
  reading("lifetime", "min", "Time armed over the craft's whole life."),
  reading("time-of-day", "min", "Minutes since midnight by the craft's clock, local time."),
  reading("day", "", "The date by the craft's clock, year first."),
  reading("lap-time", "s", "Time since the last pass of the start."),
  reading("lap-number", "", "The lap being flown, counted from 1."),
  reading("throttle", "%", "Throttle as the motors are given it, after curve and limit."),
  reading("mode", "", "The mode that decides how the sticks are understood."),
  reading("sets-in-use", "", "Which rates and which gains are in use: 1 or 2 of each."),
  reading("adjusting", "", "The setting last moved by a dial, and the value that it has now."),
  reading("craft-name", "", "The name in the script's header."),
  reading("pilot-name", "", "The pilot's name or call sign."),
  reading("alert", "", "The most urgent warning of this moment, or nothing."),
  reading("message", "", "The last line that the board had to say."),
  reading("heading", "deg", "Direction of the nose, clockwise from north."),
  reading("pitch-angle", "deg", "Angle of the nose over the horizon, up positive."),
  reading("roll-angle", "deg", "Angle of bank, right side down positive."),
  reading("g-force", "", "Acceleration felt by the craft, in multiples of standing still."),
  reading("height", "m", "Height above the place where the craft was armed."),
  reading("ground-clearance", "m", "Distance to the ground below, from a range finder."),
  reading("top-height", "m", "The greatest height of this flight."),
  reading("climb", "m/s", "Rate of climb, negative in descent."),
  reading("speed", "km/h", "Speed over the ground."),
  reading("top-speed", "km/h", "The greatest speed over the ground of this flight."),
  reading("travelled", "m", "Way over the ground since arming."),
  reading("home-distance", "m", "Distance over the ground to the place where the craft was armed."),
  reading("home-bearing", "deg", "Direction to home, clockwise from the nose."),
  reading("satellites", "", "Satellites used for the position."),
  reading("fix-spread", "", "Dilution of the horizontal position by the satellites' layout: 1 is ideal."),
  reading("latitude", "deg", "Latitude, north positive."),
  reading("longitude", "deg", "Longitude, east positive."),
  reading("video-frequency", "MHz", "Carrier frequency of the video transmitter."),
  reading("video-power", "mW", "Power of the video transmitter at this moment."),
  reading("esc-heat", "degC", "Temperature of the hottest motor controller."),
  reading("board-heat", "degC", "Temperature of the flight board's processor."),
  reading("motor-rpm", "", "Revolutions a minute, the mean of all motors."),
  reading("camera-angle", "deg", "Angle of a tilting camera over the craft's own level."),
  reading("recorder-left", "%", "Share of the flight recorder's store that is free."),
  reading("loop-load", "%", "Share of the board's time that its work takes."),
  reading("stick-roll", "%", "Roll stick, right positive."),
  reading("stick-pitch", "%", "Pitch stick, forward positive."),
  reading("stick-yaw", "%", "Yaw stick, right positive."),
  reading("stick-throttle", "%", "Throttle stick, from its lower end."),
];

function reading(name: string, unit: string, what: string): ReadingSpec {
  return { name, unit, what };
}
