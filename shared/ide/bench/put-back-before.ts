/** Before and while a board is flashed: what is kept, what is written down, and what the day of it makes void. */
import type { Dialect } from "../../dialect/dialect.ts";
import { readBoard } from "../../dialect/read/read-board.ts";
import { writeBoard } from "../../dialect/write/write-board.ts";
import type { BenchCheckState, BenchPhase, BenchReading, BenchStep } from "../../protocol/bench.ts";
import { BENCH_CHECKS } from "../../rules/lib/bench-checks.ts";
import { joinWithAnd, joinWithOr } from "../../text/list.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";
import { STAGES } from "./put-back-stages.ts";
import { NO_PACK } from "./put-back-steps.ts";
import { isSaidBy, type Said } from "./put-back-values.ts";

/** What was saved of the board before, if anything. */
export interface SavedText {
  readonly text: string;
  /** What reads it; null where no dialect of the workspace does. */
  readonly dialect: Dialect | null;
}

/** Names in a sentence: as many as one reads. */
const MOST_NAMED = 12;

export function beforePhase(
  view: BenchView,
  said: readonly Said[],
  { saved, day }: Pick<FlashParts, "saved" | "day">,
  safety: readonly BenchStep[],
): BenchPhase {
  return {
    name: "put-back-before",
    title: "Before the wipe",
    how: "What is wiped already cannot be saved any more: go on with the new software then.",
    steps: [
      ...safety,
      saveStep(view, saved),
      editionStep(view, day),
      motorsStep(view),
      secretStep(view),
      learnedStep(view, said),
    ],
  };
}

function saveStep(view: BenchView, saved: SavedText | null): BenchStep {
  return benchStep({
    id: "put-back.before.text",
    what: "Save all of the board's own text in a file, and hold it against the script.",
    expect: saved ? savedInWords(view, saved) : NOT_SAVED,
    caution: NO_PACK,
    risk: "powered",
    from: view.from("board.text", "board.dialect"),
  });
}

const NOT_SAVED =
  "What the board has and the script does not say is only in that file then. Where a dialect is known, fettle board read tells both apart; name the file in the script (“text” of section “board”).";

/** What of the saved text the script does not say, or says otherwise. */
function savedInWords(view: BenchView, { text, dialect }: SavedText): string {
  const names = `The script names a text that was saved (“text” of section “board”): save over it, so that it is of today.`;
  if (!dialect) return `${names} No dialect of this workspace reads it.`;
  const { whole: craft, workspace } = view;
  const { lines } = readBoard(dialect, text, { workspace, handset: null, craft });
  const unsaid = new Set<string>();
  for (const { state, says } of lines)
    for (const each of state === "read" ? says : []) {
      const [section = "", name = ""] = each.split(" ");
      if (!isSaidBy(view, section, name)) unsaid.add(`${section}.${name}`);
    }
  const others = differing(view, text, dialect).filter((name) => !unsaid.has(name));
  const kept = new Set(craft.kept.filter((each) => each.dialect === dialect.name).map((each) => each.text.trim()));
  const unread = lines.filter(
    ({ state, line }) => state !== "read" && state !== "idle" && !kept.has(lineOf(text, line)),
  );
  return sentences(
    names,
    others.length > 0 && `Text and script differ in ${namesInWords(others)}: see which of the two is right.`,
    unsaid.size > 0 && `Only the text says ${namesInWords([...unsaid])}.`,
    unread.length > 0 &&
      `${unread.length === 1 ? "One line" : `${unread.length} lines`} of it nobody reads, and the script does not keep: fettle board read puts such lines into it.`,
    unsaid.size + unread.length + others.length === 0 && "As it stands, the script has all that it says.",
  );
}

/** What the text says otherwise once the craft is written onto it; how a board rounds makes no difference by that. */
function differing({ whole: craft, workspace }: BenchView, text: string, dialect: Dialect): string[] {
  const valuesIn = (of: string): ReadonlyMap<string, string> => {
    const values = new Map<string, string>();
    for (const { state, says } of readBoard(dialect, of, { workspace, handset: null, craft }).lines)
      for (const each of state === "read" ? says : []) {
        const [section = "", name = ""] = each.split(" ");
        values.set(`${section}.${name}`, `${values.get(`${section}.${name}`) ?? ""}\n${each}`);
      }
    return values;
  };
  const after = valuesIn(writeBoard(dialect, craft, workspace, text).text);
  return [...valuesIn(text)].flatMap(([name, value]) => (after.has(name) && after.get(name) !== value ? [name] : []));
}

function lineOf(text: string, line: number): string {
  return (text.split(/\r\n|\r|\n/)[line] ?? "").trim();
}

function namesInWords(names: readonly string[]): string {
  const told = names.slice(0, MOST_NAMED);
  const more = names.length - told.length;
  return joinWithAnd([...told, ...(more > 0 ? [`${more} more`] : [])]);
}

function editionStep(view: BenchView, day: string): BenchStep {
  const [edition, flashed] = [view.text("board.text-edition"), view.text("board.flashed-on")];
  return benchStep({
    id: "put-back.before.edition",
    what: "Write down which software the board runs, with its edition, and keep a copy of it: that is the way back.",
    expect: sentences(
      edition !== null && `The script has text-edition ${quoted(edition)}.`,
      // The day of the new software says nothing of the one that is on the board now.
      flashed !== null && flashed !== day && `It was written on ${flashed}.`,
    ),
    risk: "powered",
    from: view.from("board.text-edition", "board.flashed-on", "board.model"),
  });
}

function motorsStep(view: BenchView): BenchStep {
  const motors = [...(view.craft.settings.get("motors") ?? [])].filter(
    ([name, { text }]) => /^motor\d$/.test(name) && text !== "",
  );
  return benchStep({
    id: "put-back.before.motors",
    what: "Write down of each motor its corner, its direction and its output, as the craft flies with them now.",
    expect: sentences(
      motors.length === 0
        ? "The script says nothing of single motors: write “motor1” and the others in section “motors”."
        : `The script has ${motors.map(([name, { text }]) => `${name} ${text.replaceAll(/ {2,}/g, " ")}`).join("; ")}.`,
      "A direction may be kept in a speed controller instead, and no text of the board has that.",
    ),
    risk: "powered",
    from: motors.map(([, { source }]) => source),
  });
}

function secretStep(view: BenchView): BenchStep {
  const isKnown = view.said("link.pair-secret") !== null;
  return benchStep({
    id: "put-back.before.secret",
    what: "Look up what pairs handset and receiver, such as a phrase or a number that both have.",
    expect: isKnown
      ? "The script has it (pair-secret); it is not printed here."
      : "The script does not have it: a receiver on the board may lose it, and then is bound anew.",
    risk: "unpowered",
    from: view.from("link.pair-secret", "link.receiver"),
  });
}

/** What the board was taught or told of this one craft. */
const LEARNED = [
  "sensors.level-trim-roll",
  "sensors.level-trim-pitch",
  "pack.divider-top",
  "pack.divider-bottom",
  "pack.shunt",
  "pack.shunt-gain",
  "pack.shunt-offset",
] as const;

function learnedStep(view: BenchView, said: readonly Said[]): BenchStep {
  const known = LEARNED.flatMap((name) => {
    const text = view.text(name);
    return text === null ? [] : [`${name} ${text}`];
  });
  const silent = STAGES.filter(({ name }) => !said.some(({ stage }) => stage === name));
  return benchStep({
    id: "put-back.before.learned",
    what: "Write down what was calibrated: trims of level, the scale of the meters, what the board learned of its compass.",
    expect: sentences(
      known.length > 0 && `The script has ${known.join("; ")}.`,
      silent.length > 0 &&
        `The script says nothing of ${joinWithAnd(silent.map(({ title }) => `“${title}”`))}: what the board has there is lost unless it is written down.`,
    ),
    risk: "powered",
    from: view.from(...LEARNED),
  });
}

// --- The new software -------------------------------------------------------------------

export interface FlashParts {
  readonly day: string;
  readonly checks: readonly BenchCheckState[];
  /** In which the board's lines are written. */
  readonly dialect: Dialect | null;
  readonly saved: SavedText | null;
}

export function flashPhase(view: BenchView, { day, checks, dialect, saved }: FlashParts): BenchPhase {
  return {
    name: "put-back-flash",
    title: "The new software",
    how: null,
    steps: [
      benchStep({
        id: "put-back.flash.write",
        what: "Write the new software to the board, and let nothing break it off.",
        expect: "The board starts by itself, with all that it has to be told at its defaults.",
        caution: NO_PACK,
        risk: "powered",
        from: view.from("board.model"),
      }),
      benchStep({
        id: "put-back.flash.day",
        what: `Write into section “board” of the script: flashed-on ${day}.`,
        expect: sentences(dayInWords(view, day), voidInWords(checks, day)),
        risk: "unpowered",
        readings: [reading(view, "flashed-on", { what: "day of the new software", form: day, expected: null })],
        from: view.from("board.flashed-on"),
      }),
      benchStep({
        id: "put-back.flash.edition",
        what: "Save the text that the board gives now, before anything is sent, and read its edition.",
        expect: editionInWords(view, dialect, saved),
        risk: "powered",
        readings: [
          reading(view, "text-edition", {
            what: "edition of the board's text",
            form: view.text("board.text-edition") ?? '"4"',
            expected: null,
          }),
        ],
        from: view.from("board.text-edition", "board.dialect"),
      }),
    ],
  };
}

function reading(view: BenchView, name: string, parts: Pick<BenchReading, "what" | "form" | "expected">): BenchReading {
  const setting = view.said(`board.${name}`);
  return {
    name: `board.${name}`,
    ...parts,
    text: setting?.text ?? null,
    at: setting ? { file: setting.source.file, line: setting.source.line } : null,
  };
}

function dayInWords(view: BenchView, day: string): string | null {
  const own = view.text("board.flashed-on");
  if (own === day) return "It says so already.";
  // A day as it is written sorts as days do.
  return own !== null && own > day ? `The script has a later day, ${own}: one of the two is a slip.` : null;
}

function voidInWords(checks: readonly BenchCheckState[], day: string): string {
  const resting = new Set<string>(BENCH_CHECKS.flatMap((each) => (each.restsOnSoftware ? [each.name] : [])));
  const of = (isIt: (state: BenchCheckState) => boolean) =>
    checks.filter((state) => resting.has(state.name) && state.at !== null && isIt(state)).map(({ title }) => title);
  const gone = of(({ due }) => due.state === "due");
  const sameDay = of(({ due }) => due.state === "done" && due.day >= day);
  return sentences(
    gone.length > 0
      ? `What was seen on the old software no longer holds: ${joinWithAnd(gone)}.`
      : "No check that rests on the board's software has an older day.",
    sameDay.length > 0 &&
      `As no older stands: ${joinWithAnd(sameDay)}; a day does not say which of the two came first, so check again what was checked before the wipe.`,
  );
}

function editionInWords(view: BenchView, dialect: Dialect | null, saved: SavedText | null): string {
  const own = view.text("board.text-edition");
  const known = dialect ? editionsOf(dialect) : [];
  const differs = own !== null && known.length > 0 && !known.includes(plain(own));
  const moved = dialect !== null && saved?.dialect != null && saved.dialect.name !== dialect.name;
  const fits = dialect?.text.knownBy.map((each) => `“${each}”`) ?? [];
  return sentences(
    dialect === null && "No dialect of this board is known, so all is set by hand below.",
    fits.length > 0 && `The lines below are of “${dialect?.name}”, whose text has ${joinWithOr(fits)} in it.`,
    moved &&
      `The saved text is of another one, “${saved.dialect?.name}”: fettle board move tells what becomes of each of its lines.`,
    differs &&
      `The script has text-edition ${quoted(own)}, and the dialect is of ${joinWithAnd(known.map((each) => `“${each}”`))}: lines may not fit, so look at each.`,
    own === null
      ? "The script does not say which edition it was made for."
      : !differs &&
          `With another one than ${quoted(own)} lines may no longer fit: look at each, and see fettle board move.`,
  );
}

/** The editions that a dialect is of, where its lines say one and no other. */
function editionsOf({ meanings }: Dialect): string[] {
  return meanings.flatMap(({ section, right }) =>
    section === "board" && right.name.join("") === "text-edition" && right.value.kind === "constant"
      ? [plain(right.value.text)]
      : [],
  );
}

function plain(text: string): string {
  return text.replace(/^"(.*)"$/, "$1");
}

function quoted(text: string): string {
  return `“${plain(text)}”`;
}
