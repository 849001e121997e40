import { practice } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";
import { bySize, choice, date, integer, quantity, quotedText, usually } from "../value-types.ts";
import { packSensing } from "./pack-sensing.ts";

const cellLimits =
  "cell makers' summaries: 2.75 V cut-off, 4.20 V charge limit; ACT2804 datasheet: 4.35 V for the high-voltage kind; with room on both sides for a slip to be explained";

export const pack: SectionSpec = {
  name: "pack",
  what: "The battery: what it is, when the craft calls it low, and how its volts and amperes are measured.",
  why: "A pack tells how it feels by its voltage under load, and by what has been drawn from it. Plain `pack` is what all have in common; `pack` with a name in quotes is one of several, and overrides it.",
  words: ["battery", "accumulator", "cells", "several batteries", "second battery"],
  holds: "settings",
  in: ["craft", "layer"],
  title: "optional",
  settings: [
    {
      name: "chemistry",
      types: [
        choice({
          lipo: "Lithium polymer: strong current, charged to 4.20 V a cell.",
          lihv: "High-voltage lithium polymer: as lipo, but charged to 4.35 V a cell.",
          "li-ion": "Cylindrical lithium-ion cells: much charge for their mass, less current, usable further down.",
        }),
      ],
      kind: "hardware",
      what: "The kind of cell in the pack.",
      why: "It decides where full and empty lie. A lithium-ion pack landed at a lipo's voltage comes home with a third of its charge unused; a lipo flown down to a lithium-ion's floor swells and is done for after a few flights. A high-voltage pack charged as a plain lipo is merely not full; the other way round it can burn.",
      hazard: "Charging a plain lipo to 4.35 V a cell can set it alight. Charge attended, and never a damaged pack.",
      related: ["pack.full-at", "pack.warn-at", "pack.land-at"],
      words: ["battery type", "lithium polymer", "high-voltage lipo", "lithium-ion", "18650"],
    },
    {
      name: "cells",
      types: [
        integer(1, 14, "common practice, no source: small multirotors fly on one to fourteen cells", usually(1, 8)),
        choice({ detect: "The board counts the cells by the voltage it sees when the pack is plugged in." }),
      ],
      kind: "hardware",
      what: "Number of cells in series: what the trade writes as 4S or 6S.",
      why: "Every volt of the pack is judged by this count. Left to detection, a half-empty six can pass for a full five, and then the warning comes when the pack is long dead; set it, unless the craft really flies on different packs. Five cells on motors wound for four draw well over half as much power again at full throttle, and it shows as heat first.",
      related: ["pack.full-at", "motors.kv", "board.input-limit"],
      words: ["cell count", "4s", "6s", "how many cells", "series"],
    },
    {
      name: "parallel",
      types: [
        integer(
          1,
          12,
          "common practice, no source: more strings than this are no pack of a small craft",
          usually(1, 6),
        ),
      ],
      default: "1",
      kind: "hardware",
      what: "Number of strings of cells side by side: the second figure of a 6S2P pack.",
      why: "Long-range builders pair cylindrical cells to double both the charge and the current that may be drawn. The capacity in this section is always that of the whole pack, so this figure multiplies nothing: it says what to solder next time. One weak string lets its neighbours do the work, and shows as a pack that runs warm on one side.",
      related: ["pack.capacity", "pack.chemistry"],
      words: ["6s2p", "cells side by side", "two packs at once"],
    },
    {
      name: "capacity",
      types: [
        quantity("mAh", 20, 200_000, "common practice, no source: outside this no small multirotor's pack lies", [
          { from: 80, to: 6000, source: practice, when: { cells: { from: 1, to: 1 } } },
          { from: 100, to: 40_000, source: practice },
        ]),
      ],
      kind: "hardware",
      what: "Charge of the whole pack, as its label gives it.",
      why: "The share used, the time left and the current the pack may give are all computed from it. Labels flatter: an old pack holds a fifth less. Too high a figure says half full when the pack is collapsing; too low a one sends you home with the best minutes unflown. Twice the capacity is never twice the flight, for the pack has to carry itself.",
      hazard:
        "Charge attended. In an aeroplane spare packs travel in the cabin, each up to 100 Wh: 3.7 V for each lipo cell in series, times the ampere hours.",
      related: ["pack.warn-after", "pack.discharge-rating", "used-capacity", "pack.reserve"],
      words: ["milliampere hours", "battery size", "how big is the pack"],
    },
    {
      name: "full-at",
      types: [quantity("V/cell", 3.3, 4.6, cellLimits, usually(4.0, 4.36))],
      kind: "hardware",
      what: "Voltage of one cell when the pack is freshly charged.",
      why: "The pack's scale ends here at the top, and cell detection counts by it. Some pilots charge a tenth of a volt short to make packs live longer: then set that voltage here, or every fresh pack looks partly flown. Set too low, two cells more or less can fit one reading; above what the chemistry bears, it describes a pack that must not be charged so.",
      hazard:
        "A charge limit above the chemistry's own is a fire risk: 4.20 V for lipo and li-ion, 4.35 V for the high-voltage kind.",
      related: ["pack.chemistry", "pack.cells", "pack-bar"],
      words: ["fully charged", "charge limit", "maximum cell voltage", "volts when full"],
    },
    {
      name: "warn-at",
      types: [quantity("V/cell", 2, 4.4, cellLimits, usually(2.8, 3.9))],
      kind: "taste",
      what: "Voltage of one cell, under load, at which the craft first warns.",
      why: "It should ring while there is still enough to fly home from where you usually are. Voltage dips under throttle: about 3.5 V suits a lipo in ordinary flight, lower for a single cell that sags at every punch, lower again for li-ion. Too high and it cries at each full throttle until you no longer hear it; too low and it rings together with the end.",
      related: ["pack.land-at", "pack.warn-delay", "alerts", "cell-volts"],
      words: ["low-voltage warning", "low battery warning", "voltage alarm", "when does it beep"],
    },
    {
      name: "land-at",
      types: [quantity("V/cell", 1.8, 4.3, cellLimits, usually(2.6, 3.75))],
      kind: "safety",
      what: "Voltage of one cell, under load, at which it is time to be on the ground.",
      why: "Below the knee of its curve a pack gives up in seconds, not minutes. About 3.3 V under load leaves a lipo its health and you the strength for one more climb over a hedge; about 3.0 V for a single cell that sags; about 2.9 V for li-ion. Set high, you land with charge to spare; set low, packs swell and the craft comes down where it happens to be.",
      hazard: "A pack drawn below its floor is damaged for good, and a damaged pack may burn on the next charge.",
      related: ["pack.warn-at", "pack.chemistry", "failsafe.pack-empty-then"],
      words: ["critical voltage", "land now", "empty battery", "cut-off"],
    },
    {
      name: "warn-after",
      types: [
        quantity("mAh", 5, 200_000, "common practice, no source: the same bounds as a pack's capacity"),
        quantity("%", 1, 100, "by definition: a share of the capacity", usually(30, 90)),
      ],
      kind: "taste",
      what: "Charge drawn from the pack, or share of its capacity, at which the craft warns.",
      why: "Drawn charge does not jump with the throttle as voltage does, so it is the calmer of the two alarms, and the right one for li-ion, whose voltage tells little in mid flight. Four fifths of the capacity is the usual mark. It is only as good as the current sensor, and it supposes a full pack at the start: plugged in half empty, it warns far too late.",
      related: ["pack.capacity", "used-capacity", "pack.shunt"],
      words: ["used capacity alarm", "80 percent rule", "consumed milliamps"],
    },
    {
      name: "reserve",
      types: [
        quantity("%", 0, 90, "common practice, no source: with more held back there is no flight", usually(5, 50)),
        quantity("mAh", 0, 100_000, "common practice, no source: half of the largest capacity"),
      ],
      kind: "safety",
      what: "What shall be left in the pack at landing, as a share of the capacity or as charge.",
      why: "Time left is counted down to this, not to zero. A fifth is the club rule and keeps packs alive; more for a long way home against the wind. With no reserve the countdown ends as the motors do; with too much, the figure says land while others go round again, and soon you ignore it.",
      related: ["time-left", "pack.land-at", "navigation.return-height"],
      words: ["leave in the pack", "safety margin", "keep some battery"],
    },
    {
      name: "warn-delay",
      types: [
        quantity("s", 0, 60, "common practice, no source: a minute later the pack is empty anyway", usually(0, 5)),
      ],
      kind: "taste",
      what: "How long the voltage must stay low before the warning is given.",
      why: "A punch of throttle pulls a healthy pack below any threshold for half a second, and a second or two of patience keeps that quiet. None at all, and a racer's alarm never stops; ten seconds, and the last of a small pack has gone while it waits. Prefer a short delay and a lower threshold to a long delay.",
      related: ["pack.warn-at", "pack.volts-smoothing"],
      words: ["alarm too jumpy", "sag alarm", "ignore short dips"],
    },
    {
      name: "storage-at",
      types: [quantity("V/cell", 2.5, 4.2, cellLimits, usually(3.5, 3.95))],
      kind: "hardware",
      what: "Voltage of one resting cell at which the pack is put away.",
      why: "Left full, a lithium pack ages in days; left empty, it sinks below its floor by itself. About 3.8 V is where it keeps for months. Having the figure on the bench sheet reminds one to set the charger before going home. It is read at rest: right after a flight every pack shows less than it has.",
      related: ["pack.chemistry", "pack.full-at"],
      words: ["storage charge", "putting packs away", "winter"],
    },
    {
      name: "discharge-rating",
      types: [quantity("C", 0.5, 400, "common practice, no source: outside this no pack is sold", usually(1, 180))],
      kind: "hardware",
      what: "How many times its capacity, per hour, the pack may give as current for long.",
      why: "Times the capacity in ampere hours it gives the amperes that may be drawn: 1.5 Ah at 60 C is 90 A. Printed figures are salesmanship; half of it is often nearer the truth. Believing too high a figure gives sag, heat and puffed packs; too low a one would have you carry a heavier pack than the craft needs.",
      related: ["pack.capacity", "pack.full-current", "pack.cell-resistance"],
      words: ["c rating", "how strong is the pack", "current limit of the battery"],
    },
    {
      name: "cell-resistance",
      types: [
        quantity(
          "mohm",
          0.1,
          1000,
          "common practice, no source: outside this a charger is measuring something else",
          usually(0.3, 120),
        ),
      ],
      kind: "hardware",
      what: "Inner resistance of one cell, as a charger shows it at room temperature.",
      why: "No label tells as much about a pack: amperes times this, times the cells, is the sag you see. A good pack for a five-inch craft shows a few milliohms a cell, a tiny single cell some tens. Note it when new; at twice that the pack is for practice, and one cell that stands out from the rest retires the whole pack.",
      related: ["pack.discharge-rating", "pack.warn-at", "pack.bought-on"],
      words: ["internal resistance", "sag", "is my pack worn out"],
    },
    {
      name: "hover-current",
      types: [
        quantity(
          "A",
          0.1,
          1000,
          "common practice, no source: outside this no small multirotor hovers",
          bySize([1.4, 0.6, 10], [2.2, 0.8, 16], [3.2, 1, 25], [4.5, 1, 30], [6, 1.5, 45], [8, 1.5, 55], [11, 1.5, 90]),
        ),
      ],
      kind: "hardware",
      what: "Current that the whole craft draws in a steady hover.",
      why: "Usable charge over this current is the longest the craft can stay up, so every estimate of flight time begins here. Read it from a recording or the picture, a few metres up and without wind. A figure that creeps up between two months means bent propellers or a dry bearing; one guessed too low promises minutes that are not there.",
      related: ["pack.capacity", "pack.full-current", "frame.hover-throttle", "amps"],
      words: ["amps in hover", "flight time estimate", "consumption"],
    },
    {
      name: "full-current",
      types: [
        quantity(
          "A",
          0.3,
          3000,
          "common practice, no source: outside this no small multirotor's leads carry",
          bySize([1.4, 2, 60], [2.2, 4, 100], [3.2, 6, 180], [4.5, 8, 220], [6, 20, 350], [8, 20, 360], [11, 15, 450]),
        ),
      ],
      kind: "hardware",
      what: "Current that the whole craft draws at full throttle on a fresh pack.",
      why: "Pack, plug, leads and speed controllers must all bear it. Take it from a recording of the first full-throttle second in the air, never from a craft held down on the bench, where still air loads the propellers more and blades meet hands. Too low a figure here and an overloaded pack passes every check; too high and you fly with copper and cells that are never needed.",
      related: ["pack.discharge-rating", "motors.esc-rating", "pack.shunt"],
      words: ["maximum current", "amps at full throttle", "burst current"],
    },
    {
      name: "pack-mass",
      types: [
        quantity(
          "g",
          1,
          20_000,
          "common practice, no source: outside this no pack of a small craft lies",
          usually(3, 4000),
        ),
      ],
      kind: "hardware",
      what: "Mass of the pack with its lead and plug.",
      why: "The pack is usually a third of the craft. Computed for an ideal hover, the longest flight has two thirds of the mass in the pack; well before that each further gram buys seconds, loads the motors and costs the craft its liveliness. Weigh it with strap and plug: for a palm-sized craft those are a tenth of it. Two packs of one label can differ by as much as a camera.",
      related: ["frame.mass", "frame.mass-dry", "pack.capacity"],
      words: ["battery weight", "how heavy is the pack"],
    },
    {
      name: "plug",
      types: [quotedText(60)],
      kind: "hardware",
      what: "The pack's connector, as the trade calls it.",
      why: "Nothing spoils a day like a borrowed pack with another plug. A plug rated below the full current grows hot, loosens its spring, and lets go in a hard turn; one far too large is dead weight on a light craft. An adaptor adds two more contacts that can do the same.",
      hazard:
        "Plugging in may start a motor. After soldering, the first power comes from a supply that limits its current, with the propellers off.",
      related: ["pack.full-current"],
      words: ["connector", "battery plug", "adaptor", "which lead"],
    },
    {
      name: "bought-on",
      types: [date],
      kind: "hardware",
      what: "The day on which the pack was bought.",
      why: "Packs age by the calendar as much as by use, so a date says why last year's good pack now sags. After two or three summers distrust it, whatever the label says. Of two packs bought together, the one that suddenly differs is the one that was dropped or drained.",
      related: ["pack.cell-resistance"],
      words: ["age of the battery", "how old", "purchase date"],
    },
    ...packSensing,
  ],
};
