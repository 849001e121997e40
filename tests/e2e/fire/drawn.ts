/**
 * What a page draws, held to a fresh page that was given the same model and the same kept state. What is by nature a
 * page's own is first made the same on both (what is pressed, unfolded, typed, chosen) or left out (focus, names that
 * are counted up, what was just said).
 */
import type { Page } from "playwright-core";
import type { Frame } from "./page-in-view.ts";

/** What a page shows of its own accord, apart from what it keeps. */
interface Own {
  readonly pressed: readonly string[];
  readonly expanded: readonly string[];
  readonly unfolded: readonly string[];
  readonly typed: readonly string[];
  readonly element: string | null;
  readonly motor: string | null;
}

/** What a fresh page last drew, and of what: of the same it draws the same, which most gestures leave as it was. */
const latest = new WeakMap<Frame, { readonly of: string; readonly text: string }>();

/** Where both pages differ, in words; null where they do not. */
export async function differenceFromFresh(
  shown: Frame,
  fresh: Frame,
  html: string,
  told: readonly unknown[],
): Promise<string | null> {
  await atRest(shown.page);
  const [kept, size, looks] = [await shown.kept(), shown.page.viewportSize(), await looksOf(shown.page)];
  const own = await shown.page.evaluate(ownOf);
  const leaveOut = own.element === null ? [".chosen"] : [];
  const is = await textOf(shown.page, leaveOut);
  // How far a page is scrolled is in no drawing.
  const of = JSON.stringify([html, kept?.replace(/"scrollTop":[\d.]+/, ""), size, looks, own, told]);
  if (latest.get(fresh)?.of !== of) {
    if (size) await fresh.page.setViewportSize(size);
    await fresh.load(html, kept);
    await fresh.page.evaluate(wearLooks, looks);
    await fresh.post(told);
    await painted(fresh.page);
    for (let rounds = 0; rounds < 4 && (await fresh.page.evaluate(makeOwn, own)); rounds++) await atRest(fresh.page);
    latest.set(fresh, { of, text: await textOf(fresh.page, leaveOut) });
  }
  const ought = latest.get(fresh)!.text;
  return is === ought ? null : firstDifference(is, ought);
}

/** Lets the page draw what it was told, and what it draws by the sizes that came of that. */
async function painted(page: Page): Promise<void> {
  await page.clock.runFor(30);
  // Sizes are told with a frame of the browser's own, whatever the clock of the page says.
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const observer = new ResizeObserver(() => {
          observer.disconnect();
          resolve();
        });
        observer.observe(document.body);
      }),
  );
  await page.clock.runFor(30);
}

/** Nothing has the keyboard or the pointer, and nothing is under way. */
async function atRest(page: Page): Promise<void> {
  await page.mouse.move(0, 0);
  const hasGrid = await page.evaluate(() => {
    const cell = document.querySelector<HTMLElement>('[data-at][tabindex="0"]');
    // The cell that the keyboard reaches is drawn wherever it is.
    cell?.dispatchEvent(new KeyboardEvent("keydown", { key: "Home", ctrlKey: true, bubbles: true }));
    return cell !== null;
  });
  if (hasGrid) await painted(page);
  await page.evaluate(() => {
    for (const box of document.querySelectorAll(".fleet-grid")) box.scrollTo(0, 0);
    (document.activeElement as HTMLElement | null)?.blur();
  });
  await page.clock.fastForward(2_000);
  await painted(page);
}

function ownOf(): Own {
  const named = (selector: string, is: (each: HTMLElement) => boolean) => {
    const all = [...document.querySelectorAll<HTMLElement>(selector)];
    return all.flatMap((each, index) => (is(each) ? [`${index} ${each.textContent?.slice(0, 40)}`] : []));
  };
  return {
    pressed: named("button[aria-pressed]", (each) => each.getAttribute("aria-pressed") === "true"),
    expanded: named("button[aria-expanded]", (each) => each.getAttribute("aria-expanded") === "true"),
    unfolded: named("details", (each) => (each as HTMLDetailsElement).open),
    typed: [
      ...document.querySelectorAll<HTMLInputElement>("input[type=text], input[type=search], input[type=number]"),
    ].map(({ value }) => value),
    element: document.querySelector(".goggles-view .chosen b")?.textContent ?? null,
    motor: document.querySelector<HTMLElement>("[data-motor][data-chosen]")?.dataset.motor ?? null,
  };
}

/** Makes it so on this page as well, as a hand would; true where anything was to be done. */
function makeOwn(own: Own): boolean {
  let isChanged = false;
  const change = (act: () => void) => {
    isChanged = true;
    act();
  };
  const each = (selector: string, wanted: readonly string[], isOn: (one: HTMLElement) => boolean) => {
    const all = [...document.querySelectorAll<HTMLElement>(selector)];
    all.forEach((one, index) => {
      if (wanted.includes(`${index} ${one.textContent?.slice(0, 40)}`) === isOn(one)) return;
      if (one instanceof HTMLDetailsElement) change(() => one.toggleAttribute("open"));
      else change(() => one.click());
    });
  };
  each("button[aria-pressed]", own.pressed, (one) => one.getAttribute("aria-pressed") === "true");
  each("button[aria-expanded]", own.expanded, (one) => one.getAttribute("aria-expanded") === "true");
  each("details", own.unfolded, (one) => (one as HTMLDetailsElement).open);
  const inputs = document.querySelectorAll<HTMLInputElement>(
    "input[type=text], input[type=search], input[type=number]",
  );
  [...inputs].forEach((input, index) => {
    const value = own.typed[index];
    if (value === undefined || value === input.value) return;
    change(() => {
      input.value = value;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
  });
  const focus = (selector: string, isThere: () => boolean) => {
    const found = document.querySelector<HTMLElement>(selector);
    if (found && !isThere()) change(() => found.focus());
  };
  if (own.element !== null)
    focus(
      `[data-element="${own.element}"]`,
      () => document.querySelector(".goggles-view .chosen b")?.textContent === own.element,
    );
  if (own.motor !== null)
    focus(
      `[data-motor="${own.motor}"][role]`,
      () => document.querySelector<HTMLElement>("[data-motor][data-chosen]")?.dataset.motor === own.motor,
    );
  return isChanged;
}

interface Looks {
  readonly root: string;
  readonly body: string;
  readonly className: string;
}
const looksOf = (page: Page): Promise<Looks> =>
  page.evaluate(() => ({
    root: document.documentElement.style.cssText,
    body: document.body.style.cssText,
    className: document.body.className,
  }));
function wearLooks({ root, body, className }: Looks): void {
  document.documentElement.style.cssText = root;
  document.body.style.cssText = body;
  document.body.className = className;
}

/** Said once, or a reading that is shown only while it is looked for. */
const SAID =
  "[role=status]:not(.state), [aria-live], .overlay, .moving-note, .moving-amiss, .lens, .reading-hint, .read-out, .bench-bar";

/** The page as lines of text: an element a line, with its attributes, and what stands in fields. */
function textOf(page: Page, leaveOut: readonly string[]): Promise<string> {
  return page.evaluate(
    ({ skipped, counted }) => {
      const lines: string[] = [];
      const walk = (node: Node, depth: number) => {
        if (node.nodeType === Node.TEXT_NODE) {
          if (node.nodeValue !== "") lines.push(`${" ".repeat(depth)}${node.nodeValue}`);
          return;
        }
        if (!(node instanceof Element) || node.matches(skipped)) return;
        if (node.tagName === "P" && node.textContent === "Back to the bench list") return;
        const isChart = node.matches(".read-chart");
        const attributes = [...node.attributes]
          .filter(
            ({ name, value }) => !counted.includes(name) && value !== "" && !(isChart && name.startsWith("aria-value")),
          )
          .map(({ name, value }) => `${name}=${value}`)
          .sort();
        const field = node as HTMLInputElement;
        if (node.tagName === "INPUT" || node.tagName === "SELECT")
          attributes.push(`is=${field.value} ${field.checked}`);
        lines.push(`${" ".repeat(depth)}<${node.tagName.toLowerCase()} ${attributes.join(" ")}>`);
        for (const child of node.childNodes) walk(child, depth + 1);
      };
      walk(document.querySelector("#panel")!, 0);
      return lines.join("\n");
    },
    {
      skipped: [SAID, ...leaveOut].join(),
      counted: [
        "tabindex",
        "id",
        "for",
        "aria-describedby",
        "aria-labelledby",
        "data-over",
        "value",
        "data-untouched",
        "aria-invalid",
        "open",
      ],
    },
  );
}

function firstDifference(is: string, ought: string): string {
  const [a, b] = [is.split("\n"), ought.split("\n")];
  const at = a.findIndex((line, index) => line !== b[index]);
  const from = Math.max(0, at < 0 ? a.length : at);
  return `line ${from} of the page, after ${a[from - 1]}\n  drawn: ${a.slice(from, from + 3).join(" | ")}\n  fresh: ${b.slice(from, from + 3).join(" | ")}`;
}
