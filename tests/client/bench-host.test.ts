/** What the panel's pages say about the bench list, and what they are told. */
import { expect, test } from "vitest";
import { benchHost } from "../../client/src/bench-host.ts";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { BenchEditResult } from "../../shared/protocol/bench-edit.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import type { FromPanel, ToPanel } from "../../shared/protocol/panel-messages.ts";
import { localDay } from "../../shared/text/day.ts";

const JUG = asUri("file:///shed/jug.fettle");
const HABITS = asUri("file:///shed/habits.fettle");
const told = "Written: “motors-checked 2026-11-29”.";
const of = { uri: JUG, craft: undefined };

/** A host with two pages, on a server that gives this answer; what was said to each page and asked of the server. */
function host(answer: BenchEditResult | Error = { kind: "edits", files: [], told }) {
  const asked: unknown[] = [];
  const pages = { side: [] as ToPanel[], tab: [] as ToPanel[] };
  const side = { post: (message: ToPanel) => void pages.side.push(message) };
  const tab = { post: (message: ToPanel) => void pages.tab.push(message) };
  let refreshed = 0;
  const bench = benchHost({
    async ask<T>(method: string, params: unknown): Promise<T> {
      asked.push([method, params]);
      if (answer instanceof Error) throw answer;
      return (method === "fettle/benchReading" ? { kind: "unclear", message: "what?" } : answer) as T;
    },
    gestures: {
      async write(work) {
        const edits = await work();
        return edits.kind === "refused" ? edits : { kind: "made", documents: [] };
      },
    },
    log: () => undefined,
    post(message, except) {
      for (const page of [side, tab]) if (page !== except) page.post(message);
    },
    refresh: () => void refreshed++,
  });
  return { bench, asked, pages, side, tab, refreshed: () => refreshed };
}
const soon = () => new Promise((resolve) => setTimeout(resolve, 5));
const day: FromPanel = { kind: "bench", file: JUG, gesture: { kind: "day", check: "bench.motors-checked" } };

test("a check gets the day where the pilot is, and the page is told what was written", async () => {
  const { bench, asked, pages, side, refreshed } = host();
  bench.receive(day, side, of);
  await soon();
  const gesture = { kind: "day", check: "bench.motors-checked", day: localDay(new Date()) };
  expect(asked).toEqual([["fettle/benchEdit", { ...of, gesture }]]);
  expect(pages.side).toEqual([{ kind: "bench-told", name: "bench.motors-checked", message: told, isWritten: true }]);
  expect(pages.tab).toEqual([]);
  expect(refreshed()).toBe(1);
});

test("a day of one digit has two, also at the edge of a year", () => {
  expect(localDay(new Date(2026, 0, 5, 23, 59))).toBe("2026-01-05");
  expect(localDay(new Date(2026, 11, 31, 0, 1))).toBe("2026-12-31");
});

test.each<[string, BenchEditResult | Error, string]>([
  ["a refusal", { kind: "refused", message: "not so" }, "not so"],
  [
    "a server that fell over",
    new Error("gone"),
    "Nothing was written, since the language server does not answer: restart it, then try again.",
  ],
])("%s is told to the page that asked", async (_, answer, message) => {
  const { bench, pages, side } = host(answer);
  bench.receive(day, side, of);
  await soon();
  expect(pages.side).toEqual([{ kind: "bench-told", name: "bench.motors-checked", message, isWritten: false }]);
});

test("of a script that is not to be written nothing is asked", async () => {
  const { bench, asked, side } = host();
  bench.receive(day, side, undefined);
  await soon();
  expect(asked).toEqual([]);
});

test("a reading is tried for the page that types it", async () => {
  const { bench, pages, tab } = host();
  bench.receive({ kind: "bench-try", file: JUG, name: "bench.roll", typed: "988" }, tab, of);
  await soon();
  expect(pages.tab).toEqual([
    { kind: "bench-tried", name: "bench.roll", typed: "988", trial: { kind: "unclear", message: "what?" } },
  ]);
});

test("ticks go to the other page; a page that comes back gets the newest, and its own where nobody has any", () => {
  const { bench, pages, side, tab } = host();
  const looks = (ticked: string[]) => ({
    [JUG]: { ticks: Object.fromEntries(ticked.map((id) => [id, { said: "x", atMs: 1 }])), shown: null, folds: {} },
  });
  bench.receive({ kind: "bench-looks", looks: looks(["a"]), since: "before" }, side, undefined);
  expect(pages.side.at(-1)).toEqual({ kind: "bench-looks", looks: looks(["a"]) });
  bench.receive({ kind: "bench-looks", looks: looks(["a", "b"]), since: "now" }, side, undefined);
  expect(pages.tab).toEqual([{ kind: "bench-looks", looks: looks(["a", "b"]) }]);
  expect(pages.side).toHaveLength(1);
  bench.receive({ kind: "bench-looks", looks: looks(["old"]), since: "before" }, tab, undefined);
  expect(pages.tab.at(-1)).toEqual({ kind: "bench-looks", looks: looks(["a", "b"]) });
});

test("how much is shown is asked of the server anew, also of a layer by the craft that it is shown as part of", () => {
  const { bench, side, refreshed } = host();
  expect(bench.shown(HABITS)).toBeUndefined();
  bench.came({ file: HABITS, bench: { list: { file: JUG } } } as unknown as PanelModel);
  bench.receive(
    { kind: "bench-looks", looks: { [JUG]: { ticks: {}, shown: "all", folds: {} } }, since: "now" },
    side,
    undefined,
  );
  expect([bench.shown(JUG), bench.shown(HABITS), refreshed()]).toEqual(["all", "all", 1]);
  bench.receive(
    {
      kind: "bench-looks",
      looks: { [JUG]: { ticks: { a: { said: "x", atMs: 1 } }, shown: "all", folds: {} } },
      since: "now",
    },
    side,
    undefined,
  );
  expect(refreshed()).toBe(1);
});
