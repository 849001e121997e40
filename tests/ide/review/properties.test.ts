/** What holds for any text, and for any two craft that are made at random. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { offerOfCraft } from "../../../shared/ide/review/carry.ts";
import { type Offer, offerOf } from "../../../shared/ide/review/offer.ts";
import { withPlainMarks } from "../../../shared/ide/review/plain-marks.ts";
import { type Review, type ReviewQuery, reviewOf } from "../../../shared/ide/review/review.ts";
import { unwrap } from "../../../shared/ide/review/unwrap.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { madePair, workspaceOf } from "../compare/made-pairs.ts";
import { edited } from "../edits/scripts-edited.ts";
import { readPastes } from "./pastes.ts";
import { JUG, shed } from "./shed.ts";

const QUERY: ReviewQuery = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "kiln" };

function reviewed(text: string, query = QUERY): Review | null {
  const workspace = shed();
  const offered = offerOf(workspace, text, "any");
  return offered.kind === "offer" ? reviewOf(workspace, workspace.craft(JUG)!, offered.offer, query) : null;
}

/** Lines that say nothing by themselves: blank, comments, headers, and names of sections. */
const SILENT = /^\s*(?:$|#|(?:craft|layer|handset)\b|[a-zA-Z_-]+(?:\s+"[^"]*")?\s*[:{]?\s*(?:#.*)?$)/;

const PASTES = readPastes().map(({ text }) => text);
/** Texts that are like pastes: parts of them, in any order, with any characters in between. */
const anyText = fc.oneof(
  fc.string({ unit: "binary", maxLength: 200 }),
  fc
    .array(fc.oneof(fc.constantFrom(...PASTES.flatMap((text) => text.split("\n"))), fc.string({ maxLength: 12 })), {
      maxLength: 25,
    })
    .map((lines) => lines.join("\n")),
  fc
    .tuple(fc.constantFrom(...PASTES), fc.nat(), fc.string({ unit: "grapheme", maxLength: 5 }))
    .map(([text, at, more]) => {
      const where = at % (text.length + 1);
      return text.slice(0, where) + more + text.slice(where);
    }),
);

describe("for any text", () => {
  test("a review never throws, and says something", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const workspace = shed();
        const offered = offerOf(workspace, text, "any");
        if (offered.kind === "no-script") expect(offered.looksLike).toMatch(/\.$/);
        else if (offered.kind === "refused") expect(offered.message).toMatch(/[.?]$/);
        else expect(reviewOf(workspace, workspace.craft(JUG)!, offered.offer, QUERY).rows).toBeInstanceOf(Array);
      }),
      { numRuns: 250 },
    );
  });

  test("each line that says something is in a row, and in one only but for what is taken away", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const review = reviewed(text);
        if (!review) return;
        const lines = text.replace(/^\ufeff/, "").split(/\r\n|\r|\n/);
        const counts = new Map<number, number>();
        for (const line of review.rows.flatMap((row) => row.lines)) counts.set(line, (counts.get(line) ?? 0) + 1);
        for (const [line, count] of counts) if (count > 1) expect(lines[line]).toContain("drop");
        for (const [i, { text: bare, role }] of unwrap(lines).entries())
          if (role !== "around" && !SILENT.test(withPlainMarks(bare)))
            expect([counts.has(i), bare]).toEqual([true, bare]);
      }),
      { numRuns: 250 },
    );
  });

  test("the largest that is read takes no longer than one waits, and a larger one is refused", () => {
    const line = "  warn-at  3.6 V/cell # and on\n";
    expect(offerOf(shed(), `pack\n${line.repeat(40_000)}`, "any").kind).toBe("refused");
    const start = performance.now();
    expect(reviewed(`pack\n${line.repeat(9_000)}${"lamp = 3\n".repeat(2_000)}`)?.rows.length).toBe(2_001);
    expect(performance.now() - start).toBeLessThan(10_000);
  });
});

interface Case {
  readonly seed: number;
  readonly workspace: Workspace;
  readonly mine: Craft;
  readonly texts: Readonly<Record<string, string>>;
  readonly offer: Offer;
  readonly query: ReviewQuery;
}

/** Made craft, each with another's own lines as a paste, or with all that it is in effect, to be carried over. */
function* cases(count: number): Generator<Case> {
  for (let seed = 1; seed <= count; seed++) {
    const { texts, mine, theirs } = madePair(seed);
    const workspace = workspaceOf(texts);
    const purpose = seed % 2 === 0 ? "carry" : "review";
    const offered =
      purpose === "review"
        ? offerOf(workspace, texts[theirs]!, "theirs")
        : offerOfCraft(workspace, workspace.craft(theirs)!);
    if (offered.kind === "offer")
      yield {
        seed,
        workspace,
        mine: workspace.craft(mine)!,
        texts,
        offer: offered.offer,
        query: { ...QUERY, purpose },
      };
  }
}

function textsAfter(texts: Case["texts"], { adopted }: Review): Record<string, string> {
  const made: Record<string, string> = { ...texts };
  for (const { file, edits } of adopted.files) made[file] = edited(texts[file]!, edits);
  for (const { file, text } of adopted.creates) made[file] = text;
  return made;
}

const isOpen = (row: Review["rows"][number]) => row.class === "differs" || row.class === "dangerous";

describe("for any two craft", () => {
  test("what is chosen unasked is no hardware, brings no warning and no error, and leaves all other lines as they are", () => {
    let [chosen, spared] = [0, 0];
    for (const { seed, workspace, mine, texts, offer, query } of cases(30)) {
      const review = reviewOf(workspace, mine, offer, query);
      const unasked = review.rows.filter((row) => row.chosen);
      chosen += unasked.length;
      spared += review.rows.filter((row) => /would bring/.test(row.words)).length;
      for (const row of unasked) {
        expect([seed, row.what, row.nature]).not.toContain("hardware");
        if (query.purpose === "review") expect([seed, row.what, row.class]).toEqual([seed, row.what, "differs"]);
      }
      const grave = review.outcome.findings.filter((each) => each.isNew && /error|warning/.test(each.severity));
      expect([seed, grave.map(({ message }) => message)]).toEqual([seed, []]);
      const now = textsAfter(texts, review);
      const touched = new Set(unasked.map(({ mineAt }) => (mineAt?.file === mine.file ? mineAt.line : -1)));
      const left = (now[mine.file] ?? "").split(/\r\n|\r|\n/);
      for (const [line, text] of (texts[mine.file] ?? "").split(/\r\n|\r|\n/).entries()) {
        const at = left.indexOf(text);
        // What is written anew may go to any line of its name.
        if (at >= 0) left.splice(0, at);
        else if (touched.size === 0) expect([seed, line, text]).toEqual([seed, line, "kept"]);
      }
    }
    expect(chosen).toBeGreaterThan(50);
    expect(spared).toBeGreaterThan(25);
  });

  test("adopting nothing writes nothing; adopting all that can be leaves nothing of it to adopt", () => {
    let [taken, kept, open] = [0, 0, 0];
    for (const { seed, workspace, mine, texts, offer, query } of cases(30)) {
      expect(textsAfter(texts, reviewOf(workspace, mine, offer, { ...query, chosen: [] }))).toEqual(texts);
      const before = reviewOf(workspace, mine, offer, query);
      const all = before.rows.filter((row) => (isOpen(row) || row.class === "unknown") && row.notTaken === null);
      const review = reviewOf(workspace, mine, offer, { ...query, chosen: all.map(({ what }) => what) });
      const now = workspaceOf(textsAfter(texts, review));
      const written = now.craft(mine.file)!;
      // A control that nothing stood for might find one among those that were adopted.
      const mapping = Object.fromEntries(review.mapping.map(({ from, to }) => [from, to]));
      const again = reviewOf(now, written, offer, { ...query, mapping, chosen: all.map(({ what }) => what) });
      const names = new Set(review.rows.filter((row) => row.chosen).map(({ what }) => what));
      const rest = again.rows.filter((row) => isOpen(row) && names.has(row.what));
      taken += names.size;
      open += rest.length;
      expect([seed, rest.map(({ what, mine: a, theirs: b }) => [what, a, b])]).toEqual([seed, []]);
      for (const row of review.rows)
        if (row.unknown && row.chosen)
          for (const text of row.unknown.texts) {
            expect(written.kept.map((each) => each.text.trim())).toContain(text.trim());
            kept++;
          }
    }
    expect(taken).toBeGreaterThan(280);
    expect(kept).toBeGreaterThan(10);
    expect(open).toBe(0);
  });
});

describe("whatever a script is wrapped in, its rows are the same", () => {
  const each = (change: (line: string, i: number) => string) => (text: string) =>
    text.trimEnd().split("\n").map(change).join("\n");
  const wrappings: readonly (readonly [string, (text: string) => string])[] = [
    ["quoted by mail", each((line) => `> ${line}`)],
    ["quoted twice, without blanks", each((line) => `>>${line}`)],
    ["in fences, with words around", (text) => `look at this:\n\`\`\`fettle\n${text}\`\`\`\nbye`],
    ["with numbers", each((line, i) => `${String(i + 1).padStart(4)}  ${line}`)],
    ["with numbers and colons", each((line, i) => `${i + 1}:${line}`)],
    [
      "as a patch adds it",
      (text) => `diff --git a/x b/x\n--- /dev/null\n+++ b/x\n@@ -0,0 +1,9 @@\n${each((line) => `+${line}`)(text)}`,
    ],
    ["further in", each((line) => `      ${line}`)],
    ["with its indent lost", each((line) => line.trimStart())],
    ["with blanks that do not break", each((line) => line.replace(/^ +/, (blanks) => "\u00a0".repeat(blanks.length)))],
    [
      "with entities",
      each((line) => line.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("  ", "&nbsp; ")),
    ],
    ["with CR LF", (text) => text.replaceAll("\n", "\r\n")],
    ["with CR", (text) => text.replaceAll("\n", "\r")],
    // A comment belongs to what stands directly below it.
    ["with blank lines", each((line) => (line.trim().startsWith("#") ? line : `${line}\n`))],
  ];
  const told = (text: string) =>
    reviewed(text)!
      .rows.filter((row) => row.class !== "unknown")
      .map(({ what, class: of, theirs, chosen }) => [what, of, theirs, chosen].join(" | "))
      .sort();
  const folder = new URL("../../../examples/", import.meta.url);
  const examples = ["craft", "layers", "handsets"].flatMap((name) =>
    readdirSync(new URL(name, folder)).map((file) => readFileSync(new URL(`${name}/${file}`, folder), "utf8")),
  );

  const plain = examples.map(told);

  test.each(wrappings)("%s", (_, wrap) => {
    for (const [i, text] of examples.entries()) expect(told(wrap(text))).toEqual(plain[i]);
  });
});
