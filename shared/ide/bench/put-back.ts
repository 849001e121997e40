/**
 * “Put it back”: what to do where new software wipes a working set-up, in order: what is kept before, the board's lines
 * or the values stage by stage, then the bench list of what no longer holds.
 */
import type { Dialect } from "../../dialect/dialect.ts";
import { dialectNamedBy, dialectsFitting, dialectsIn } from "../../dialect/dialects.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchList, BenchPhase } from "../../protocol/bench.ts";
import { benchList, withCautionsOnce } from "./bench-list.ts";
import { benchStep } from "./bench-step.ts";
import { type BenchView, benchView } from "./bench-view.ts";
import { beforePhase, flashPhase, type SavedText } from "./put-back-before.ts";
import { boardLinesOf } from "./put-back-lines.ts";
import { NO_PACK, stagePhases } from "./put-back-steps.ts";
import { saidForBoard } from "./put-back-values.ts";
import { ANTENNAS, PROPELLERS_OFF, unpoweredSteps } from "./unpowered-steps.ts";

export interface PutBackOptions {
  /** Of the board as it will be; null where none is known, and all is set by hand. */
  readonly dialect: Dialect | null;
  /** The text that was saved before; null where there is none. */
  readonly saved: SavedText | null;
  /** On which the board gets its new software, such as 2026-03-15. */
  readonly day: string;
}

/**
 * The dialect of a craft's board, and the one that reads its saved text: the craft's own, if the text may be of it, else
 * the one that knows it; which is the board's too where the craft names none, and no other knows the text.
 */
export function putBackDialects(
  craft: Craft,
  workspace: Workspace,
  saved: string | null,
): { readonly dialect: Dialect | null; readonly reader: Dialect | null } {
  const own = dialectNamedBy(workspace, craft);
  const fitting = saved === null ? [] : dialectsFitting(dialectsIn(workspace), saved);
  const [first = null, second] = fitting;
  return {
    dialect: own ?? (second ? null : first),
    reader: own && (first === null || fitting.includes(own)) ? own : first,
  };
}

/** The list; it is a bench list whose first phases put the craft back. */
export function putBackList(craft: Craft, workspace: Workspace, { dialect, saved, day }: PutBackOptions): BenchList {
  const list = benchList(craft, workspace, { only: "due", flashedOn: day });
  const view = benchView(craft, workspace);
  const said = saidForBoard(view);
  const board = dialect && boardLinesOf(view, dialect, saved?.text ?? null);
  // Said once: what safety asks before the list comes before all of this.
  const safety = unpoweredSteps(view).filter(({ id }) => ALWAYS.has(id));
  const phases: BenchPhase[] = [
    beforePhase(view, said, { saved, day }, safety),
    flashPhase(view, { day, checks: list.checks, dialect, saved }),
    ...stagePhases(view, said, board),
    lastPhase(view),
    ...list.phases.map((phase) => ({ ...phase, steps: phase.steps.filter(({ id }) => !ALWAYS.has(id)) })),
  ];
  return {
    ...list,
    putBack: { day, dialect: dialect?.name ?? null },
    phases: withCautionsOnce(phases.filter(({ steps }) => steps.length > 0)),
    unknown: [...new Set([...view.unknowns, ...list.unknown])],
  };
}

const ALWAYS: ReadonlySet<string> = new Set([PROPELLERS_OFF, ANTENNAS]);

function lastPhase(view: BenchView): BenchPhase {
  return {
    name: "put-back-saved",
    title: "Is it there",
    how: null,
    steps: [
      benchStep({
        id: "put-back.saved",
        what: "Save the board's text once more, hold it against the script, and keep it.",
        expect:
          "It says what the script says. Where the board refused a line, or has another value, set that by hand. The file becomes “text” of section “board”; what follows is checked on the bench.",
        caution: NO_PACK,
        risk: "powered",
        from: view.from("board.text"),
      }),
    ],
  };
}
