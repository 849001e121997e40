/** The tour of the controls as steps: every position, and every mode on and off, by the fewest movements. */
import { shortName, unknownInWords } from "../../draw/words.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";
import type { Tour, TourMove, TourStart, UndecidedMode } from "../../logic/tour-types.ts";
import { modeNamed, type Source } from "../../model/craft.ts";
import type { BenchRisk, BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";
import { asSentence, type ControlWords, controlWords, throttleIsMiddle } from "./control-words.ts";

const CHECK = "bench.switches-checked";

const NO_CHANGE = "Nothing changes.";

/** What the craft may do once its switches arm it: its motors turn, unless the script says that they wait for the throttle. */
export function armedRisk(view: BenchView): BenchRisk {
  return view.word("safety.spin-when-armed") === "no" ? "may-arm" : "spins";
}

/** The steps of the tour, armed ones last; none for a craft without controls. */
export function switchSteps(view: BenchView): BenchStep[] {
  const words = controlWords(view);
  const board = boardOf(view.craft, view.workspace);
  if (board.variables.every(({ name }) => !words.isMoved(name))) return [];
  const tour = board.tour({ sticks: words.sticks, order: words.order });
  if (!tour) {
    view.unknown(
      "What each position turns on is not known: the conditions are too tangled to follow. Take one with many parts apart into several modes or outputs.",
    );
    return [];
  }
  noteUnseen(view, board, tour, words);
  const seen = new Map<string, number>();
  const caution = armedCautions(view, tour, words);
  return [
    startStep(view, tour, words),
    ...runsOf(tour).map(([first, last]): BenchStep => {
      const moves = tour.moves.slice(first, last + 1);
      const move = moves.at(-1)!;
      const place = `${move.name}-${move.to}`;
      const count = (seen.get(place) ?? 0) + 1;
      seen.set(place, count);
      const before = tour.moves[first - 1] ?? tour.start;
      return benchStep({
        id: `switches.${place}${count > 1 ? `-${count}` : ""}`,
        what: asSentence(`${inTurn(moves, words)}${stillHeld(tour, first, words)}`),
        expect: changeInWords(move, before, tour.undecided),
        caution: caution(move),
        risk: move.armed === "no" ? "powered" : armedRisk(view),
        check: CHECK,
        moves: moves.map(({ name, to, on, comesOn, goesOff }) => ({ control: name, to, on, comesOn, goesOff })),
        from: moves.flatMap((each) => linesOf(view, each)),
      });
    }),
    ...endStep(view, tour, words),
  ];
}

/** The movements by the steps that ask for them, first and last: those of one control at which nothing changes are one step. */
function runsOf({ start, moves, undecided }: Tour): [first: number, last: number][] {
  const runs: [number, number][] = [];
  const isIdle = (i: number) => changeInWords(moves[i]!, moves[i - 1] ?? start, undecided) === NO_CHANGE;
  for (const [i, { name, armed }] of moves.entries()) {
    const run = runs.at(-1);
    const before = moves[i - 1];
    if (run && before?.name === name && before.armed === armed && isIdle(i) && isIdle(i - 1)) run[1] = i;
    else runs.push([i, i]);
  }
  return runs;
}

/** “put KY to two, three and four, one after another”; “hold PB, then let go of it”. */
function inTurn(moves: readonly TourMove[], words: ControlWords): string {
  const asked = moves.map(({ name, to }) => words.moved(name, to));
  const [first = "", ...others] = asked;
  const verb = /^(?:put|turn) \S+ to /.exec(first)?.[0];
  if (others.length === 0 || verb === undefined || !others.every((each) => each.startsWith(verb)))
    return asked.map((each, i) => (i > 0 ? each.replace(/^let go of .*/, "let go of it") : each)).join(", then ");
  return `${joinWithAnd([first, ...others.map((each) => each.slice(verb.length))])}, one after another`;
}

/** What to mind at a movement: that it arms, and once for each what then drives the motors against the stick. */
function armedCautions(view: BenchView, { start }: Tour, words: ControlWords): (move: TourMove) => string | null {
  let hasWarned = start.armed !== "no";
  const told = new Set<string>();
  return ({ name, armed, on, possible }) => {
    if (armed === "no") return null;
    const fresh = [...on, ...possible].filter((mode) => !told.has(mode));
    for (const mode of fresh) told.add(mode);
    const first =
      !hasWarned && `From here on the craft ${armed === "yes" ? "is" : "may be"} armed: ${kept(view, words, name)}`;
    hasWarned = true;
    return (
      sentences(
        first,
        fresh.includes("turtle") && "Turtle is selected as well: the motors would run backwards.",
        runUpCaution(fresh),
      ) || null
    );
  };
}

/** How the throttle is kept while the craft is armed. */
function kept(view: BenchView, words: ControlWords, moved: string): string {
  if (words.called(moved) === "the throttle stick")
    return "its motors may run up, since the throttle itself arms it. Take it back at once.";
  return throttleIsMiddle(view) ? "keep the throttle in its middle." : "keep the throttle closed.";
}

/** Modes in which the craft asks for power by itself, whatever the throttle. */
const RUN_UP: ReadonlySet<string> = new Set(["return-home", "hold-height", "hold-place", "loss-trial"]);

/** What to mind of an armed craft with these modes on; null where none of them drives the motors by itself. */
export function runUpCaution(on: readonly string[]): string | null {
  const names = on.filter((mode) => RUN_UP.has(mode));
  if (names.length === 0) return null;
  return `With ${joinWithAnd(names)} on, the motors of an armed craft may run up by themselves: a hand at the plug of the pack.`;
}

/** Everything back at rest, what arms first; none where it is there already. */
function endStep(view: BenchView, { start, moves, undecided }: Tour, words: ControlWords): BenchStep[] {
  const stands = new Map(moves.map(({ name, to }) => [name, to]));
  const away = new Set([...stands].flatMap(([name, at]) => (at === start.positions[name] ? [] : name)));
  if (away.size === 0) return [];
  if (start.armed !== "no")
    return [
      benchStep({
        id: "switches.back",
        what: "Pull the pack before the controls go back to rest: there this craft is armed, or may be.",
        risk: "powered",
        check: CHECK,
      }),
    ];
  const last = moves.at(-1)!;
  const isArmed = last.armed !== "no";
  const arming = moves.findLast((move, i) => move.armed !== "no" && (moves[i - 1] ?? start).armed === "no");
  const first = isArmed && arming && away.has(arming.name) ? arming : null;
  return [
    benchStep({
      id: "switches.back",
      what: first
        ? asSentence(
            `${words.moved(first.name, first.from)}${away.size > 1 ? " first, then put all others back at rest" : ""}`,
          )
        : "Put every control back at rest.",
      expect: sentences(isArmed && "It disarms.", onInWords(view, start, undecided)),
      risk: isArmed ? armedRisk(view) : "powered",
      check: CHECK,
    }),
  ];
}

function startStep(view: BenchView, tour: Tour, words: ControlWords): BenchStep {
  const { start } = tour;
  const places = Object.entries(start.positions).map(([name, at]) => words.stands(name, at));
  const isArmed = start.armed !== "no";
  return benchStep({
    id: "switches.rest",
    what: asSentence(`put every control at rest: ${joinWithAnd(places)}`),
    expect: onInWords(view, start, tour.undecided),
    caution: isArmed
      ? `With every control at rest this craft ${start.armed === "yes" ? "is" : "may be"} armed: expect that the motors turn as soon as it has power.`
      : null,
    risk: isArmed ? armedRisk(view) : "powered",
    check: CHECK,
    picture: "switches",
    from: start.on.flatMap((name) => modeLines(view, name)),
  });
}

/** “Level on, and nothing else.” */
function onInWords({ craft }: BenchView, { on, possible }: TourStart, undecided: Tour["undecided"]): string {
  const known = craft.gaps.length > 0 ? " of what is known" : "";
  return sentences(
    on.length === 0
      ? `Nothing${known} is on.`
      : asSentence(`${joinWithAnd(on.map(shortName))} on, and nothing else${known}`),
    undecidedInWords(possible, undecided),
  );
}

/** Controls that spring back and are held meanwhile, as in “, with PB held”. */
function stillHeld({ start, moves }: Tour, at: number, words: ControlWords): string {
  const held = new Map<string, string | number>();
  const own = moves[at]!.name;
  for (const { name, to } of moves.slice(0, at)) {
    if (to === start.positions[name]) held.delete(name);
    else held.set(name, to);
  }
  held.delete(own);
  const told = [...held].filter(([name]) => words.springs(name)).map(([name, to]) => words.stands(name, to));
  return told.length === 0 ? "" : `, with ${joinWithAnd(told)}`;
}

function changeInWords(move: TourMove, before: TourMove | TourStart, undecided: Tour["undecided"]): string {
  const isOff = (name: string) => !move.on.includes(name) && !move.possible.includes(name);
  const off = [...move.goesOff, ...before.possible].filter(isOff);
  const parts = [
    ...(move.comesOn.length > 0 ? [`${joinWithAnd(move.comesOn.map(shortName))} on`] : []),
    ...(off.length > 0 ? [`${joinWithAnd(off.map(shortName))} off`] : []),
  ];
  const opened = move.possible.filter((name) => !before.possible.includes(name));
  if (parts.length === 0 && opened.length === 0) return NO_CHANGE;
  return sentences(
    parts.length > 0 && asSentence(`${parts.join(", ")}; all else as before`),
    undecidedInWords(opened, undecided),
  );
}

/** “lights on or off, as ch9 decides.” */
function undecidedInWords(names: readonly string[], undecided: readonly UndecidedMode[]): string | null {
  if (names.length === 0) return null;
  return names
    .map((name) => {
      const channels = undecided.find((each) => each.name === name)?.channels ?? [];
      const why =
        channels.length > 0
          ? `as ${joinWithAnd(channels.map((channel) => `ch${channel}`))} decides`
          : "as the position arrives over a channel of two levels";
      return asSentence(`${shortName(name)} on or off, ${why}`);
    })
    .join(" ");
}

/** What the tour does not show, and why. */
function noteUnseen(view: BenchView, board: Switchboard, tour: Tour, words: ControlWords): void {
  const reasons = new Map<string, string[]>();
  for (const name of tour.unknown) {
    // Of what only a missing file may say nothing is told here: that it is missing is.
    if (!modeNamed(view.whole, name)) continue;
    const why = unknownInWords(name, board.tangles.get(name), view.craft.gaps.length > 0);
    reasons.set(why, [...(reasons.get(why) ?? []), `“${shortName(name)}”`]);
  }
  for (const [why, names] of reasons)
    view.unknown(`When ${joinWithAnd(names)} ${names.length === 1 ? "is" : "are"} on is not known: ${why}.`);
  for (const name of tour.never)
    view.unknown(`No position of the controls turns “${shortName(name)}” on, so nothing here can show it.`);
  for (const { name, unseen, channels } of tour.undecided) {
    const seen = unseen === "both" ? "on or off" : unseen;
    const others = channels.filter((channel) => !words.isMoved(`ch${channel}`));
    view.unknown(
      others.length > 0
        ? `No control of the handset shows “${shortName(name)}” ${seen}: it hangs on ${joinWithAnd(others.map((channel) => `ch${channel}`))}, which none of them drives. Write a control for the channel into the handset.`
        : `Nothing shows “${shortName(name)}” ${seen}: it hangs on a middle position on a channel that carries two levels only.`,
    );
  }
}

function linesOf(view: BenchView, { name, comesOn, goesOff }: TourMove): readonly Source[] {
  const control = view.craft.controls.get(name)?.source;
  return [...[...comesOn, ...goesOff].flatMap((mode) => modeLines(view, mode)), ...(control ? [control] : [])];
}

function modeLines(view: BenchView, name: string): readonly Source[] {
  return modeNamed(view.craft, name)?.lines.map(({ source }) => source) ?? [];
}
