/**
 * The same work through our server and through the JSON language server, one run of each in turn: a craft told as a
 * script and as JSON with a schema, in which every line but the headings is a setting that both check; then through
 * the libraries alone. Flags: `--lines=100,1000`, `--rounds=5`, and `--keep` for the page of the reference.
 */
import { type Catalogue, makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { isMissed, type PeerRow, type PeerSize } from "../../shared/ide/reference/speed/figures.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { flagOf } from "./figures.ts";
import { conditions, KEEPS, keep, roundsOf } from "./keep.ts";
import { libraryRound } from "./peer/library.ts";
import { FIGURES, runOf } from "./peer/measure.ts";
import { typingPlaceOf } from "./peer/place.ts";
import { ratioOf, spreadOf } from "./peer/ratios.ts";
import { type Side, sidesOf } from "./peer/sides.ts";
import { schemaOf } from "./peer/twin-schema.ts";
import { twinsOf } from "./peer/twins.ts";

const LINES = (flagOf("lines") ?? "100,500,1000,10000").split(",").map(Number);
const FILE = "/craft.fettle";
const ROUNDS = Number(flagOf("rounds") ?? 3);
const LIBRARY = ["library alone, p50", "library alone, p95"] as const;

/** A pilot's outline of a script follows each key. */
const SYMBOLS_MS = 20;

/** What our part of the other's is to be at most, by figure and number of lines; null: nothing is asked. */
function aimOf(figure: string, lines: number): number | null {
  if (figure.startsWith("edit")) return lines >= 1000 ? 0.5 : 0.8;
  return figure === "first answer" || figure === "memory" ? 1 : null;
}

/** What each round gave on each side, by figure. */
type Rounds = Record<Side["name"], Record<string, number>[]>;

/** Runs both sides so many times, in turn. */
async function servedRounds(sides: readonly Side[], typed: (i: number) => string): Promise<Rounds> {
  const runs: Rounds = { ours: [], theirs: [] };
  for (let round = 0; round < ROUNDS; round++) {
    // Each begins as often as the other: what the first leaves behind on the machine is the second's.
    for (const side of round % 2 === 0 ? sides : sides.toReversed()) runs[side.name].push(await runOf(side, typed));
  }
  return runs;
}

function rowOf(figure: string, { ours, theirs }: Rounds, lines: number): PeerRow {
  const [mine, others] = [ours.map((run) => run[figure]!), theirs.map((run) => run[figure]!)];
  return {
    figure,
    unit: figure === "memory" ? "MB" : "ms",
    ours: roundsOf(spreadOf(mine)),
    theirs: roundsOf(spreadOf(others)),
    ratio: roundsOf(ratioOf(mine, others)),
    aim: aimOf(figure, lines),
    ...(figure.startsWith("symbols") && { mostMs: SYMBOLS_MS }),
  };
}

async function measuredAt(lines: number, catalogue: Catalogue): Promise<PeerSize> {
  const twins = twinsOf(lines, catalogue);
  const core = makeCore(catalogue);
  const place = typingPlaceOf(twins, (script) =>
    findingsOf(core.at(memoryFiles({ [FILE]: script })), FILE).map(({ range }) => range.start.line),
  );
  const schema = schemaOf(catalogue);
  const served = await servedRounds(sidesOf(twins, place, schema), place.typed);
  const alone: Rounds = { ours: [], theirs: [] };
  for (let round = 0; round < ROUNDS; round++) {
    const { ours, theirs } = await libraryRound(twins, place, catalogue, schema);
    alone.ours.push({ [LIBRARY[0]]: ours.p50, [LIBRARY[1]]: ours.p95 });
    alone.theirs.push({ [LIBRARY[0]]: theirs.p50, [LIBRARY[1]]: theirs.p95 });
  }
  const rows = [
    ...FIGURES.map((figure) => rowOf(figure, served, lines)),
    ...LIBRARY.map((figure) => rowOf(figure, alone, lines)),
  ];
  return { lines, settings: twins.settings, rows };
}

function tableOf({ lines, settings, rows }: PeerSize): string {
  const wide = ([median, least, most]: PeerRow["ours"]) =>
    `${String(median).padStart(7)} ${`(${least}–${most})`.padEnd(16)}`;
  const written = rows.map((each) => {
    const { figure, ours, theirs, ratio, aim } = each;
    const missed = isMissed(each) ? "  MISSED" : "";
    return `  ${figure.padEnd(22)} ${wide(ours)} ${wide(theirs)} ${wide(ratio)} ${aim?.toFixed(1) ?? "–"}${missed}`;
  });
  return [`${lines} lines, ${settings} of them settings`, ...written].join("\n");
}

export async function run(): Promise<string> {
  const catalogue = makeCatalogue();
  const sizes: PeerSize[] = [];
  for (const lines of LINES) sizes.push(await measuredAt(lines, catalogue));
  return [
    `${ROUNDS} rounds: median (least–most). Milliseconds, memory in MB; ours, theirs, ours over theirs, aim.`,
    ...sizes.map(tableOf),
    ...(KEEPS ? [keep("peer", { ...conditions(), rounds: ROUNDS, sizes })] : []),
  ].join("\n\n");
}
