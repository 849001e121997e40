/** Where an offer comes from other parts: pairs of two sides, and a word of each sentence that is expected. */
import { describe, expect, test } from "vitest";
import { offerOf } from "../../../shared/ide/review/offer.ts";
import { reviewOf } from "../../../shared/ide/review/review.ts";
import { SHED, shed, WHEEL } from "./shed.ts";

const PLAIN = "/shed/craft/plain.fettle";

function warnings(mine: string, theirs: string): readonly string[] {
  const text = (lines: string) =>
    lines
      .split(" / ")
      .map((line) => (line.includes(" ") && !/^pack "/.test(line) ? `  ${line}` : line))
      .join("\n");
  const craft = `craft "Plain"\nuse "../handsets/wheel.fettle"\n${text(mine)}\n`;
  const workspace = shed({ [PLAIN]: craft, [WHEEL]: SHED[WHEEL]! });
  const offered = offerOf(workspace, text(theirs), "Evenings");
  if (offered.kind !== "offer") throw new Error(JSON.stringify(offered));
  const query = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "" } as const;
  return reviewOf(workspace, workspace.craft(PLAIN)!, offered.offer, query).warnings;
}

describe("a sentence for each part that is another", () => {
  test.each<[string, string, readonly string[]]>([
    ['board / model "blue edge"', 'board / model "red edge"', ["another board"]],
    ['board / model "blue edge"', 'board / model "blue edge"', []],
    ['board / model "blue edge"', "pack / warn-at 3.6 V/cell", []],
    ['board / text-edition "4"', 'board / text-edition "5"', ["another edition"]],
    ["frame / motors 4", "frame / motors 6", ["6 motors"]],
    ["frame / propeller-diameter 5.1 in", "frame / propeller-diameter 3 in", ["propellers of 3 in"]],
    ["frame / propeller-diameter 5.1 in", "frame / propeller-diameter 129.54 mm", []],
    ["frame / propeller-diameter 5.1 in", "frame / propeller-diameter 5 in", []],
    ["frame / mass 640 g", "frame / mass 250 g", ["250 g"]],
    ["frame / mass 640 g", "frame / mass 0.66 kg", []],
    ["motors / kv 1750 rpm/V", "motors / kv 1900 rpm/V", []],
    ["motors / kv 1750 rpm/V", "motors / kv 2700 rpm/V", ["2700 rpm/V"]],
    ["pack / chemistry lipo", "pack / chemistry li-ion", ["li-ion"]],
    ["pack / cells 6", "pack / cells 4", ["4 cells"]],
    ["pack / cells 6", "pack / cells 6", []],
    ["link / band 2.4 GHz", "link / band 868 MHz", ["868 MHz"]],
    ["link / band 2.4 GHz", "link / band 2400 MHz", []],
    ["link / region europe", "link / region usa", ["another region"]],
    ["video / region europe", "video / region usa", ["another region"]],
    ["video / signal digital", "video / signal analogue", ["analogue"]],
    ["osd / grid 53 x 20", "osd / grid pal", ["30 x 16"]],
    ["osd / grid 30 x 16", "osd / grid pal", []],
    ["modes / arm when TL is down", "modes / arm when TL is down", []],
    ["modes / arm when TL is down", "modes / arm when SA is down", ["with SA"]],
    ["modes / arm when TL is down", "modes / arm when TL is mid", ["with TL"]],
    [
      "modes / arm when TL is down",
      "controls / TL switch ch7 up 1000 us down 2000 us / modes / arm when TL is down",
      ["with TL"],
    ],
    [
      "modes / arm when TL is down",
      "controls / TL switch ch5 up 1000 us down 2000 us / modes / arm when TL is down",
      [],
    ],
    [
      "pack / cells 6 / chemistry lipo",
      "pack / cells 4 / chemistry lihv / frame / motors 4 / modes / level when SB is mid",
      ["lihv", "4 cells", "with SB"],
    ],
    ["pack / cells 6", "pack / cells 4.5", []],
    ["modes / arm when TL is down", 'layer "A" / pack / warn-at 3.6 V/cell', []],
  ])("%s against %s", (mine, theirs, expected) => {
    const found = warnings(mine, theirs);
    expect(found).toHaveLength(expected.length);
    for (const [i, word] of expected.entries()) expect(found[i]).toContain(word);
  });
});
