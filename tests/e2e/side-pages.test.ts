/** The pages of a comparison and of a review by themselves, over hand-made results. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { CompareResult } from "../../shared/protocol/compare.ts";
import type { FromComparison, ToComparison } from "../../shared/protocol/compare-messages.ts";
import type { ReviewResult } from "../../shared/protocol/review.ts";
import type { FromReview, ToReview } from "../../shared/protocol/review-messages.ts";
import { carried, differences, type Review, review } from "./hand-made-sides.ts";
import { pageViolations, screenshot, type Theme, themes } from "./looks.ts";
import { openPage, type PageByItself, wear } from "./panel-page.ts";

const size = { width: 980, height: 900 };
const mine = asUri("file:///shed/craft/tankard.fettle");
const jug = { kind: "file", uri: asUri("file:///shed/craft/jug.fettle") } as const;

let comparison: PageByItself<ToComparison, FromComparison>;
let reviewed: PageByItself<ToReview, FromReview>;
beforeAll(async () => {
  comparison = await openPage("comparison", size);
  reviewed = await openPage("review", size);
  await comparison.post({ kind: "about", about: { mine, other: jug } });
  await reviewed.post({ kind: "about", about: { mine, offer: jug, purpose: "review" } });
});
afterAll(async () => {
  await comparison?.close();
  await reviewed?.close();
});

const focused = (side: { page: PageByItself<never, never>["page"] }) =>
  side.page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.id);

describe("a comparison", () => {
  // A page behind another one is painted once a second.
  beforeAll(() => comparison.page.bringToFront());
  const compare = (result: CompareResult) => comparison.post({ kind: "result", result });
  const button = (name: string) => comparison.page.getByRole("button", { name, exact: true });
  const rows = () => comparison.page.locator("section [data-row]");

  test("says that it waits for the first answer", async () => {
    await comparison.page.getByRole("heading", { level: 1, name: "Comparing…" }).waitFor();
    expect(await pageViolations(comparison.page, "all rules")).toEqual([]);
  });

  test("stands riskiest first, each difference in words with both sides and the ways to their lines", async () => {
    await compare(differences);
    await comparison.posted();
    expect(await comparison.page.getByRole("heading", { level: 1 }).textContent()).toBe(
      "Tankard beside Tankard at HEAD",
    );
    expect(await comparison.page.getByRole("heading", { level: 2 }).allTextContents()).toEqual([
      "High risk: 2",
      "Medium risk: 3",
      "Low risk: 2",
    ]);
    expect(await rows().count()).toBe(7);
    await button("when TR is down, the line of Tankard at HEAD").click();
    await button("Explain modes.arm").click();
    await button("Explain pack/Winter.warn-at").click();
    await button("Take theirs: remove it: outputs.tail-lamp").click();
    await button("Take these 2").first().click();
    await button("Text beside text").click();
    expect(await comparison.posted()).toEqual([
      { kind: "open", at: differences.rows[0]!.theirsAt },
      { kind: "explain", of: "mode/arm" },
      { kind: "explain", of: "setting/pack.warn-at" },
      { kind: "take", whats: ["outputs.tail-lamp"] },
      { kind: "take", whats: ["pack/Winter.warn-at", "outputs.tail-lamp"] },
      { kind: "run", action: "native-diff" },
    ]);
    // What cannot be taken says why, and has no button for it.
    expect(
      await rows().filter({ hasText: "belongs to the handset" }).getByRole("button", { name: /Take/ }).count(),
    ).toBe(0);
  });

  test("is gone through by arrow keys; where the row with the keyboard goes, the next one has it", async () => {
    await button("Take theirs: modes.arm").focus();
    await comparison.page.keyboard.press("ArrowDown");
    expect(await focused(comparison)).toBe("Take theirs: failsafe.hold-for");
    await comparison.page.keyboard.press("End");
    expect(await focused(comparison)).toBe("Take theirs: osd.pack-volts");
    await comparison.page.keyboard.press("Home");
    await button("Take theirs: modes.arm").focus();
    await compare({ ...differences, rows: differences.rows.slice(1) });
    expect(await focused(comparison)).toBe("Take theirs: failsafe.hold-for");
    // Of the controls of a list only those of one row are stops of Tab.
    const stops = comparison.page.locator("section.low :is(button, a)[tabindex='0']");
    expect(await stops.count()).toBe(5);
    await compare(differences);
  });

  test("keeps what was decided, until the difference is another one", async () => {
    await button("Keep mine: modes.arm").click();
    await comparison.page
      .getByText("6 differences: 1 of high risk, 3 of medium risk, 2 of low risk. One more is kept as here.")
      .waitFor();
    await comparison.page.getByText("Kept as it is on Tankard: 1").click();
    await screenshot(comparison.page, "comparison-kept");
    const [arm, ...others] = differences.rows;
    await compare({ ...differences, rows: [{ ...arm!, theirs: "when TR is mid" }, ...others] });
    await comparison.page.getByText("7 differences").waitFor();
    // It was another one for a moment: what is decided is folded again.
    await compare(differences);
    await comparison.page.getByText("Kept as it is on Tankard: 1").click();
    await button("Decide again: modes.arm").click();
    await comparison.page.getByText("7 differences").waitFor();
  });

  test("tells what was written with the way back, that nothing differs, and why there is nothing", async () => {
    await comparison.posted();
    await comparison.post({ kind: "told", told: { message: "Taken from there: modes.arm.", undo: true } });
    await button("Undo").click();
    expect(await comparison.posted()).toEqual([{ kind: "undo" }]);
    await comparison.post({ kind: "told", told: null });
    await compare({ ...differences, rows: [], notes: [] });
    await comparison.page.getByText("No difference: both set up the same craft.").waitFor();
    await comparison.post({ kind: "failed" });
    await button("Restart it").click();
    await compare({ kind: "refused", message: "There is no such revision." });
    await button("Compare with something else…").click();
    expect(await button("Restart it").count()).toBe(0);
    expect(await comparison.posted()).toEqual([
      { kind: "run", action: "restart-server" },
      { kind: "run", action: "compare-other" },
    ]);
    await compare(differences);
  });
});

describe("a review", () => {
  beforeAll(() => reviewed.page.bringToFront());
  const show = (result: ReviewResult) => reviewed.post({ kind: "result", result });
  const button = (name: string) => reviewed.page.getByRole("button", { name, exact: true });
  const box = (name: string) => reviewed.page.getByRole("checkbox", { name });
  /** What was chosen in the messages since the last call, the last of them. */
  const choice = async () => {
    const last = (await reviewed.posted()).findLast(({ kind }) => kind === "choose");
    return last?.kind === "choose" ? last.choice : undefined;
  };

  test("has what is dangerous first, what is the same folded, and shows what does not show", async () => {
    await show(review);
    await reviewed.posted();
    expect(await reviewed.page.locator(".group :is(h2, summary)").allTextContents()).toEqual([
      "Dangerous: 2",
      "Differs: 3",
      "Not understood: 1",
      "The same here: 2",
    ]);
    await reviewed.page.getByText("Not what it seems: one character").waitFor();
    await reviewed.page.getByText("arm when SA is high‹U+202E right-to-left override›").waitFor();
    await reviewed.page
      .getByText("With 2 lines adopted: one new finding, one old one gone, one old one left.")
      .waitFor();
    expect(await box("warn-at is lower").isChecked()).toBe(true);
    expect(await box("arm moves").isChecked()).toBe(false);
  });

  test("says so where nothing is left to adopt; what is dangerous is called no matter of taste", async () => {
    const [arm, ...others] = review.rows;
    await show({ ...review, rows: [{ ...arm!, nature: "taste" }, ...others] });
    expect(await reviewed.page.locator(".fact-name").first().textContent()).not.toContain("taste");
    await show({ ...review, ...settled });
    await reviewed.page.getByText("Nothing differs: all that it says is so on Tankard already.").waitFor();
    await reviewed.page.getByRole("button", { name: "Nothing to adopt" }).waitFor();
    await show({ ...review, rows: [{ ...arm!, notTaken: "it belongs to the handset." }] });
    await reviewed.page.getByText("Nothing of it can be adopted.").waitFor();
    await show(review);
  });

  test("is chosen from row by row and group by group; hardware is not in all that is taste", async () => {
    await box("arm moves").check();
    expect((await choice())?.chosen).toEqual(["pack.warn-at", "osd.flight-time", "modes.arm"]);
    await button("Differs: choose all").click();
    expect((await choice())?.chosen).toEqual(["modes.arm", "pack.warn-at", "pack.capacity", "osd.flight-time"]);
    await button("Differs: choose all that is taste").click();
    expect((await choice())?.chosen).toEqual(["modes.arm", "pack.warn-at", "osd.flight-time"]);
    await button("Dangerous: choose none").click();
    await button("Adopt 2 lines").click();
    await button("Adopt this one: motors.idle").click();
    const adopted = (await reviewed.posted()).filter(({ kind }) => kind === "adopt");
    expect(adopted.map((message) => message.kind === "adopt" && [message.whats, message.choice.chosen])).toEqual([
      [
        ["pack.warn-at", "osd.flight-time"],
        ["pack.warn-at", "osd.flight-time"],
      ],
      [["motors.idle"], ["motors.idle"]],
    ]);
    await reviewed.post({ kind: "adopted", whats: ["motors.idle", "pack.warn-at"] });
    expect((await choice())?.chosen).toEqual(["osd.flight-time"]);
  });

  test("asks which control stands for theirs, where it is written, and which board's text is kept", async () => {
    await reviewed.page.getByRole("combobox", { name: "SA becomes" }).selectOption("TL");
    expect((await choice())?.mapping).toEqual({ SA: "TL" });
    await reviewed.page.getByRole("combobox", { name: "into" }).selectOption("layer habits");
    expect((await choice())?.into).toBe(review.targets[1]!.uri);
    await show({ ...review, into: review.targets[1]!.uri });
    await reviewed.page.getByText("This also changes Jug and Saucer.").waitFor();
    await box("No section, setting").check();
    await reviewed.page.getByRole("textbox", { name: "text of the board" }).fill("kiln");
    expect((await choice())?.dialect).toBe("kiln");
  });

  test("adopts nothing that is refused, and says why", async () => {
    await show({ ...review, adopt: { kind: "refused", message: "Two lines set warn-at: choose one." } });
    await reviewed.page.getByText("Two lines set warn-at: choose one.").waitFor();
    const adopt = reviewed.page.getByRole("button", { name: /^Adopt \S+ lines?$/ });
    expect(await adopt.getAttribute("aria-disabled")).toBe("true");
    await reviewed.posted();
    await adopt.press("Enter");
    expect(await reviewed.posted()).toEqual([]);
  });

  test("leads from a finding to its row, and from what is to be measured to its line", async () => {
    await show(carried);
    await button("one new finding").click();
    expect(await focused(reviewed)).toBe("result");
    await button("From osd.flight-time").click();
    await expect.poll(() => focused(reviewed)).toBe("row-osd.flight-time");
    await reviewed.posted();
    await button("Where it goes: bench.roll").click();
    expect(await reviewed.posted()).toEqual([{ kind: "open", at: carried.measure[0]!.at }]);
  });

  test("says what it is if it is no script", async () => {
    await show({
      kind: "no-script",
      looksLike: "This looks like a table. Copy the lines of the script alone.",
      hidden: review.hidden,
    });
    await reviewed.page.getByRole("heading", { name: "This is no script" }).waitFor();
    await reviewed.posted();
    await button("Look into the clipboard again").click();
    expect(await reviewed.posted()).toEqual([{ kind: "run", action: "clipboard" }]);
  });
});

/** What is left where all of it was adopted. */
const settled = {
  rows: review.rows.filter((row) => row.class === "same"),
  warnings: [],
  hidden: [],
  mapping: [],
  findings: [],
};
const told = { kind: "told", told: { message: "Adopted into Tankard: 2 lines.", undo: true } };
const noScript: ReviewResult = { kind: "no-script", looksLike: "This looks like a table.", hidden: review.hidden };

const long: Review = {
  ...review,
  rows: review.rows.map((row) => ({
    ...row,
    written: `${row.written}${"x".repeat(200)}`,
    mine: row.mine && "y".repeat(200),
  })),
};

interface Shown {
  readonly name: string;
  readonly side: unknown;
  readonly result: CompareResult | ReviewResult;
  /** What is posted after the result. */
  readonly also?: unknown;
}

test.each(Object.keys(themes) as Theme[])("both suit the %s theme, also narrow", async (theme) => {
  const shown: Shown[] = [
    { name: "comparison", side: comparison, result: differences },
    { name: "review", side: reviewed, result: review },
    // What else there is in them has the same colours.
    ...(theme === "light"
      ? [
          { name: "no-difference", side: comparison, result: { ...differences, rows: [], notes: [] }, also: told },
          { name: "out-of-date", side: comparison, result: differences, also: { kind: "failed" } },
          { name: "carry", side: reviewed, result: carried },
          { name: "long", side: reviewed, result: long },
          { name: "no-script", side: reviewed, result: noScript },
          { name: "adopted", side: reviewed, result: { ...review, ...settled }, also: told },
        ]
      : []),
  ];
  for (const { name, side, result, also } of shown) {
    const { page, post } = side as PageByItself<unknown, unknown>;
    await page.bringToFront();
    await post({ kind: "told", told: null });
    await post({ kind: "result", result });
    if (also) await post(also);
    await page.setViewportSize(size);
    await wear(page, theme);
    await page.evaluate(() => {
      document.documentElement.style.background = "var(--vscode-editor-background)";
    });
    expect(await pageViolations(page, theme === "light" ? "all rules" : "contrast"), name).toEqual([]);
    await screenshot(page, `${name}-${theme}`);
    if (theme !== "light") continue;
    for (const width of [490, 250]) {
      await page.setViewportSize({ width, height: 700 });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide, `${name} at ${width}`).toBeLessThanOrEqual(width);
    }
    await screenshot(page, `${name}-narrow`);
  }
  expect([...comparison.errors, ...reviewed.errors]).toEqual([]);
});
