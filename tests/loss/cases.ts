/** Craft that lose their signal: a title, lines of a craft on the handset Wheel, and below `=>` what is expected. */
import { readdirSync, readFileSync } from "node:fs";
import { inProject } from "../../.dev/say.mjs";

export interface LossCase {
  readonly title: string;
  readonly files: Readonly<Record<string, string>>;
  /** A course a line. */
  readonly expected: readonly string[];
}

const FOLDER = "tests/fixtures/signal-loss";

const WHEEL = `handset "Wheel"
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  KN dial ch9 1000 us to 2000 us
`;

const HABITS = `layer "Habits"
failsafe
  hold-for   1 s
  hold-with  level
  then       stop
`;

const SLIP = `layer "Slip"
link
  lost-after  300 ms
failsafe
  hold-for  1
  then      stop
`;

/** Every case of the folder; where a craft sets up no mode of its own, TL arms it. */
export function lossCases(): LossCase[] {
  return readdirSync(inProject(FOLDER))
    .sort()
    .flatMap((name) => readFileSync(inProject(FOLDER, name), "utf8").split(/^=== /m).slice(1))
    .map((text) => {
      const [head = "", expected = ""] = text.split("=>\n");
      const [title = "", ...lines] = head.trimEnd().split("\n");
      return { title, files: filesOf(lines), expected: expected.trim().split("\n") };
    });
}

/** `lines` as a craft, with what it uses; the craft stands first. */
export function filesOf(lines: readonly string[]): Record<string, string> {
  const uses = lines.filter((line) => line.startsWith("use "));
  const sections = lines.filter((line) => !line.startsWith("use "));
  const layer = sections.some((line) => /^ {2}(arm when|drop arm)/.test(line)) ? [] : ['use "layers/arms.fettle"'];
  return {
    "jug.fettle": ['craft "Jug"', 'use "wheel.fettle"', ...layer, ...uses, ...sections, ""].join("\n"),
    "wheel.fettle": WHEEL,
    "layers/habits.fettle": HABITS,
    "layers/slip.fettle": SLIP,
    "layers/arms.fettle": 'layer "Arms"\nmodes\n  arm when TL is down\n',
  };
}
