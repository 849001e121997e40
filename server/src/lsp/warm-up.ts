/**
 * Typing before anybody types. An engine compiles well only what has run often, so the first keys of
 * a session would take several times as long as those after them. A craft of our own is typed in and
 * checked as a pilot's is, and in the end looked at, in the background, while the editor sends no requests.
 * It is opened as soon as the editor's first request is answered: what has run once makes the first real
 * answer a third as long.
 */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { completionsAt } from "../../../shared/ide/completion/complete.ts";
import { hoverAt } from "../../../shared/ide/hover/hover.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { debounce } from "./debounce.ts";
import { diagnosticsOf } from "./diagnostics.ts";
import { makeDocuments } from "./documents.ts";
import { makeOutlines } from "./outline.ts";
import { isSlicing } from "./slices.ts";
import { pause } from "./timers.ts";

/** Longer than between two messages of an editor that is busy, shorter than between two keys. */
const SILENCE_MS = 60;
/** Lets a message in between two keys, each of which takes a few milliseconds. */
const BREATH_MS = 2;
/** More make no measurable difference. */
const KEYS = 50;
/** Code that has met one set of documents is compiled for that one alone, and for any once it has met a second. */
const TIMES = 3;

const CRAFT = "/warm-up/tankard.fettle";
/** Looked at first: whoever asks for something at once does not wait long for it. */
const MUG = `craft "Mug"

pack
  warn-at  3.5 V/cell
`;
const texts = {
  [CRAFT]: `craft "Tankard"

use "wheel.fettle"
use "habits.fettle"

pack
  chemistry  lipo
  cells      6
  capacity   1100 mAh
  warn-at    3.5 V/cell  # under load
  land-at    3.3 V/cell

# the old ones
pack "Shelf"
  capacity   1000 mAh

modes
  recorder  when arm

osd
  grid          53 x 20
  pack-volts    at left+3, bottom-2
  link-quality  at right-3, top+2
  flight-time   at right-3, bottom-2
  alerts        at centre, top+2

verbatim "kiln"
  | row 1 = 37
`,
  "/warm-up/habits.fettle": `layer "Habits"

motors
  poles       14
  esc-signal  digital
  reversible  yes

rates
  roll   slope 120 deg/s  end 720 deg/s
  pitch  slope 120 deg/s  end 720 deg/s

filters
  smooth-gyro  cut 250 Hz  order 2

modes
  # arm is always the left shoulder switch, pulled down
  arm       when TL is down
  level     when TR is mid or KN above 1600 us
  turtle    when TR is down and not SL is down
  finder    when PB is held
`,
  "/warm-up/wheel.fettle": `handset "Wheel"

transmitter
  band   2.4 GHz
  power  100 mW

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  SL  switch  ch7  up 1000 us  mid 1500 us  down 2000 us
  PB  button  ch9  rest 1000 us  held 2000 us
  KN  dial    ch10 1000 us to 2000 us
`,
};
/** In “3.5 V/cell” of `warn-at`, where one more digit is found to be too much. */
const IN_MUG = { line: 3, character: 12 };
const AT = { line: 9, character: 14 };
/** In the name of the same line. */
const NAME = { line: 9, character: 4 };
const IN_HEADER = { line: 0, character: 14 };

/** Gives for a connection what to call with every message: after the first the warm-up begins, and in the silence after any it goes on. */
export type MakeWarmUp = (failed: (error: unknown) => void) => () => void;

/**
 * The warm-up of one process: what is compiled serves every connection of it, so the first one alone
 * begins it. `keys` goes one key further each time. What goes wrong in it is told to `failed`, and is
 * its end.
 */
export function warmUpOnce(keys = rehearse): MakeWarmUp {
  let begun = false;
  return (failed) => {
    if (begun) return () => {};
    begun = true;
    let left: AsyncGenerator<number> | null = null;
    let over = false;
    let breathMs = SILENCE_MS;
    const step = async () => {
      // A message is quiet while its answer is being worked out.
      if (isSlicing()) return later(BREATH_MS);
      over = (await left!.next()).done === true;
      if (!over) later(breathMs);
      breathMs = BREATH_MS;
    };
    const go = () => {
      step().catch((error) => {
        over = true;
        failed(error);
      });
    };
    const later = debounce(go, SILENCE_MS);
    return () => {
      if (over) return;
      if (left) return later();
      left = keys();
      // An answer is written a turn after it is given: it is gone when the first step begins, which no message puts off.
      void pause().then(() => pause().then(go));
    };
  };
}

/** The warm-up of this process. */
export const makeWarmUp = warmUpOnce();

/**
 * Goes through all keys, one a step, and gives how many findings there are after each. A craft that says everything
 * comes last: what of the rules is compiled for it is kept for the next start, whose first script may be as long.
 */
export async function* rehearse(): AsyncGenerator<number> {
  yield* type({ [CRAFT]: MUG }, 1, IN_MUG, () => {});
  for (let i = 1; i < TIMES; i++) yield* type(texts, KEYS, AT, () => {});
  yield* type(texts, KEYS, AT, lookAround());
  yield* type({ [CRAFT]: everySetting() }, 1, IN_HEADER, () => {});
}

/** A craft with the example of every setting that has one, and with a named pack that says what a pack can. */
function everySetting(): string {
  const { sections, settingsOf } = makeCatalogue();
  const block = (heading: string, section: string) => [
    "",
    heading,
    ...settingsOf(section).flatMap(({ name, example }) => (example === undefined ? [] : `  ${name}  ${example}`)),
  ];
  const plain = sections.filter(({ holds }) => holds === "settings").flatMap(({ name }) => block(name, name));
  return ['craft "Tankard"', ...plain, ...block('pack "Shelf"', "pack"), ""].join("\n");
}

/** Gives what asks for all that an editor shows of the place at which is typed. */
function lookAround(): (now: Workspace) => void {
  const outlineOf = makeOutlines();
  return (now) => {
    const script = now.script(CRAFT)!;
    for (const at of [NAME, AT]) {
      hoverAt(now, CRAFT, at);
      completionsAt(now, CRAFT, at);
    }
    outlineOf(script, now.catalogue);
  };
}

/** Types a digit, removes it again, and so on; `look` is called after each. */
async function* type(
  texts: Readonly<Record<string, string>>,
  keys: number,
  at: typeof AT,
  look: (now: Workspace) => void,
): AsyncGenerator<number> {
  const files = memoryFiles(texts);
  const documents = makeDocuments({
    read: async (path) => ({ answer: files.read(path)!, realPath: path }),
    list: async () => ({ paths: files.list(), cut: false }),
  });
  const uri = documents.uriOf(CRAFT);
  documents.open(uri, "fettle", 0, texts[CRAFT]!);
  for (let version = 1; version <= keys; version++) {
    const isDigit = version % 2 === 1;
    const range = { start: at, end: isDigit ? at : { ...at, character: at.character + 1 } };
    documents.change(uri, [{ range, text: isDigit ? "3" : "" }], version);
    const { diagnostics } = await diagnosticsOf(documents, uri, () => null);
    look(documents.now());
    yield diagnostics.length;
  }
}
