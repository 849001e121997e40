/** The meters: each pack against a meter, and the charge put back against what was counted. */
import { type PackFigures, packsOf } from "../../numbers/pack-of.ts";
import { OFF_SHARE } from "../../numbers/sensing.ts";
import { currentMeterOf, voltsMeterOf } from "../../numbers/sensing-of.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { formatCount, formatNumber, formatPercent, formatVolts } from "../context/format.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const CHECK = "bench.meters-checked";

export function meterSteps(view: BenchView): BenchStep[] {
  return [...packSteps(view), ...warningSteps(view), ...chargeSteps(view)];
}

/** A pack of which something is known besides that it is there. */
function packsHere(view: BenchView): readonly PackFigures[] {
  return packsOf(view.craft, view.catalogue).filter(
    ({ section, cells, fullCellV, cellsDetected }, _, all) =>
      view.says(section) &&
      (cells !== null || fullCellV !== null || cellsDetected || section !== "pack" || all.length === 1),
  );
}

function packSteps(view: BenchView): BenchStep[] {
  const packs = packsHere(view);
  if (packs.length === 0)
    view.unknown(
      "The script does not say which pack the craft flies: write its “cells” and “full-at” in section “pack”.",
    );
  const measures = view.word("pack.volts-from") !== "none";
  return packs.map((pack, i) => {
    const { section } = pack;
    const name = section === "pack" ? null : section.slice("pack/".length);
    if (pack.fullV === null && !pack.cellsDetected)
      view.unknown(
        `The script does not say how many volts ${name === null ? "a full pack" : `a full pack “${name}”`} has: write “cells” and “full-at” in section “pack”.`,
      );
    return benchStep({
      id: name === null ? "meters.pack" : `meters.pack-${name}`,
      what: `Read ${name === null ? "a full pack" : `a full pack “${name}”`} with a meter at the craft's leads, the motors still${measures ? ", and what the craft shows at that moment" : ""}.`,
      expect: sentences(fullInWords(pack), measures && shownInWords(view, pack)),
      caution: "Keep the tips of the meter apart: a pack that is shorted welds and burns.",
      risk: "powered",
      check: CHECK,
      // The readings are of one pack, and the first one does.
      readings: measures && i === 0 ? voltReadings(view, pack) : [],
      from: view.from(
        ...["cells", "full-at", "volts-from", "divider-top", "divider-bottom"].map((each) => `${section}.${each}`),
      ),
    });
  });
}

function fullInWords({ cells, cellsDetected, fullCellV, fullV }: PackFigures): string | null {
  if (fullV !== null)
    return `${formatVolts(fullV)} when full: ${formatCount(cells!, "cell")} of ${formatVolts(fullCellV!)}.`;
  if (!cellsDetected) return null;
  return `The board counts the cells itself: see that it finds as many as there are${fullCellV === null ? "" : `, of ${formatVolts(fullCellV)} each when full`}.`;
}

function shownInWords(view: BenchView, { section, fullV }: PackFigures): string {
  const clipV = voltsMeterOf(view.craft, view.catalogue, section)?.clipV ?? null;
  const share = formatPercent(OFF_SHARE.volts);
  return sentences(
    `The craft shows the same within ${share}${fullV === null ? "" : ` (${formatVolts(fullV * (1 - OFF_SHARE.volts))} to ${formatVolts(fullV * (1 + OFF_SHARE.volts))} of a full one)`}.`,
    clipV !== null && fullV !== null && clipV < fullV
      ? `Its converter reads no more than ${formatVolts(clipV)}, so a full pack shows that.`
      : clipV !== null && `Its converter reads up to ${formatVolts(clipV)}.`,
  );
}

function voltReadings(view: BenchView, { fullV }: PackFigures): BenchStep["readings"] {
  const full = fullV === null ? null : `${formatVolts(fullV)} of a full pack`;
  return [
    view.reading("pack-volts-read", { what: "volts by the meter", form: "24.91 V", expected: full }),
    view.reading("pack-volts-shown", {
      what: "volts that the craft shows",
      form: "24.8 V",
      expected: `within ${formatPercent(OFF_SHARE.volts)} of the meter`,
    }),
  ];
}

function warningSteps(view: BenchView): BenchStep[] {
  const packs = packsHere(view).filter(({ warnCellV, landCellV }) => warnCellV !== null || landCellV !== null);
  if (packs.length === 0 || view.word("pack.volts-from") === "none") return [];
  if (!canWarn(view)) {
    view.unknown(
      "The script does not say what tells the pilot that the pack is low: neither a picture, nor the handset, nor a sounder or lights. So its warning is not on this list.",
    );
    return [];
  }
  const words = packs.map(({ section, warnCellV, landCellV, warnV, landV, warnAfterMah }) => {
    const parts = [
      ...(warnCellV === null ? [] : [`warns at ${withPackVolts(warnCellV, warnV)}`]),
      ...(landCellV === null ? [] : [`asks to land at ${withPackVolts(landCellV, landV)}`]),
      ...(warnAfterMah === null || view.word(`${section}.current-from`) === "none"
        ? []
        : [`warns after ${formatNumber(warnAfterMah, 5)} mAh`]),
    ];
    return `${section === "pack" ? "It" : `With pack “${section.slice("pack/".length)}” it`} ${parts.join(", ")}.`;
  });
  return [
    benchStep({
      id: "meters.warning",
      what: "Put in a pack that is nearly flown down, and see the warning come.",
      expect: sentences(...words, EMPTY_THEN[view.word("failsafe.pack-empty-then") ?? ""]),
      risk: "powered",
      check: CHECK,
      from: packs.flatMap(({ section }) =>
        view.from(`${section}.warn-at`, `${section}.land-at`, `${section}.warn-after`, "failsafe.pack-empty-then"),
      ),
    }),
  ];
}

const EMPTY_THEN: Readonly<Record<string, string>> = {
  descend: "In flight it then comes down by itself (pack-empty-then).",
  return: "In flight it then flies home by itself (pack-empty-then).",
};

/** Whether something is said by which a low pack is told: the picture, the handset, a sounder, the lights. */
function canWarn(view: BenchView): boolean {
  return (
    view.placed("osd").length > 0 ||
    view.placed("osd-second").length > 0 ||
    view.word("link.telemetry") === "yes" ||
    ["finder", "lights"].some((section) => view.says(section))
  );
}

function withPackVolts(cellV: number, packV: number | null): string {
  return packV === null ? `${formatNumber(cellV)} V/cell` : `${formatVolts(packV)} (${formatNumber(cellV)} V/cell)`;
}

function chargeSteps(view: BenchView): BenchStep[] {
  const from = view.word("pack.current-from");
  const counts = from === "shunt" || from === "esc-data" || (from === null && view.said("pack.shunt") !== null);
  if (!counts) return [];
  const clipA = currentMeterOf(view.craft, view.catalogue)?.clipA ?? null;
  const share = formatPercent(OFF_SHARE.charge);
  return [
    benchStep({
      id: "meters.charge",
      what: "After the first whole pack, write down the charge that the craft counted, charge the pack, and read what the charger put back.",
      expect: sentences(
        `The two agree within ${share}.`,
        clipA !== null && `The converter reads up to ${formatNumber(clipA)} A.`,
      ),
      risk: "unpowered",
      check: CHECK,
      readings: [
        view.reading("charge-counted", { what: "charge that the craft counted", form: "1015 mAh", expected: null }),
        view.reading("charge-put-back", {
          what: "charge that the charger put back",
          form: "1040 mAh",
          expected: `within ${share} of what was counted`,
        }),
      ],
      from: view.from("pack.current-from", "pack.shunt", "pack.shunt-gain", "pack.shunt-offset"),
    }),
  ];
}
