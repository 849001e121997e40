/** Craft, dialects and saved texts as text, with what is sent to the wiped board and set by hand below. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { dialectNamedBy, dialectsFitting, dialectsIn } from "../../../shared/dialect/dialects.ts";
import { benchMarkdown } from "../../../shared/ide/bench/bench-markdown.ts";
import { benchPage } from "../../../shared/ide/bench/bench-page.ts";
import { putBackList } from "../../../shared/ide/bench/put-back.ts";
import type { BenchList } from "../../../shared/protocol/bench.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

const DAY = "2026-11-29";

const DIALECTS = {
  "kiln.fettle": `dialect "Kiln"

text
  known-by  "fire up"
  opening   "fire up"
  closing   "let cool"
  repeats   "shelf"

codes
  does  words a arm, f level
  flue  number 0 to 11 from ch5
  load  words receiver receiver, video video, gps gps

ports
  "flue {n:1 to 8} to {l:load}"  port{n} {l}

motors
  "pilot light {i:0 to 20}"  idle {i} %

sensors
  "base turned {y:0 to 359}"  mount-yaw {y} deg

filters
  "glaze {c:0 to 900} in {o:1 to 4=1} coats"  smooth-d cut {c} Hz order {o}

modes
  "shelf {m:does} by {c:flue} {a:900 to 2100}..{b:900 to 2100}"  {m} when {c} in {a} us to {b} us

camera
  cannot all
`,
  "hall.fettle": `dialect "Hall"

text
  known-by  "great hall"
  heading   "wing {w}"

codes
  load  words receiver receiver, video video, gps gps
  frame  words pack-volts pack-volts
  end  words stop stop

ports
  under "wing east"
  "door {n:1 to 8} for {l:load}"  port{n} {l}

sensors
  under "wing east"
  "lamp turned {y:0 to 359}"  mount-yaw {y} deg

osd
  under "wing west"
  "wall {c:20 to 80} by {r:10 to 30}"        grid {c} x {r}
  "painting {e:frame} {c:0 to 79} {r:0 to 29}"  {e} at {c}, {r}

failsafe
  under "wing west"
  "fire {t:end}"  then {t}

gains
  cannot overall
`,
  "pair.fettle": `dialect "Pair"

board
  "edition seven"  text-edition "7"

sensors
  "both {y:0 to 359} and {c:1 to 12}"  mount-yaw {y} deg

pack
  "both {y} and {c}"  cells {c}
`,
  "again.fettle": `dialect "Again"

text
  known-by  "same again"
  opening   "same again"

codes
  store  words card card, flash flash

sensors
  "turn {y:0 to 359} for {s:store}"  mount-yaw {y} deg

recorder
  "turn {y} for {s}"  to {s}
  "store {s:store}"   to {s}
`,
};

interface Case {
  readonly title: string;
  readonly script: string;
  readonly saved: string | null;
  readonly expected: readonly string[];
}

const cases = readFileSync(inProject("tests/fixtures/put-back/kiln.txt"), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((text): Case => {
    const [head = "", expected = ""] = text.split("=>\n");
    const [given = "", saved] = head.split("--- saved.txt\n");
    const [title = "", ...lines] = given.trimEnd().split("\n");
    const uses = lines.filter((line) => line.startsWith("use "));
    const rest = lines.filter((line) => !line.startsWith("use "));
    const modes = rest.includes("modes") ? [] : ["modes", "  arm  when TL is down"];
    const script = ['craft "Jug"', 'use "wheel.fettle"', ...uses, ...modes, ...rest, ""].join("\n");
    return { title, script, saved: saved ?? null, expected: expected.trim().split("\n") };
  });

function listOf({ script, saved }: Case): BenchList {
  const workspace = workspaceOf({ "jug.fettle": script, "wheel.fettle": WHEEL, ...DIALECTS });
  const craft = workspace.craft("jug.fettle")!;
  const own = dialectNamedBy(workspace, craft);
  const reader = saved === null ? null : (dialectsFitting(dialectsIn(workspace), saved)[0] ?? null);
  return putBackList(craft, workspace, {
    dialect: own,
    saved: saved === null ? null : { text: saved, dialect: reader },
    day: DAY,
  });
}

/** What is not as a line expects it, in words; null where it is. */
function wrongIn(list: BenchList, line: string): string | null {
  const steps = list.phases.flatMap((phase) => phase.steps);
  const step = (id: string) => steps.find((each) => each.id === id);
  const at = (id: string) => steps.findIndex((each) => each.id === id);
  const words = (id: string) => [step(id)?.what, step(id)?.expect, step(id)?.caution].join(" ");
  const sent = steps.filter(({ lines }) => lines);
  const [, kind = "", name = "", text = ""] = /^([a-z]+)(?: ([^:]+))?(?:: (.*))?$/.exec(line) ?? [];
  switch (kind) {
    case "sends": {
      if (name === "nothing") return sent.length === 0 ? null : sent.map(({ id }) => id).join();
      if (name === "once")
        return sent.map(({ id }) => id).join() === "put-back.whole" ? null : sent.map(({ id }) => id).join();
      const id = name === "unread" ? "put-back.rest.unread" : `put-back.${name}.lines`;
      const lines = step(id)?.lines?.join(" | ");
      return lines === text ? null : `${lines}`;
    }
    case "hand": {
      const expected = step(`put-back.${name}`)?.expect ?? "nothing";
      return expected.startsWith(text.replace(/:$/, "")) ? null : expected;
    }
    case "says":
      return words(name).includes(text) ? null : words(name);
    case "not":
      return words(name).includes(text) ? words(name) : null;
    case "no":
      return step(name) ? `${name} is there` : null;
    case "before":
      return at(name) >= 0 && at(name) < at(text) ? null : `${at(name)} and ${at(text)}`;
    case "due": {
      const due = step(name)?.due;
      return due?.state === "due" && due.why.includes(text) ? null : JSON.stringify(due);
    }
    case "unknown":
      return list.unknown.some((each) => each.includes(text)) ? null : list.unknown.join(" ");
    case "never": {
      const back = steps.filter(({ id }) => id.startsWith("put-back.")).map((each) => JSON.stringify(each));
      const where = text.startsWith("hand ") ? back : [JSON.stringify(list)];
      return where.some((each) => each.includes(text.replace("hand ", ""))) ? `${text} is printed` : null;
    }
    default:
      return `no such expectation: ${line}`;
  }
}

test("there are many", () => {
  expect(cases.length).toBeGreaterThanOrEqual(38);
});

test.each(cases.map((each) => [each.title, each] as const))("%s", (_, given) => {
  const list = listOf(given);
  const wrong = given.expected.flatMap((line) => {
    const why = wrongIn(list, line);
    return why === null ? [] : [`${line} → ${why}`];
  });
  expect(wrong).toEqual([]);
});

test("lines of a board are shown as they are, and are no markup", () => {
  const list = listOf(cases.find(({ title }) => title === "a name that would be markup")!);
  const none = { osd: null, "osd-second": null, switches: null, motors: null };
  const page = benchPage(list, none);
  expect(page).toContain("&lt;img src=x onerror=alert(1)&gt; ``` ````\n");
  expect(page).not.toContain("<img src=x");
  expect(page).toContain("Put it back after a wipe");
  expect(benchMarkdown(list)).toContain(
    "\n  `````text\n  fire up\n  <img src=x onerror=alert(1)> ``` ````\n  let cool\n  `````\n",
  );
});
