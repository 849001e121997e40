/** Tabs whose answer stays live, in a fake editor: what they ask, when, what is written from them and taken back. */
import { beforeEach, describe, expect, test, vi } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";

vi.mock("vscode", () => import("./fake-editor.ts"));

const { asked, extension, fakePanel } = await import("./fake-editor.ts");
const { comparisonTabs } = await import("../../client/src/comparison-tab.ts");
const { fleetTab, WHOLE_FLEET } = await import("../../client/src/fleet-tab.ts");
const { reviewTabs } = await import("../../client/src/review-tab.ts");
const { lastMade } = await import("../../client/src/undo-made.ts");

const jug = asUri("file:///shed/jug.fettle");
const other = { kind: "file", uri: asUri("file:///shed/mug.fettle") } as const;
const result = { kind: "differences", mine: { name: "Jug" }, theirs: { name: "Mug" }, rows: [], notes: [] };
const requests: [string, unknown][] = [];
let answer: (method: string) => unknown = () => result;
const parts = {
  extension: extension as never,
  ask: async <T>(method: string, params: unknown) => {
    requests.push([method, params]);
    return answer(method) as T;
  },
  log: vi.fn(),
  openPlace: vi.fn(async () => undefined),
};
const comparisons = comparisonTabs(parts, async () => undefined);
const reviews = reviewTabs(parts);
const open = () => {
  comparisons.open({ toString: () => jug } as never, other);
  return asked.opened.at(-1)!;
};
const fleets = fleetTab(parts);
/** Until a change was heard, and answered. */
const refreshed = async () => {
  vi.useFakeTimers();
  fleets.changed();
  await vi.advanceTimersByTimeAsync(250);
  vi.useRealTimers();
  await settled();
};
const settled = () => new Promise((resolve) => setTimeout(resolve));

beforeEach(() => {
  for (const panel of asked.opened.splice(0)) (panel as unknown as { dispose(): void }).dispose();
  requests.length = 0;
  parts.log.mockClear();
  answer = () => result;
});

describe("a comparison", () => {
  test("asks once its page is there, is named after both sides, and is opened once for the same two", async () => {
    const tab = open();
    expect(requests).toEqual([]);
    await tab.send({ kind: "ready" });
    await settled();
    expect(requests).toEqual([["fettle/compare", { uri: jug, other }]]);
    expect(tab.posted).toEqual([
      { kind: "about", about: { mine: jug, other } },
      { kind: "result", result },
    ]);
    expect(tab.title).toBe("Jug | Mug");
    expect(open()).toBe(tab);
    expect(asked.opened.length).toBe(1);
  });

  test("has the keyboard once its page is there, unless something else was gone to meanwhile", async () => {
    const focused = () => asked.ran.filter(([command]) => command === "runCommands").length;
    asked.ran.length = 0;
    const tab = open();
    expect(focused()).toBe(0);
    await tab.send({ kind: "ready" });
    expect(focused()).toBe(1);
    // A page that comes back later was not asked for.
    await tab.send({ kind: "ready" });
    expect(focused()).toBe(1);
    await tab.send({ kind: "run", action: "swap" });
    const other = asked.opened.at(-1)!;
    other.active = false;
    await other.send({ kind: "ready" });
    expect(focused()).toBe(1);
  });

  test("is asked for again after a pause in the changes, and only while it is in sight", async () => {
    vi.useFakeTimers();
    try {
      const tab = open();
      comparisons.changed();
      comparisons.changed();
      await vi.advanceTimersByTimeAsync(150);
      expect(requests).toEqual([]);
      comparisons.changed();
      await vi.advanceTimersByTimeAsync(250);
      expect(requests.length).toBe(1);
      tab.visible = false;
      comparisons.changed();
      await vi.advanceTimersByTimeAsync(250);
      expect(requests.length).toBe(1);
    } finally {
      vi.useRealTimers();
    }
  });

  test("says that it is out of date where the server does not answer, and why nothing is taken", async () => {
    const tab = open();
    answer = () => {
      throw new Error("no server");
    };
    await tab.send({ kind: "ready" });
    await settled();
    expect(tab.posted.at(-1)).toEqual({ kind: "failed" });
    await tab.send({ kind: "take", whats: ["modes.arm"] });
    expect(tab.posted.at(-1)).toEqual({ kind: "failed" });
    expect(parts.log).toHaveBeenCalledTimes(2);
    answer = () => ({ kind: "refused", message: "The script is read-only." });
    await tab.send({ kind: "take", whats: ["modes.arm"] });
    expect(tab.posted.at(-1)).toEqual({ kind: "told", told: { message: "The script is read-only.", undo: false } });
  });

  test("leads to lines, pages, and to the same two the other way round", async () => {
    const tab = open();
    await tab.send({ kind: "open", at: { file: jug, line: 3 } });
    expect(parts.openPlace).toHaveBeenCalledWith({ file: jug, line: 3 });
    asked.ran.length = 0;
    await tab.send({ kind: "explain", of: "mode/arm" });
    await tab.send({ kind: "run", action: "overlay" });
    expect(asked.ran).toEqual([
      ["fettle.showPage", "mode/arm"],
      ["fettle.overlay", { mine: jug, other }],
    ]);
    await tab.send({ kind: "run", action: "swap" });
    await asked.opened.at(-1)!.send({ kind: "ready" });
    expect(requests.at(-1)).toEqual(["fettle/compare", { uri: other.uri, other: { kind: "file", uri: jug } }]);
  });

  test("comes back with the editor; a second one, and one that does not know what it is about, do not", async () => {
    const restore = async (state: unknown) => {
      const panel = fakePanel("fettle.comparison", "Comparison");
      await asked.tabs.get("fettle.comparison")!.deserializeWebviewPanel(panel, state);
      asked.opened.push(panel);
      return panel;
    };
    const restored = await restore({ about: { mine: jug, other }, kept: [] });
    expect(restored.isDisposed).toBe(false);
    await restored.send({ kind: "ready" });
    expect(requests).toEqual([["fettle/compare", { uri: jug, other }]]);
    expect((await restore({ about: { mine: jug, other } })).isDisposed).toBe(true);
    expect((await restore(undefined)).isDisposed).toBe(true);
  });
});

describe("a review", () => {
  const choice = { chosen: null, mapping: {}, into: null, dialect: "" };
  const review = { kind: "review", mine: { name: "Jug" }, theirs: { name: "The pasted text" }, targets: [], into: jug };

  test("asks with what the page chose, the last choice last", async () => {
    reviews.open({ mine: jug, offer: other, purpose: "review" });
    const tab = asked.opened.at(-1)!;
    answer = () => review;
    void tab.send({ kind: "ready", choice });
    void tab.send({ kind: "choose", choice: { ...choice, chosen: ["modes.arm"] } });
    void tab.send({ kind: "choose", choice: { ...choice, chosen: ["modes.arm", "pack.warn-at"] } });
    await settled();
    const chosen = requests.map(([method, params]) => [method, (params as typeof choice).chosen]);
    expect(chosen).toEqual([
      ["fettle/review", null],
      ["fettle/review", ["modes.arm", "pack.warn-at"]],
    ]);
    expect(requests[0]![1]).toEqual({ uri: jug, offer: other, purpose: "review", ...choice });
    expect(tab.title).toBe("Review: Jug");
  });

  test("says why nothing is adopted", async () => {
    reviews.open({ mine: jug, offer: other, purpose: "carry" });
    const tab = asked.opened.at(-1)!;
    answer = () => ({ ...review, adopt: { kind: "refused", message: "Nothing is chosen." } });
    await tab.send({ kind: "ready", choice });
    await settled();
    expect(tab.title).toBe("The pasted text to Jug");
    await tab.send({ kind: "adopt", choice, whats: ["modes.arm"] });
    expect(tab.posted.at(-1)).toEqual({ kind: "told", told: { message: "Nothing is chosen.", undo: false } });
  });
});

test("the fleet is sent where it is another than before, and anew after a failure", async () => {
  fleets.open(WHOLE_FLEET);
  const tab = asked.opened.at(-1)!;
  answer = () => ({ id: "1", fleet: { craft: [] } });
  await tab.send({ kind: "ready" });
  await settled();
  expect(tab.posted.at(-1)).toEqual({ kind: "result", result: { craft: [] } });
  const posted = tab.posted.length;
  answer = () => ({ id: "1", fleet: null });
  await refreshed();
  expect(tab.posted.length).toBe(posted);
  answer = () => null;
  await refreshed();
  expect(tab.posted.at(-1)).toEqual({ kind: "failed" });
  await refreshed();
  expect(requests.map(([, params]) => (params as { known: string | null }).known)).toEqual([null, "1", "1", null]);
});

test("the fleet is sent whole to a page that began anew while the one before it was still to be answered", async () => {
  fleets.open(WHOLE_FLEET);
  const tab = asked.opened.at(-1)!;
  answer = () => ({ id: "1", fleet: { craft: [] } });
  await tab.send({ kind: "ready" });
  await settled();
  let unchanged = (_: unknown) => {};
  answer = () => new Promise((resolve) => (unchanged = resolve));
  await refreshed();
  answer = () => ({ id: "1", fleet: { craft: [] } });
  // The page was hidden, and is shown again.
  await tab.send({ kind: "ready" });
  const posted = tab.posted.length;
  unchanged({ id: "1", fleet: null });
  await settled();
  expect(tab.posted.slice(posted)).toEqual([{ kind: "result", result: { craft: [] } }]);
  expect(requests.map(([, params]) => (params as { known: string | null }).known)).toEqual([null, "1", null]);
});

test("what was written is taken back only where nothing was changed since", async () => {
  const document = { uri: jug, version: 4, isClosed: false };
  const keyboard = { giveBack: vi.fn(async () => undefined), answered: () => undefined };
  const last = lastMade();
  const made = { kind: "made", documents: [{ document, version: 4 }] } as never;
  expect(await last.undo(keyboard)).toBeNull();
  expect(last.told(made, "Taken.")).toEqual({ message: "Taken.", undo: true });
  document.version = 5;
  expect((await last.undo(keyboard))?.message).toContain("changed since");
  expect(keyboard.giveBack).not.toHaveBeenCalled();
  last.told({ kind: "made", documents: [{ document, version: 5 }] } as never, "Taken.");
  expect(await last.undo(keyboard)).toBeNull();
  expect(keyboard.giveBack.mock.calls.length).toBe(1);
});
