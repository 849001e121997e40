/**
 * The editor driven by keys alone, and how long a person would take for it by the keystroke-level model: K = 0.28 s for
 * each key (an average typist), M = 1.35 s for each decision, both from Card, Moran and Newell, “The keystroke-level
 * model for user performance time with interactive systems”, 1980 (values from memory). What the editor takes to
 * answer is not in it.
 */
import type { Page } from "playwright-core";

const KEY_S = 0.28;
const DECISION_S = 1.35;

export interface Keys {
  /** Presses a key or a chord, each key of which counts. */
  press(keys: string): Promise<void>;
  type(text: string): Promise<void>;
  /** The pilot reads, and decides what to do. */
  decide(): void;
  /** A command by the beginning of its title, from the palette. */
  command(beginning: string): Promise<void>;
  /** What was pressed and decided so far, and the time for it. */
  taken(): { readonly keys: number; readonly decisions: number; readonly seconds: number };
}

/** Keys that count themselves. */
export function countedKeys(page: Page): Keys {
  let keys = 0;
  let decisions = 0;
  const counted: Keys = {
    async press(chord) {
      keys += chord.split("+").length;
      await page.keyboard.press(chord);
    },
    async type(text) {
      keys += text.length;
      await page.keyboard.type(text);
    },
    decide() {
      decisions++;
    },
    async command(beginning) {
      counted.decide();
      await counted.press("F1");
      const focused = page.locator(".quick-input-widget .quick-input-box input:focus");
      await focused.waitFor();
      await counted.type(beginning);
      // The list answers as it searches: the row must be that command's before Enter means it.
      const row = page.locator(".quick-input-list .monaco-list-row.focused");
      await row.filter({ hasText: new RegExp(beginning.replaceAll(/[: ]+/g, ".*"), "i") }).waitFor();
      await counted.press("Enter");
    },
    taken: () => ({ keys, decisions, seconds: keys * KEY_S + decisions * DECISION_S }),
  };
  return counted;
}
