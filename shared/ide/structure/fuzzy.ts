/** How well a name fits what is typed, in the order that a person expects. */

/** What each way to fit costs; the less the better. */
export const FIT = { exact: 0, beginning: 10, word: 20, words: 30, inside: 40, scattered: 60 } as const;

/** What is typed, or a name, as it is compared: in small letters, with one sign between its words. */
export function normalOf(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
}

/**
 * What it costs that a name is meant: nothing if it is the name, more if it is its beginning, a word of it, the beginnings
 * of its words (`lq` for `link-quality`), a part of it, or its letters in their order. Null where it is none of these.
 * Both are normal.
 */
export function costOf(typed: string, name: string): number | null {
  if (typed === name) return FIT.exact;
  if (typed.length > name.length) return null;
  // Of two names that fit alike, the shorter one is nearer to what is typed.
  const longer = (name.length - typed.length) / 100;
  const at = name.indexOf(typed);
  if (at === 0) return FIT.beginning + longer;
  if (at > 0 && name.includes(`-${typed}`)) return FIT.word + longer;
  if (beginsWords(typed, 0, name, 0)) return FIT.words + longer;
  if (at > 0) return FIT.inside + longer + at / 100;
  const gaps = gapsIn(typed, name);
  return gaps === null ? null : FIT.scattered + gaps + longer;
}

/** Whether what is typed are beginnings of words of a name, from a word of it on and in their order. */
function beginsWords(typed: string, from: number, name: string, word: number): boolean {
  if (from === typed.length) return true;
  for (let start = word; start >= 0; start = nextWord(name, start)) {
    let same = 0;
    while (from + same < typed.length && typed[from + same] === name[start + same] && name[start + same] !== "-")
      same++;
    const next = nextWord(name, start);
    for (; same > 0; same--) {
      const left = typed[from + same] === "-" ? from + same + 1 : from + same;
      if (left >= typed.length || (next >= 0 && beginsWords(typed, left, name, next))) return true;
    }
  }
  return false;
}

/** Where the next word of a name begins; negative where there is none. */
function nextWord(name: string, from: number): number {
  const sign = name.indexOf("-", from);
  return sign < 0 ? -1 : sign + 1;
}

/** How many gaps there are between the letters that are typed, the first of which begins a word; null where one is missing. */
function gapsIn(typed: string, name: string): number | null {
  for (let start = 0; start >= 0; start = nextWord(name, start)) {
    if (name[start] !== typed[0]) continue;
    let [at, gaps] = [start, 0];
    for (let i = 1; i < typed.length && at >= 0; i++) {
      const next = name.indexOf(typed[i]!, at + 1);
      if (next !== at + 1) gaps++;
      at = next;
    }
    if (at >= 0) return gaps;
  }
  return null;
}
