/** How the board measures the pack's volts and current. */
import type { SettingSpec } from "../specs.ts";
import { choice, integer, quantity, usually } from "../value-types.ts";

export const packSensing: readonly SettingSpec[] = [
  {
    name: "volts-from",
    types: [
      choice({
        divider: "The board measures the pack by two resistors of its own.",
        "esc-data": "The speed controllers report it over their data wire.",
        none: "Nothing on the craft measures the pack.",
      }),
    ],
    kind: "hardware",
    what: "Where the board learns the pack's voltage.",
    why: "The board's own divider is quick and needs no port. A speed controller sees the voltage at its own solder joints, after the sag in the leads, and reports it a few times a second. Choosing a source that is not wired shows zero, or a steady wrong figure, and then no alarm will ever come; with `none`, fly by a clock with time in hand.",
    related: ["pack.divider-top", "pack.current-from", "pack-volts"],
    words: ["voltage source", "battery meter", "voltage reads zero"],
  },
  {
    name: "divider-top",
    types: [
      quantity(
        "kohm",
        0.01,
        10_000,
        "common practice, no source: beyond this no board divides its supply",
        usually(0.5, 1000),
      ),
    ],
    kind: "hardware",
    what: "Resistor from the pack to the measuring pin.",
    why: "With the lower resistor it scales the pack down to what the converter can read: 15 kohm over 10 kohm makes 3.6 V of 9 V. Too small for the pack and the reading sticks at its top, so that a fresh pack and a half-used one look alike, and the pin gets more than it bears; too large and each step of the converter is a coarse jump. When the shown volts are off by a steady factor, correct this one.",
    needs: [
      {
        setting: "pack.volts-from",
        is: "divider",
        reason: "Volts that the controllers report pass through no divider of the board.",
      },
    ],
    related: ["pack.divider-bottom", "pack.adc-reference", "bench.pack-volts-read", "bench.pack-volts-shown"],
    words: ["voltage scale", "calibrate voltage", "upper resistor"],
  },
  {
    name: "divider-bottom",
    types: [
      quantity(
        "kohm",
        0.01,
        10_000,
        "common practice, no source: beyond this no board measures across a resistor",
        usually(0.1, 1000),
      ),
    ],
    kind: "hardware",
    what: "Resistor from the measuring pin to ground.",
    why: "What stands across it is what the converter reads. Take the figure from the board's page and leave it alone: one equation has room for one unknown, and calibration belongs to the upper resistor. A cold joint here lets the whole pack voltage onto the pin, which reads full scale once and then for ever nothing.",
    needs: [
      { setting: "pack.volts-from", is: "divider", reason: "It is one half of the divider, which has to be in use." },
    ],
    related: ["pack.divider-top", "pack.adc-bits"],
    words: ["lower resistor", "voltage divider", "battery reading wrong"],
  },
  {
    name: "adc-bits",
    types: [
      integer(6, 24, "common practice, no source: no converter of such a board has fewer or more", usually(8, 16)),
    ],
    default: "12",
    kind: "hardware",
    what: "Resolution of the converter that reads volts and amperes.",
    why: "Twelve bits cut the reference into 4096 steps; at 3.0 V that is 0.73 mV on the pin, times the divider on the pack. Fewer bits and the pack seems to fall in jumps. Stating more than the converter has makes every computed voltage too small by a factor of two for each bit.",
    related: ["pack.adc-reference", "pack.shunt-gain"],
    words: ["analogue-digital converter", "resolution of the voltage reading"],
  },
  {
    name: "adc-reference",
    types: [
      quantity(
        "V",
        0.3,
        6,
        "common practice, no source: outside this no converter of such a board works",
        usually(0.9, 5.2),
      ),
    ],
    default: "3.3 V",
    kind: "hardware",
    what: "Voltage on the measuring pin at which the converter reads its full scale.",
    why: "Both meters measure by this yardstick, so an error of three per cent here is one of three per cent in volts and in amperes alike. Boards that run their converter from the processor's supply drift a little with its load. If both meters are off by the same share, suspect this before either of the others.",
    related: ["pack.adc-bits", "pack.divider-top", "pack.shunt"],
    words: ["reference voltage", "full scale", "both meters wrong"],
  },
  {
    name: "volts-smoothing",
    types: [
      quantity(
        "Hz",
        0.01,
        1000,
        "common practice, no source: outside this a smoothed voltage is either frozen or not smoothed",
        usually(0.1, 100),
      ),
    ],
    kind: "taste",
    what: "Corner frequency of the low-pass that steadies the shown pack voltage.",
    why: "Motors chop the supply thousands of times a second, and unsmoothed digits dance too fast to read. Around one hertz reads well. Much lower and the figure trails the pack by seconds, so that it looks healthy during a punch and sick while you glide; much higher and only the alarm's delay keeps it quiet.",
    related: ["pack.warn-delay", "pack-volts", "cell-volts"],
    words: ["voltage flickers", "steady the voltage", "voltage filter"],
  },
  {
    name: "current-from",
    types: [
      choice({
        shunt: "The board measures across a resistor in the pack's lead.",
        "esc-data": "The speed controllers report theirs, and the board adds them up.",
        none: "Nothing on the craft measures current.",
      }),
    ],
    kind: "hardware",
    what: "Where the board learns the current.",
    why: "A shunt in the lead sees everything, camera and transmitter included, and sees it at once. Speed controllers see only their motors, so add the half ampere of the electronics in mind. Without any, used charge and time left stay at zero, and must not be put in the picture as if they knew.",
    related: ["pack.shunt", "pack.volts-from", "amps"],
    words: ["current sensor", "amp meter source", "amps read zero"],
  },
  {
    name: "shunt",
    types: [
      quantity(
        "mohm",
        0.005,
        1000,
        "common practice, no source: outside this a resistor in the lead is a wire or a heater",
        usually(0.05, 20),
      ),
    ],
    kind: "hardware",
    what: "Resistor in the pack's lead across which the current is read.",
    why: "Amperes times milliohms are the millivolts that the amplifier gets: 20 A through 5 mohm give 100 mV, and two watts of heat. A larger one reads small currents finely, then saturates at full throttle and cooks itself; a smaller one reaches far and shows the hover as one or two steps of noise.",
    needs: [
      {
        setting: "pack.current-from",
        is: "shunt",
        reason: "Amperes that the controllers report are not read across a resistor.",
      },
    ],
    related: ["pack.shunt-gain", "pack.full-current", "bench.charge-put-back", "bench.charge-counted"],
    words: ["current scale", "sense resistor", "calibrate the current sensor"],
  },
  {
    name: "shunt-gain",
    types: [
      quantity(
        "",
        0.1,
        10_000,
        "common practice, no source: outside this no current amplifier is made",
        usually(1, 500),
      ),
    ],
    kind: "hardware",
    what: "How many times the amplifier enlarges the voltage across the shunt.",
    why: "Shunt and gain together must keep the full current below the converter's reference: 5 mohm, gain 20 and 20 A make 2.0 V. Too much gain and the meter stops rising just when it matters, so used charge is counted short on every punch; too little and the lower half of the throttle all reads the same.",
    needs: [
      {
        setting: "pack.current-from",
        is: "shunt",
        reason: "Without a shunt in use there is nothing for the amplifier to enlarge.",
      },
    ],
    related: ["pack.shunt", "pack.adc-reference", "pack.shunt-offset"],
    words: ["current amplifier", "amp meter stuck at a maximum", "sensor gain"],
  },
  {
    name: "shunt-offset",
    types: [
      quantity("mV", -3300, 3300, "common practice, no source: the span of the converter itself", usually(-500, 1700)),
    ],
    kind: "hardware",
    what: "Voltage that the current sensor gives while no current flows.",
    why: "Few amplifiers start exactly at zero. Half an ampere of offset is nothing to a five-inch craft in a race and a sixth of what a palm-sized one hovers with, and the used charge is off by as much. Read it with the pack in, disarmed and the propellers off, less what the electronics draw. The wrong sign doubles the error.",
    needs: [
      { setting: "pack.current-from", is: "shunt", reason: "The offset is that of the amplifier behind the shunt." },
    ],
    related: ["pack.shunt-gain", "bench.rest-current", "used-capacity"],
    words: ["current at rest", "zero offset", "shows amps while disarmed"],
  },
  {
    name: "current-smoothing",
    types: [
      quantity(
        "Hz",
        0.01,
        1000,
        "common practice, no source: outside this a smoothed current is either frozen or not smoothed",
        usually(0.1, 200),
      ),
    ],
    kind: "taste",
    what: "Corner frequency of the low-pass that steadies the shown current.",
    why: "Charge is counted before this filter, so the count loses nothing by it: it is only for the eye. A few hertz follow the throttle hand and stay legible. Slower hides the short peak that tells of a stuck motor; faster turns the last digit into a blur.",
    related: ["amps", "pack.volts-smoothing"],
    words: ["amps flicker", "current filter", "steady the amps"],
  },
];
