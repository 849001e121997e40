/** The first three lines of each hover of the corpus, blank ones left out; none where there is no hover. */
export const firstLines: Readonly<Record<string, readonly string[]>> = {
  "a setting of the craft's own line": [
    "**`3.6 V/cell`** on Jug, [jug.fettle:7](jug.fettle#7)",
    "[Habits](habits.fettle#6) `3,5 V/cell` → [Jug](jug.fettle#7) `3.6 V/cell`",
    "> old cells",
  ],
  "the later of two lines": [
    "**`3.6 V/cell`** on Jug, [jug.fettle:7](jug.fettle#7), which wins over this line",
    "[Habits](habits.fettle#6) `3,5 V/cell` → [Jug](jug.fettle#7) `3.6 V/cell`",
    "> later wins",
  ],
  "a layer's setting, on its one craft": [
    "**`3.5 V/cell`** on Cup, [jug.fettle:5](jug.fettle#5)",
    "> old",
    "What follows:",
  ],
  "a layer's setting that a craft says over": [
    "**`3.6 V/cell`** on Cup, [cup.fettle:7](cup.fettle#7), which wins over this line",
    "[Base](jug.fettle#5) `3.5 V/cell` → [Cup](cup.fettle#7) `3.6 V/cell`",
    "> new",
  ],
  "a layer's setting that a craft drops": [
    "Nothing on Cup: dropped in [cup.fettle:6](cup.fettle#6)",
    "[Base](jug.fettle#4) `3.5 V/cell` → [Cup](cup.fettle#6) dropped",
    "**pack.warn-at** — Voltage of one cell, under load, at which the craft first warns.",
  ],
  "a layer's section that a craft drops": [
    "Nothing on Cup: dropped in [cup.fettle:6](cup.fettle#6)",
    "[Base](jug.fettle#4) `3.5 V/cell` → [Cup](cup.fettle#6) dropped",
    "**pack.warn-at** — Voltage of one cell, under load, at which the craft first warns.",
  ],
  "a layer that no craft uses": [
    "**`3.5 V/cell`**, on no craft yet: none uses this layer",
    "> old",
    "**pack.warn-at** — Voltage of one cell, under load, at which the craft first warns.",
  ],
  "a setting with a fault": [
    "No value on Jug: [jug.fettle:6](jug.fettle#6) has a fault, and nothing earlier shows through",
    "**pack.cells** — Number of cells in series: what the trade writes as 4S or 6S.",
    "[Explain pack.cells](setting/pack.cells)",
  ],
  "a faulty line over a sound one": [
    "No value on Jug: [jug.fettle:6](jug.fettle#6) has a fault, and nothing earlier shows through",
    "[Habits](habits.fettle#5) `3.4 V/cell` → [Jug](jug.fettle#6) `lots`",
    "**pack.land-at** — Voltage of one cell, under load, at which it is time to be on the ground.",
  ],
  "a line out of range, which counts": [
    "**`99`** on Jug, [jug.fettle:6](jug.fettle#6)",
    "What follows:",
    "- Of 99 cells: land 336.6 V",
  ],
  "fields of two files": [
    "**`slope 100 deg/s  end 700 deg/s`** on Jug, [habits.fettle:13](habits.fettle#13) (slope) and [jug.fettle:6](jug.fettle#6) (end)",
    "[Habits](habits.fettle#13) `slope 100 deg/s  end 600 deg/s` → [Jug](jug.fettle#6) `end 700 deg/s`",
    "What follows:",
  ],
  "a repeatable setting": [
    "**`at 120 Hz  width 30 Hz; at 240 Hz  width 40 Hz`** on Jug, [jug.fettle:6](jug.fettle#6) and [jug.fettle:7](jug.fettle#7)",
    "120 Hz = 0.12 kHz; 30 Hz = 0.03 kHz",
    "**filters.notch** — A cut at one fixed frequency, for a part of the frame that always rings at the same pitch.",
  ],
  "a repeatable setting, one line of which has a fault": [
    "**`at 120 Hz  width 30 Hz; at here`** on Jug, [jug.fettle:6](jug.fettle#6) and [jug.fettle:7](jug.fettle#7); [jug.fettle:7](jug.fettle#7) has a fault",
    "120 Hz = 0.12 kHz; 30 Hz = 0.03 kHz",
    "**filters.notch** — A cut at one fixed frequency, for a part of the frame that always rings at the same pitch.",
  ],
  "a dropped setting with a default": [
    "Nothing on Jug; its default `1500 us` stands in",
    "Takes back nothing: no earlier file says it",
    "**link.centre** — Pulse that the board takes for a stick in its middle.",
  ],
  "a named pack's own line": [
    "**`6`** on Jug, [jug.fettle:9](jug.fettle#9)",
    "What follows:",
    "- Of 6 cells: land 20.4 V",
  ],
  "a setting of a second set": [
    "**`end 500 deg/s`** on Jug, [jug.fettle:6](jug.fettle#6)",
    "What follows:",
    "- Half stick turns at 100 deg/s, full stick at 500 deg/s, a turn in 720 ms; half of that at 76 % of stick (with bend 3, as the catalogue supposes)",
  ],
  "a setting that follows a dial": [
    "**`follows KN from 60 % to 100 %`** on Jug, [jug.fettle:7](jug.fettle#7)",
    "> softer indoors",
    "What follows:",
  ],
  "a text": [
    '**`"kiln *7*"`** on Jug, [jug.fettle:6](jug.fettle#6)',
    "**board.model** — Name and revision of the flight controller, as printed on it.",
    "[Explain board.model](setting/board.model)",
  ],
  "a dropped setting": [
    "Nothing on Jug",
    "Takes back **`3.4 V/cell`**, [habits.fettle:5](habits.fettle#5)",
    "**pack.land-at** — Voltage of one cell, under load, at which it is time to be on the ground.",
  ],
  "a dropped setting that is set anew": [
    "**`3.2 V/cell`** on Jug, [jug.fettle:7](jug.fettle#7)",
    "Takes back **`3.4 V/cell`**, [habits.fettle:5](habits.fettle#5)",
    "**pack.land-at** — Voltage of one cell, under load, at which it is time to be on the ground.",
  ],
  "a drop of what nobody said": [
    "Nothing on Jug",
    "Takes back nothing: no earlier file says it",
    "**pack.capacity** — Charge of the whole pack, as its label gives it.",
  ],
  "a dropped mode": [
    "Off on Jug",
    "Takes back **`when TL is down`**, [habits.fettle:10](habits.fettle#10)",
    "**arm** — Lets the motors run: while it is on the craft flies, when it goes off they stop.",
  ],
  "a dropped element": [
    "Nothing on Jug",
    "Takes back **`right, bottom`**, [habits.fettle:18](habits.fettle#18)",
    "**amps** — Current drawn from the pack at this moment.",
  ],
  "a drop in a layer": [
    "**`3.6 V/cell`** on Cup, [cup.fettle:6](cup.fettle#6)",
    "Takes back nothing: no earlier file says it",
    "**pack.warn-at** — Voltage of one cell, under load, at which the craft first warns.",
  ],
  "a mode's own line": [
    "**`when TR is down`** on Jug, [jug.fettle:7](jug.fettle#7)",
    "> for a fall",
    "On in 2 of 4 states; at rest: off.",
  ],
  "a mode of two lines": [
    "**`when TR is down or TL is up and TR is up`** on Jug, [jug.fettle:6](jug.fettle#6) and [jug.fettle:7](jug.fettle#7)",
    "On in 2 of 4 states; at rest: off.",
    "**turtle** — Turns a craft that lies on its back over, by running some of its motors backwards.",
  ],
  "a mode with a fault": [
    "**`when QQ is down`** on Jug, [jug.fettle:6](jug.fettle#6)",
    "When it is on is not known, since a line behind it has a fault.",
    "**turtle** — Turns a craft that lies on its back over, by running some of its motors backwards.",
  ],
  "a mode in a condition": [
    "**`when TL is down`** on Jug, [habits.fettle:10](habits.fettle#10)",
    "On in 1 of 2 states; at rest: off.",
    "**arm** — Lets the motors run: while it is on the craft flies, when it goes off they stop.",
  ],
  "a mode in a condition that nobody sets up": [
    "Off on Jug: no line says it",
    "**turtle** — Turns a craft that lies on its back over, by running some of its motors backwards.",
    "⚠ Short bursts only: blocked motors burn. Nobody near, for the craft jumps, and it may land propellers first. In a tangle of grass or twigs, walk, and disarm before you reach in.",
  ],
  "an output": [
    "**`when TR is up`** on Jug, [jug.fettle:6](jug.fettle#6)",
    "[Habits](habits.fettle#22) `when TL is up` → [Jug](jug.fettle#6) `when TR is up`",
    "On in 2 of 4 states; at rest: off.",
  ],
  "an output in a condition": [
    "**`when TL is down`** on Jug, [habits.fettle:10](habits.fettle#10)",
    "On in 1 of 2 states; at rest: off.",
    "**arm** — Lets the motors run: while it is on the craft flies, when it goes off they stop.",
  ],
  "an element": ["**`left+1, top`** on Jug, [jug.fettle:7](jug.fettle#7)", "> high", "What follows:"],
  "an element of a layer": ["**`right, bottom`** on Cup, [jug.fettle:5](jug.fettle#5)", "> low", "What follows:"],
  "an element with a fault": [
    "No value on Jug: [jug.fettle:6](jug.fettle#6) has a fault, and nothing earlier shows through",
    "**pack-volts** — Volts of the whole pack, at this moment and under load.",
    "[Explain pack-volts](element/pack-volts)",
  ],
  "an anchor of a place": [
    "**`left+1, top`** on Jug, [jug.fettle:6](jug.fettle#6)",
    "What follows:",
    "- Its widest text takes columns 1 to 5, row 0 of 30 x 16, counted from 0",
  ],
  "a control in a condition": [
    "**`switch ch6  up 1000 us  mid 1500 us  down 2000 us  rests mid`** on Jug, [wheel.fettle:9](wheel.fettle#9)",
    "What can be on at each place:",
    "- up (1000 us): nothing",
  ],
  "a control in its handset": [
    "**`switch ch5  up 1000 us  down 2000 us`**, [jug.fettle:5](jug.fettle#5)",
    "> sticky",
    "**TL** — a switch of the handset on channel 5.",
  ],
  "a control that the craft restates": [
    "**`switch ch5  up 1100 us  down 1900 us`** on Jug, [jug.fettle:7](jug.fettle#7)",
    "> worn",
    "What can be on at each place:",
  ],
  "a dial": [
    "**`dial ch9 1000 us to 2000 us`** on Jug, [wheel.fettle:10](wheel.fettle#10)",
    "What can be on at each place:",
    "- 1000 us to 1500 us: nothing",
  ],
  "a position": [
    "**`TR mid`**, 1500 us on ch6, where the control rests, [wheel.fettle:9](wheel.fettle#9)",
    "Can be on here: level.",
    "**TR** — a switch of the handset on channel 6.",
  ],
  "a position of a handset without craft": [
    "**`TL up`**, 1000 us on ch5, [jug.fettle:4](jug.fettle#4)",
    "**TL** — a switch of the handset on channel 5.",
    "[Explain controls](section/controls)",
  ],
  "a number": [
    "**`3.6 V/cell`** on Jug, [jug.fettle:7](jug.fettle#7)",
    "[Habits](habits.fettle#6) `3,5 V/cell` → [Jug](jug.fettle#7) `3.6 V/cell`",
    "What follows:",
  ],
  "a unit": [
    "1100 mAh = 1.1 Ah",
    "**mAh** — milliampere hour. Electric charge: what a pack holds or has given.",
    "[Explain mAh](unit/mAh)",
  ],
  "a unit of its own kind": [
    "**V/cell** — volts per cell. Tension of one cell of a pack; never the same thing as the pack's volts.",
    "[Explain V/cell](unit/V/cell)",
  ],
  "a choice": [
    "**`lihv`** on Jug, [jug.fettle:6](jug.fettle#6)",
    "**lihv** — High-voltage lithium polymer: as lipo, but charged to 4.35 V a cell.",
    "[Explain pack.chemistry](setting/pack.chemistry)",
  ],
  "a choice of a layer": [
    "**`lihv`** on Cup, [cup.fettle:6](cup.fettle#6), which wins over this line",
    "**lipo** — Lithium polymer: strong current, charged to 4.20 V a cell.",
    "[Explain pack.chemistry](setting/pack.chemistry)",
  ],
  "a field": [
    "**`slope 100 deg/s  end 600 deg/s`** on Jug, [jug.fettle:6](jug.fettle#6) (slope) and [habits.fettle:13](habits.fettle#13) (end)",
    "**slope** — How steep the curve is at the middle: the rate that full stick would give if it went straight on.",
    "[Explain rates.roll](setting/rates.roll)",
  ],
  "a section": [
    "**3 entries** on Jug, in [habits.fettle](habits.fettle#1) and this file",
    "> bought in spring",
    "**pack** — The battery: what it is, when the craft calls it low, and how its volts and amperes are measured.",
  ],
  "a section of which nothing counts": [
    "Nothing of it counts on Jug",
    "**pack** — The battery: what it is, when the craft calls it low, and how its volts and amperes are measured.",
    "[Explain pack](section/pack)",
  ],
  "a named pack": [
    "**1 entry** on Jug, in this file",
    "**pack** — The battery: what it is, when the craft calls it low, and how its volts and amperes are measured.",
    "[Explain pack](section/pack)",
  ],
  "lines that are kept": [
    "**1 entry** on Jug, in this file",
    "**verbatim** — Lines of a board's own text that the named dialect could not read, kept letter for letter.",
    "[Explain verbatim](section/verbatim)",
  ],
  "a header of a craft": [
    "**craft “Jug”** — laid over, from the top to the bottom:",
    "- **layer “Habits”**, [habits.fettle](habits.fettle#1)",
    "- **handset “Wheel”**, [wheel.fettle](wheel.fettle#1)",
  ],
  "a header of a layer": [
    "**layer “Base”** — used by:",
    "- **craft “Cup”**, [cup.fettle](cup.fettle#1)",
    "Part of a configuration, made to be reused by several craft.",
  ],
  "a header of a layer without craft": [
    "**layer “Base”** — no craft of this workspace uses it.",
    "Part of a configuration, made to be reused by several craft.",
    "[Explain layer](word/layer)",
  ],
  "a use": [
    "**layer “Habits”**, [habits.fettle](habits.fettle#1)",
    "Says: pack, modes, rates, osd, outputs.",
    "[Explain use](word/use)",
  ],
  "a use of what is not there": ["Not used: there is no such file."],
  "an accepted finding": [
    "Accepted in all of `pack`.",
    "**pack-order** — Full, warn, land and the chemistry's cut-off do not fall in this order.",
    "[Explain pack-order](rule/pack-order)",
  ],
  "a note": [],
  "a line of kept text": [],
  "an unknown name": [],
};
