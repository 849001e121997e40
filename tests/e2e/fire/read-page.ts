/** What a page in the browser shows and says, and what in it would load, lead away or run. */
import type { Page } from "playwright-core";
import { unseenIn } from "../../fire/outputs/inspect.ts";

export interface Read {
  /** Every text, and every attribute that is read by the eye or aloud. */
  readonly words: readonly string[];
  /** Elements and attributes that are more than text; links within the page, and drawings that stand in it, are not. */
  readonly active: readonly string[];
  /** What turns, hides or moves what is read. */
  readonly unseen: readonly string[];
}

/** Reads all that stands below an element, such as `#panel`; `ours` are elements of the page's own that do more. */
export async function readBelow(page: Page, selector: string, ours: readonly string[] = []): Promise<Read> {
  const { words, active } = await page.evaluate(readPage, { selector, ours });
  return { words, active, unseen: words.flatMap((each) => unseenIn(each) ?? []) };
}

function readPage({ selector, ours }: { selector: string; ours: readonly string[] }) {
  const root = document.querySelector(selector)!;
  const words: string[] = [];
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) words.push(walker.currentNode.nodeValue!);
  const active: string[] = [];
  const read = ["title", "aria-label", "aria-description", "aria-valuetext", "alt", "placeholder"];
  const doesMore = /^(?:script|style|i?frame|object|embed|img|image|foreignObject|base|link|meta|a|video|audio)$/i;
  for (const element of root.querySelectorAll("*")) {
    if (doesMore.test(element.localName) && !ours.includes(element.localName)) active.push(`<${element.localName}>`);
    for (const { name, value } of element.attributes) {
      if (read.includes(name)) words.push(value);
      const leads = /^(?:.*:)?(?:href|src|srcset|action|formaction|data)$/i.test(name);
      if (/^on/i.test(name) || (leads && !/^(?:#|data:image\/svg\+xml,)/.test(value)))
        active.push(`${element.localName} ${name}="${value}"`);
    }
  }
  return { words, active };
}
