/** What a hand does on a page, drawn at random: presses, drags, keys, what is typed, and more than one of it at a time. */
import type { Page } from "playwright-core";
import type { Random } from "../../fire/random.ts";
import { wear } from "../panel-page.ts";

interface Target {
  /** What it is and is called, for who reads a failure. */
  readonly name: string;
  readonly kind: "text" | "number" | "select" | "range" | "drawn" | "other";
  readonly x: number;
  readonly y: number;
}

const KEYS = [
  ..."Tab Shift+Tab ArrowLeft ArrowRight ArrowUp ArrowDown Shift+ArrowLeft Shift+ArrowDown Control+ArrowUp".split(" "),
  ..."Alt+ArrowRight Enter Space Escape Home End PageUp PageDown Delete Backspace a c l r s + - Control+z".split(" "),
  ..."Control+Shift+z Control+y Meta+z Control+Home Control+End".split(" "),
];
const ARROWS = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Shift+ArrowUp", "Shift+ArrowLeft"];
const TYPED = [
  "",
  "volt",
  "sight",
  "12",
  "3.7 V",
  "1500 us",
  "yes",
  "<b>",
  "“\u202e",
  "999999999999",
  "-1",
  "a b, c",
  "#",
  "2026-03-15",
];

/** What is done in the midst of a drag: by the same hand, or by another. */
export type Meanwhile = () => Promise<string>;

/** Does something on the page; gives it in words. */
export async function gesture(page: Page, random: Random, meanwhile: Meanwhile): Promise<string> {
  const target = await findTarget(page, random);
  if (!target) return "nothing there";
  const { name, kind } = target;
  const act = random.below(10);
  if (kind === "text" || kind === "number") return `type ${await type(page, random, kind)} in ${name}`;
  if (kind === "select" && act < 6) {
    await page.evaluate(chooseOption, random.below(100));
    return `choose in ${name}`;
  }
  if (kind === "drawn" && act < 5) return `drag ${name} ${await drag(page, random, target, meanwhile)}`;
  if (act < 6) {
    await page.mouse.click(target.x, target.y);
    return `press ${name}`;
  }
  if (act === 6) {
    await page.mouse.dblclick(target.x, target.y);
    return `press ${name} twice`;
  }
  if (act === 7) {
    await page.mouse.move(target.x, target.y);
    if (random.onceIn(2)) await page.mouse.wheel(0, random.between(-300, 300));
    return `turn the wheel over ${name}`;
  }
  await page.evaluate(() => (window as unknown as Targeted).target?.focus());
  const keys = random.some(random.between(1, 5), () =>
    random.oneOf(kind === "drawn" || kind === "range" ? [...ARROWS, ...ARROWS, ...KEYS] : KEYS),
  );
  for (const key of keys) await page.keyboard.press(key);
  return `${keys.join(" ")} on ${name}`;
}

/** Gives the page another size or another theme. */
export async function changeLooks(page: Page, random: Random): Promise<string> {
  if (random.onceIn(3)) {
    const theme = random.oneOf(["light", "dark", "high-contrast", "high-contrast-light"] as const);
    await wear(page, theme);
    return `the ${theme} theme`;
  }
  const size = { width: random.oneOf([180, 300, 420, 700, 1200]), height: random.oneOf([300, 800]) };
  await page.setViewportSize(size);
  return `${size.width} by ${size.height}`;
}

async function type(page: Page, random: Random, kind: "text" | "number"): Promise<string> {
  await page.evaluate(() => (window as unknown as Targeted).target?.focus());
  const text = kind === "number" ? String(random.between(-3, 70)) : random.oneOf(TYPED);
  await page.keyboard.press("Control+a");
  if (text === "") await page.keyboard.press("Delete");
  else await page.keyboard.insertText(text);
  const after = random.oneOf(["Enter", "Enter", "Escape", "Tab", null]);
  if (after) await page.keyboard.press(after);
  return `${JSON.stringify(text)} ${after ?? ""}`;
}

async function drag(page: Page, random: Random, { x, y }: Target, meanwhile: Meanwhile): Promise<string> {
  const done: string[] = [];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let left = random.between(1, 4); left > 0; left--) {
    const far = random.onceIn(5) ? 900 : 120;
    await page.mouse.move(x + random.between(-far, far), y + random.between(-far, far), {
      steps: random.between(1, 3),
    });
    // A frame, in which the movement is drawn.
    await page.clock.runFor(20);
    const happens = random.below(12);
    if (happens === 0) {
      await page.keyboard.press("Escape");
      done.push("Escape");
    } else if (happens === 1) done.push(await meanwhile());
    else if (happens === 2) {
      await page.keyboard.press(random.oneOf(KEYS));
      done.push("a key");
    }
  }
  if (random.onceIn(6)) await page.mouse.down({ button: "right" }).then(() => page.mouse.up({ button: "right" }));
  await page.mouse.up();
  return done.length > 0 ? `(meanwhile ${done.join(", ")})` : "";
}

interface Targeted {
  target?: HTMLElement;
}

/** Finds what can be used, takes one of it, and brings it into sight. */
async function findTarget(page: Page, random: Random): Promise<Target | null> {
  const found = await page.evaluate(
    ({ at, drawn }) => {
      const usable = (each: Element) => {
        const { width, height } = each.getBoundingClientRect();
        return width > 0 && height > 0 && !(each as HTMLButtonElement).disabled;
      };
      const all = (selector: string) => [...document.querySelectorAll<HTMLElement>(selector)].filter(usable);
      const shapes = all("[data-element], [data-motor][role], [role=radio], [data-knob]");
      const others = all("button, input, select, summary, [role=slider], [tabindex], [role=tab]");
      const list = drawn && shapes.length > 0 ? shapes : others;
      if (list.length === 0) return null;
      const chosen = list[at % list.length]!;
      Object.assign(window, { target: chosen });
      chosen.scrollIntoView({ block: "center", behavior: "instant" });
      const box = chosen.getBoundingClientRect();
      const type = (chosen as HTMLInputElement).type;
      const kind = shapes.includes(chosen)
        ? "drawn"
        : chosen.tagName === "SELECT"
          ? "select"
          : type === "range" || chosen.getAttribute("role") === "slider"
            ? "range"
            : chosen.tagName === "INPUT" && (type === "text" || type === "search")
              ? "text"
              : type === "number"
                ? "number"
                : "other";
      const words = chosen.getAttribute("aria-label") ?? chosen.textContent ?? "";
      return {
        name: `${chosen.tagName.toLowerCase()} ${words.trim().slice(0, 40)}`,
        kind: kind as "text" | "number" | "select" | "range" | "drawn" | "other",
        x: box.x + box.width / 2,
        y: box.y + box.height / 2,
      };
    },
    { at: random.below(10_000), drawn: random.onceIn(2) },
  );
  return found;
}

function chooseOption(at: number): void {
  const { target } = window as unknown as Targeted;
  if (!(target instanceof HTMLSelectElement)) return;
  const options = [...target.options].filter(({ disabled }) => !disabled);
  target.value = options[at % options.length]!.value;
  target.dispatchEvent(new Event("change", { bubbles: true }));
}
