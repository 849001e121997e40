import { expect, test } from "vitest";
import { benchPage, type SheetPictures } from "../../../shared/ide/bench/bench-page.ts";
import type { BenchList } from "../../../shared/protocol/bench.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { hostileTexts } from "../../hostile-texts.ts";
import { tagsOf, wordsOf } from "../print/html.ts";
import { listOf, phase, reading, richList, step, WARNING } from "./hand-made-lists.ts";

const none: SheetPictures = { osd: null, "osd-second": null, switches: null, motors: null };
const picture = (words: string, ...svgs: string[]) => ({
  svgs: svgs.length > 0 ? svgs : ["<svg/>"],
  stands: "beside" as const,
  note: words,
  words,
});

/** The words below the title, without what every sheet says. */
const body = (list: BenchList, pictures = none) => wordsOf(benchPage(list, pictures)).replace(/^.*?by /, "");

test("the warning stands once, before every step", () => {
  const words = body(richList());
  expect(words.startsWith(WARNING)).toBe(true);
  expect(words.split(WARNING)).toHaveLength(2);
});

test("each step stands once: a box and a number, what to do, and what to see then", () => {
  const list = richList();
  const html = benchPage(list, none);
  const steps = list.phases.flatMap((each, index) =>
    each.steps.map((one, at) => ({ ...one, number: `${index + 1}.${at + 1}` })),
  );
  const items = html.split(/(?=<div class="step)/).slice(1);
  expect(items.map((item) => /data-step="([^"]*)"/.exec(item)?.[1])).toEqual(steps.map(({ id }) => id));
  items.forEach((item, index) => {
    const { what, expect: seen, number, due } = steps[index]!;
    expect(wordsOf(item).startsWith(`${number} `)).toBe(true);
    expect(wordsOf(item)).toContain(what);
    if (due.state === "done") return;
    expect(wordsOf(item)).toContain(seen ?? "");
    // A screen reader says both at the box.
    const [, box, described] = /<input type="checkbox" id="([^"]*)"(?: aria-describedby="([^"]*)")?>/.exec(item)!;
    expect(item).toContain(`<label for="${box}">`);
    expect(described).toBe(seen === null ? undefined : `see-${number}`);
    if (described) expect(item).toContain(`id="${described}"`);
  });
});

test("what is done has its day in place of a box, and neither readings nor a picture", () => {
  const done = step("sticks.roll", "Move roll.", {
    due: { state: "done", day: "2026-03-15" },
    check: "bench.roll",
    expect: "978 us",
    readings: [reading("bench.roll", "both ends")],
    picture: "osd",
  });
  const html = benchPage(listOf([phase("sticks", "Sticks", [done, step("sticks.yaw", "Move yaw.")])]), {
    ...none,
    osd: picture("a picture"),
  });
  expect(wordsOf(html)).toContain("1.1 Move roll. done 2026-03-15 1.2 Move yaw.");
  expect(html).not.toContain("<img");
  expect(html.match(/<input type="checkbox"/g)).toHaveLength(1);
  expect(wordsOf(html)).toContain("2 steps, 1 of them done and still good.");
});

test("a reading has what is expected, what the script has, and a line to write on with a name of its own", () => {
  const html = benchPage(
    listOf([
      phase("sticks", "Sticks", [
        step("sticks.roll", "Move roll.", {
          readings: [
            reading("bench.roll", "both ends of roll", { expected: "978 us to 2022 us", text: "990 us to 2010 us" }),
            reading("bench.centres", "middle", { form: "1500 us" }),
          ],
        }),
      ]),
    ]),
    none,
  );
  expect(wordsOf(html)).toContain(
    "both ends of roll expected 978 us to 2022 us; the script has 990 us to 2010 us such as 988 us to 2012 us",
  );
  expect(wordsOf(html)).toContain("middle such as 1500 us");
  expect(html).toContain('aria-description="such as 1500 us"');
});

test("a change is told once, and only of a check that had a day", () => {
  const changed = { state: "due", why: "“mount-yaw” changed." } as const;
  const never = { state: "due", why: "No day is written." } as const;
  const steps = ["a", "b"].flatMap((id) => [
    step(`mount.${id}`, `Tilt ${id}.`, { due: changed, check: "bench.mount-checked" }),
    step(`meter.${id}`, `Read ${id}.`, { due: never, check: "bench.meter-checked" }),
  ]);
  const list = listOf([phase("mount", "Mount", steps)], {
    checks: [
      { name: "bench.mount-checked", title: "mount", due: changed, at: { file: "x", line: 3 } },
      { name: "bench.meter-checked", title: "meter", due: never, at: null },
    ],
  });
  const [above, days] = body(list).split("Days to write into “bench”");
  expect(above!.match(/“mount-yaw” changed/g)).toHaveLength(1);
  expect(above).not.toContain("No day is written");
  expect(days).toBe(" Check Line Day mount mount-checked “mount-yaw” changed. meter meter-checked");
});

test("a picture is drawn in the part that first uses it, and named in those after; without one nothing is said", () => {
  const list = listOf([
    phase("switches", "Switches", [
      step("s.1", "TL up", { picture: "switches" }),
      step("s.2", "TL down", { picture: "switches" }),
    ]),
    phase("arming", "Arming", [step("a.1", "Arm", { picture: "switches" }), step("a.2", "Look", { picture: "osd" })]),
  ]);
  const html = benchPage(list, { ...none, switches: picture("TL at rest", "<svg>1</svg>", "<svg>2</svg>") });
  expect(html.match(/<img [^>]*>/g)).toEqual([
    '<img src="data:image/svg+xml,%3Csvg%3E1%3C/svg%3E" alt="TL at rest">',
    '<img src="data:image/svg+xml,%3Csvg%3E2%3C/svg%3E" alt="">',
  ]);
  expect(html.indexOf("<img")).toBeLessThan(html.indexOf("s.1"));
  expect(wordsOf(html).match(/Its picture stands at part 1 \./g)).toHaveLength(1);
  expect(wordsOf(html)).not.toContain("OSD");
});

test("it asks the network for nothing, and runs nothing", () => {
  const html = benchPage(richList(), { ...none, osd: picture("words") });
  expect(html).toContain(
    `content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"`,
  );
  expect(html).not.toMatch(/<script|<link|url\(|https?:|\son[a-z]+=/i);
});

/** A list in which every text is this one. */
function filled(text: string): BenchList {
  const place = { file: text, line: 1 };
  const due = { state: "due", why: text } as const;
  return {
    craft: text,
    file: text,
    warning: text,
    phases: [
      {
        name: text,
        title: text,
        how: text,
        steps: [
          step(text, text, {
            expect: text,
            caution: text,
            due,
            check: text,
            readings: [{ name: text, what: text, form: text, expected: text, text, at: place }],
            picture: "osd",
          }),
          step(text, text, { due: { state: "done", day: text } }),
        ],
      },
    ],
    checks: [{ name: text, title: text, due, at: place }],
    unknown: [text],
  };
}

test.each(hostileTexts.map((text) => [text.slice(0, 40), text]))("%j stays text wherever it stands", (_, text) => {
  const pageOf = (words: string) => benchPage(filled(words), { ...none, osd: picture(words, words) });
  const html = pageOf(text);
  expect(tagsOf(html)).toEqual(tagsOf(pageOf("plain")));
  const once = visibleText(text).replaceAll(/\s+/g, " ").trim();
  // Whole in every place but the title, which says the beginning of a long name.
  if (once.length > 3) expect(wordsOf(html).split(once).length - 1).toBeGreaterThanOrEqual(15);
});
