import { hiddenInWords } from "../../text/hidden-text.ts";
import type { FileRule } from "../engine/rule.ts";
import { type HiddenOnLine, hiddenInTree } from "../lib/hidden-lines.ts";
import { linesBelowComment, locationAt } from "../lib/locations.ts";

export const rule: FileRule = {
  code: "hidden-text",
  severity: "warning",
  scope: "file",
  summary: "A line holds characters that do not show, or letters that only look like others.",
  prose:
    "Marks that turn the direction of text, characters without a shape, and letters of another script that look like plain ones let a line say something else than it shows: a note may hide what follows it, and two names that look alike may be two. They come with text from web pages and chats, mostly by accident. Take them out, or write the line plainly, for which there is an action; accept them where you know what they are there for. What a language needs is no finding: joiners in Persian or Hindi, marks between Hebrew and Latin words, pictures made of several.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nboard\n  note "Port 3 is \u202enrot\u202c"\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nboard\n  note "Port 3 is torn"\n' },
  },
  check(script) {
    const { file, tree, issues } = script;
    const notUnderstood = new Set(issues.map(({ span }) => span.line));
    // A line that was not understood has a finding that names the character already.
    const told = hiddenInTree(tree).filter(
      ({ line, reading }) => !notUnderstood.has(line) || (reading === "prose" && isPartOf(tree.lines[line]!)),
    );
    return byLine(told).map((found) => {
      const [first] = found;
      const { line } = first;
      return {
        at: locationAt({ file, line }, first),
        message: messageFor(found),
        alsoOf: linesBelowComment(script, line),
        fixes: [
          {
            title: "Write it with plain characters",
            certain: true as const,
            edits: found.map(({ start, end, plain }) => ({
              range: { start: { line, character: start }, end: { line, character: end } },
              text: plain,
            })),
          },
        ],
      };
    });
  },
};

type OnOneLine = readonly [HiddenOnLine, ...HiddenOnLine[]];

function byLine(told: readonly HiddenOnLine[]): OnOneLine[] {
  const lines = new Map<number, [HiddenOnLine, ...HiddenOnLine[]]>();
  for (const each of told) {
    const known = lines.get(each.line);
    if (known) known.push(each);
    else lines.set(each.line, [each]);
  }
  return [...lines.values()];
}

function messageFor(found: OnOneLine): string {
  const words = hiddenInWords(found[0]);
  const more = found.length > 1 ? ` There are ${found.length} such characters on this line.` : "";
  const advice = found.every(({ kind }) => kind === "look-alike")
    ? "Write it with plain letters, so that it can be read and found."
    : "Take it out, unless you know what it is there for.";
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.${more} ${advice}`;
}

/** Of a line that was not understood at all no part is prose. */
function isPartOf({ node }: { readonly node: { readonly kind: string } }): boolean {
  return node.kind !== "stray" && node.kind !== "conflict";
}
