/** The stages of putting a craft back: what is sent to the board, and what is set by hand. */
import { UNREAD } from "../../dialect/write/parts.ts";
import type { BenchPhase, BenchStep } from "../../protocol/bench.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";
import { type BoardLines, isExcused, isSpoken } from "./put-back-lines.ts";
import { STAGES, type Stage } from "./put-back-stages.ts";
import { inWords, isSaidBy, type Said } from "./put-back-values.ts";

/** Said at every step at which the board takes lines; the list keeps the first. */
export const NO_PACK = "The bench cable alone, no pack: a cable plus a pack is a live craft that can arm and spin.";

/** The stages in order; one in which there is nothing to do is left out. */
export function stagePhases(view: BenchView, said: readonly Said[], board: BoardLines | null): BenchPhase[] {
  const whole = board && board.parts === null ? [wholePhase(board)] : [];
  const stages = STAGES.map(
    (stage): BenchPhase => ({
      name: `put-back-${stage.name}`,
      title: stage.title,
      how: null,
      steps: [
        ...lineSteps(view, stage, said, board),
        ...handSteps(stage, said, board),
        ...(BESIDE[stage.name]?.(view) ?? []),
        ...(stage.name === "rest" ? unreadSteps(board) : []),
      ],
    }),
  );
  return [...whole, ...stages].filter(({ steps }) => steps.length > 0);
}

/** For a dialect whose text may only be sent as it is written. */
function wholePhase({ dialect, written }: BoardLines): BenchPhase {
  const lines = written.text.replace(/(?:\r\n|\r|\n)$/, "").split(/\r\n|\r|\n/);
  return {
    name: "put-back-whole",
    title: "The board's text",
    how: null,
    steps: [
      benchStep({
        id: "put-back.whole",
        what: "Send the board this text as a whole, in this order.",
        expect: sentences(
          `In parts the lines of “${dialect.name}” would come to something else.`,
          "The board takes each line without complaint.",
          inexactInWords(written, () => true),
        ),
        caution: NO_PACK,
        risk: "powered",
        lines,
      }),
    ],
  };
}

function lineSteps(view: BenchView, stage: Stage, said: readonly Said[], board: BoardLines | null): BenchStep[] {
  const part = board?.parts?.find((each) => each.part === stage.name);
  if (!board || !part) return [];
  const spoken = said.filter((each) => each.stage === stage.name && isSpoken(board, each));
  const besides = board.ontoBase
    ? [...part.says].filter((what) => !isSaidBy(view, ...names(what))).map((what) => names(what).join("."))
    : [];
  return [
    benchStep({
      id: `put-back.${stage.name}.lines`,
      what: `Send the board ${part.own === 1 ? "this line" : `these ${part.own} lines`}, and let it save.`,
      expect: sentences(
        spoken.length > 0 && `Then it has: ${inWords(spoken)}.`,
        besides.length > 0 && `Besides, what only the saved text says: ${besides.join(", ")}.`,
        inexactInWords(board.written, (what) => part.says.has(what)),
      ),
      caution: NO_PACK,
      risk: "powered",
      from: spoken.flatMap(({ from }) => from),
      lines: part.lines,
    }),
  ];
}

/** Section and name. */
function names(what: string): [section: string, name: string] {
  const at = what.indexOf(" ");
  return [what.slice(0, at), what.slice(at + 1)];
}

/** What the board's lines hold otherwise than the script says it. */
function inexactInWords({ rounded, filled }: BoardLines["written"], isHere: (what: string) => boolean): string {
  const of = (what: string) => isHere(what.split(" ").slice(0, 2).join(" "));
  const steps = rounded.filter(({ what }) => of(what));
  const others = filled.filter(({ what }) => of(what));
  return sentences(
    steps.length > 0 &&
      `The board holds it in steps: ${steps.map((each) => `${each.what} ${each.said} becomes ${each.written}`).join("; ")}.`,
    others.length > 0 &&
      `Nobody says it, and the line has it: ${others.map(({ what, value }) => `${what} ${value}`).join("; ")}.`,
  );
}

/** What no line of the board says, or all of it where no dialect is known: a step for each section. */
function handSteps({ name, sections }: Stage, said: readonly Said[], board: BoardLines | null): BenchStep[] {
  return sections.flatMap((section): BenchStep[] => {
    const open = said.flatMap((each): Pick<Said, "words" | "section" | "from">[] => {
      if (each.section !== section) return [];
      const own = each.what.slice(section.length + 1);
      if (board && isExcused(board, each)) return [];
      if (!board || !isSpoken(board, each)) return [{ ...each, words: each.words + whyInWords(board, each.what) }];
      const fields = [...each.fields].filter(([field]) => board?.written.unsaid.includes(`${each.what} ${field}`));
      const left = fields.map(([field, value]) => `${field} ${value}`).join(" ");
      return left === "" ? [] : [{ words: `${own} ${left}`, section, from: each.from }];
    });
    if (open.length === 0) return [];
    return [
      benchStep({
        id: `put-back.${name}.${section}`,
        what: board
          ? `Set by hand what no line says of section “${section}”, where the board has it.`
          : `Set what the script says in section “${section}”, where the board has it.`,
        expect: `${inWords(open)}.`,
        caution: NO_PACK,
        risk: "powered",
        from: open.flatMap(({ from }) => from),
      }),
    ];
  });
}

function whyInWords(board: BoardLines | null, what: string): string {
  const why = board?.written.cannot.find((each) => each.what === what)?.why;
  return why === undefined ? "" : ` (no line can say it: ${why})`;
}

function unreadSteps(board: BoardLines | null): BenchStep[] {
  const part = board?.parts?.find((each) => each.part === UNREAD);
  if (!board || !part) return [];
  const source = board.ontoBase ? "the text that was saved" : "section “verbatim”";
  return [
    benchStep({
      id: "put-back.rest.unread",
      what: `Look at each of these ${part.own === 1 ? "lines" : `${part.own} lines`}, then send what still fits.`,
      expect: `They come from ${source}, and “${board.dialect.name}” does not read them: newer software may have no such line, or mean something else by it.`,
      caution: NO_PACK,
      risk: "powered",
      lines: part.lines,
    }),
  ];
}

// --- Beside the lines: what is done with the craft in hand ----------------------------

const BESIDE: Readonly<Record<string, (view: BenchView) => BenchStep[]>> = {
  receiver: receiverSteps,
  motors: motorSteps,
  sensors: sensorSteps,
};

function receiverSteps(view: BenchView): BenchStep[] {
  const band = view.text("link.band");
  const order = view.text("link.order");
  return [
    benchStep({
      id: "put-back.receiver.bound",
      what: "Switch the handset on, and see that the board hears the receiver; bind the two anew only where the receiver was flashed too.",
      expect: sentences(
        band !== null && `Both are in the ${band} band.`,
        order !== null && `The channels come as ${order}.`,
        "A receiver keeps its pairing by itself, unless it is on the board.",
      ),
      risk: "powered",
      from: view.from("link.band", "link.order", "link.receiver"),
    }),
  ];
}

function motorSteps(view: BenchView): BenchStep[] {
  const signal = view.text("motors.esc-signal");
  return [
    benchStep({
      id: "put-back.motors.kept",
      what: "Leave the motors still: corners and directions are seen one motor at a time, in the list below.",
      expect: sentences(
        signal !== null && `The script has esc-signal ${signal}.`,
        "Directions that the speed controllers keep are still there, unless they were flashed too.",
      ),
      risk: "powered",
      from: view.from("motors.esc-signal"),
    }),
  ];
}

function sensorSteps(view: BenchView): BenchStep[] {
  const steps: BenchStep[] = [];
  if (view.word("sensors.accelerometer") !== "no")
    steps.push(
      benchStep({
        id: "put-back.sensors.level",
        what: "Stand the craft on a level table, leave it alone, and let the board level its accelerometer.",
        expect: "Roll and pitch then read 0 deg. What it had learned before went with the wipe.",
        risk: "powered",
        from: view.from("sensors.accelerometer"),
      }),
    );

  if (view.word("sensors.compass") === "yes")
    steps.push(
      benchStep({
        id: "put-back.sensors.compass",
        what: "Away from iron and from the bench, let the board learn its compass: turn the craft about each axis.",
        expect: "It says that it has learned it.",
        risk: "powered",
        from: view.from("sensors.compass"),
      }),
    );
  return steps;
}
