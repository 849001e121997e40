/** How long it takes to compare two craft of 500 lines, and to take one's differences into the other. */
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { differencesOf } from "../../shared/ide/compare/compare.ts";
import { wordsOf } from "../../shared/ide/compare/words.ts";
import { adoptEdits } from "../../shared/ide/edits/adopt.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { type Core, makeCore } from "../../shared/model/workspace.ts";
import { ms, percentile } from "./figures.ts";
import { craftOf, layers } from "./scripts.ts";

/** What the figures are held to. */
const MOST_MS = 20;
const LINES = 500;

const MINE = "/shed/tankard.fettle";
const THEIRS = "/shed/other/tankard.fettle";

/** The other craft: packs, rates, modes, places and board text that differ here and there. */
function changed(text: string): string {
  return text
    .replace(/capacity {2}10(\d+) mAh/g, "capacity  12$1 mAh")
    .replace(/row 3 = (\d+)/g, "row 3 = 1$1")
    .replace("recorder  when arm", "recorder  when arm and TR is up\n  level     when TR is up or SL is mid")
    .replace("at left+3, top+2", "at left+4, top+2");
}

function textsOf(round: number): Record<string, string> {
  const files = Object.entries(layers).flatMap(([path, text]) => [
    [`/shed/${path}`, text],
    [`/shed/other/${path}`, text.replace("slope 120", "slope 140").replace("when SR is down", "when not SR is up")],
  ]);
  const craft = craftOf(LINES).replace("# bought", `# round ${round}, bought`);
  return Object.fromEntries([...files, [MINE, craft], [THEIRS, changed(craft)]]);
}

interface Parts {
  readonly read: number;
  readonly compare: number;
  readonly words: number;
  readonly adopt: number;
}

/** The parts of one comparison, each in ms. */
function once(core: Core, round: number): Parts {
  const workspace = core.at(memoryFiles(textsOf(round)));
  const began = performance.now();
  const [mine, theirs] = [workspace.craft(MINE)!, workspace.craft(THEIRS)!];
  const read = performance.now();
  const differences = differencesOf(mine, theirs, workspace.catalogue);
  const compared = performance.now();
  for (const each of differences) wordsOf(each, mine, theirs, workspace);
  const told = performance.now();
  const answer = adoptEdits(
    workspace,
    mine,
    theirs,
    differences.map(({ what }) => what),
    MINE,
  );
  const adopted = performance.now();
  if (differences.length < 20 || answer.kind !== "edits") throw new Error("the craft do not differ as they should");
  return { read: read - began, compare: compared - read, words: told - compared, adopt: adopted - told };
}

/** Times in ms: with a core that has read nothing yet, and with one that has read these files before, but for a line. */
export async function run(): Promise<string> {
  const report = [`two craft of ${LINES} lines with five layers each: median, p95; comparing is held to ${MOST_MS} ms`];
  for (let i = 0; i < 20; i++) once(makeCore(makeCatalogue()), i);
  const cold = Array.from({ length: 40 }, (_, i) => once(makeCore(makeCatalogue()), i));
  const core = makeCore(makeCatalogue());
  const warm = Array.from({ length: 100 }, (_, i) => once(core, i)).slice(1);
  for (const [title, times] of [
    ["cold", cold],
    ["warm", warm],
  ] as const) {
    const of = (part: keyof (typeof times)[number]) => {
      const sorted = times.map((each) => each[part]).sort((a, b) => a - b);
      return `${ms(percentile(sorted, 0.5))} ms, ${ms(percentile(sorted, 0.95))} ms`;
    };
    report.push(
      `${title}: read both ${of("read")} | compare ${of("compare")} | in words ${of("words")} | take all into one, tried out and compared again ${of("adopt")}`,
    );
  }
  return report.join("\n");
}
