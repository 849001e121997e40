/** Results of a comparison and of reviews as a server could give them, for pages that stand by themselves. */
import { asUri } from "../../shared/protocol/addresses.ts";
import type { CompareResult, DifferenceRow } from "../../shared/protocol/compare.ts";
import type { ReviewResult, ReviewRow } from "../../shared/protocol/review.ts";

export type Differences = Extract<CompareResult, { kind: "differences" }>;
export type Review = Extract<ReviewResult, { kind: "review" }>;

const tankard = asUri("file:///shed/craft/tankard.fettle");
const head = asUri("fettle-other:/tankard%20at%20HEAD.fettle?1");
const paste = asUri("fettle-other:/the%20clipboard.fettle?2");

function difference(what: string, some: Partial<DifferenceRow> & Pick<DifferenceRow, "kind" | "risk">): DifferenceRow {
  return {
    what,
    summary: "",
    words: what,
    mine: "1",
    theirs: "2",
    mineAt: { file: tankard, line: 3 },
    theirsAt: { file: head, line: 4 },
    notTaken: null,
    ...some,
  };
}

export const differences: Differences = {
  kind: "differences",
  mine: { name: "Tankard", uri: tankard },
  theirs: { name: "Tankard at HEAD", uri: head },
  rows: [
    difference("modes.arm", {
      kind: "mode",
      risk: "high",
      summary: "lets the motors run",
      words: "arm moves from TL down to TR down",
      mine: "when TL is down",
      theirs: "when TR is down",
    }),
    difference("failsafe.hold-for", {
      kind: "setting",
      risk: "high",
      summary: "how long the last sticks count after the signal is lost",
      words: "hold-for is longer: 300 ms, there 1 s",
      mine: "300 ms",
      theirs: "1 s",
    }),
    difference("pack/Winter.warn-at", {
      kind: "setting",
      risk: "medium",
      summary: "the voltage at which the OSD warns",
      words: "warn-at of the pack “Winter” is lower there: 3.6 V/cell, there 3.4 V/cell",
      mine: "3.6 V/cell",
      theirs: "3.4 V/cell",
    }),
    difference("outputs.tail-lamp", {
      kind: "output",
      risk: "medium",
      words: "tail-lamp is not there",
      summary: "an output of the pilot's own",
      mine: "when FL is not up and arm",
      theirs: null,
      theirsAt: null,
    }),
    difference("controls.TL", {
      kind: "control",
      risk: "medium",
      words: "TL is on ch5, there on ch7",
      summary: "a control of the handset",
      mine: "switch ch5 up 1000 us down 2000 us",
      theirs: "switch ch7 up 1000 us down 2000 us",
      notTaken: "it belongs to the handset, which all your craft use.",
    }),
    difference("osd.link-quality", {
      kind: "osd",
      risk: "low",
      words: "link-quality is not here",
      summary: "how many packets arrive",
      mine: null,
      mineAt: null,
      theirs: "at right-3, top+2",
    }),
    difference("osd.pack-volts", {
      kind: "osd",
      risk: "low",
      words: "pack-volts moves 2 columns to the right, 1 row up",
      summary: "volts of the whole pack",
      mine: "at left+3, bottom-2",
      theirs: "at left+5, bottom-3",
    }),
  ],
  notes: ["“layers/old.fettle” is missing at HEAD: what it says there is not known."],
};

function row(what: string, some: Partial<ReviewRow> & Pick<ReviewRow, "class">): ReviewRow {
  return {
    what,
    kind: "setting",
    nature: "taste",
    lines: [1],
    written: what,
    mine: "1",
    theirs: "2",
    words: what,
    mineAt: { file: tankard, line: 3 },
    chosen: false,
    notTaken: null,
    ...some,
  };
}

export const review: Review = {
  kind: "review",
  mine: { name: "Tankard", uri: tankard },
  theirs: { name: "The pasted text", uri: paste },
  rows: [
    row("modes.arm", {
      class: "dangerous",
      kind: "mode",
      nature: "safety",
      lines: [2],
      written: "  arm  when SA is high‹U+202E right-to-left override›",
      mine: "when TL is down",
      theirs: "when TR is down",
      words: "arm moves from TL down to TR down",
    }),
    row("motors.idle", {
      class: "dangerous",
      nature: "hardware",
      lines: [9],
      written: "  idle  7 %",
      mine: "5 %",
      theirs: "7 %",
      words: "idle is higher: 5 %, then 7 %",
    }),
    row("pack.warn-at", {
      class: "differs",
      chosen: true,
      lines: [12],
      written: "  warn-at  3.45 V/cell",
      mine: "3.5 V/cell",
      theirs: "3.45 V/cell",
      words: "warn-at is lower: 3.5 V/cell, then 3.45 V/cell",
    }),
    row("pack.capacity", {
      class: "differs",
      nature: "hardware",
      lines: [13],
      written: "  capacity  1300 mAh",
      mine: "1100 mAh",
      theirs: "1300 mAh",
      words: "capacity is larger: 1100 mAh, then 1300 mAh",
    }),
    row("osd.flight-time", {
      class: "differs",
      kind: "osd",
      chosen: true,
      lines: [16],
      written: "  flight-time  at left+4, bottom-2",
      mine: null,
      mineAt: null,
      theirs: "at left+4, bottom-2",
      words: "flight-time is new",
    }),
    row("line 18", {
      class: "unknown",
      kind: null,
      nature: null,
      lines: [17],
      written: "feature TELEMETRY_ON",
      mine: null,
      mineAt: null,
      theirs: null,
      words: "No section, setting or word of the language begins so",
    }),
    row("modes.level", {
      class: "same",
      kind: "mode",
      lines: [3],
      written: "  level  when SB is mid",
      mine: "when TR is mid",
      theirs: "when TR is mid",
      words: "level is the same",
    }),
    row("pack.cells", {
      class: "same",
      nature: "hardware",
      lines: [11],
      written: "  cells 6",
      words: "cells is the same",
    }),
  ],
  warnings: ["It is for a craft with propellers of 3 in, and yours has 5.1 in: gains and filters do not carry over."],
  mapping: [
    {
      from: "SA",
      to: "TR",
      why: "the same channel, ch6",
      positions: [
        ["low", "up"],
        ["high", "down"],
      ],
      choices: [
        { to: "TR", what: "switch, ch6", takenBy: null },
        { to: "TL", what: "switch, ch5", takenBy: "SB" },
      ],
    },
  ],
  targets: [
    { uri: tankard, name: "Tankard", kind: "craft", alsoIn: [] },
    { uri: asUri("file:///shed/layers/habits.fettle"), name: "habits", kind: "layer", alsoIn: ["Jug", "Saucer"] },
  ],
  into: tankard,
  findings: [
    {
      code: "osd-overlap",
      severity: "warning",
      message: "flight-time covers pack-volts in 4 cells.",
      file: tankard,
      range: { start: { line: 40, character: 2 }, end: { line: 40, character: 12 } },
      related: [],
      fixes: [],
      isNew: true,
      what: "osd.flight-time",
    },
    {
      code: "unusual-value",
      severity: "hint",
      message: "idle of 5 % is more than usual.",
      file: tankard,
      range: { start: { line: 30, character: 2 }, end: { line: 30, character: 12 } },
      related: [],
      fixes: [],
      isNew: false,
      what: null,
    },
  ],
  gone: 1,
  hidden: [
    {
      line: 2,
      start: 21,
      end: 22,
      kind: "direction",
      words: "U+202E right-to-left override: what follows is shown in another order.",
    },
  ],
  measure: [],
  adopt: { kind: "edits", files: [] },
};

export const carried: Review = {
  ...review,
  theirs: { name: "Jug", uri: asUri("file:///shed/craft/jug.fettle") },
  hidden: [],
  mapping: [],
  measure: [
    {
      what: "bench.roll",
      words: "The ends of roll, as the receiver gives them.",
      at: { file: tankard, line: 60 },
      isWritten: false,
    },
    {
      what: "frame.hover-throttle",
      words: "The throttle at which it hovers.",
      at: { file: tankard, line: 21 },
      isWritten: true,
    },
  ],
};
