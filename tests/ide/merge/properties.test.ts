import fc from "fast-check";
import { expect, test } from "vitest";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { catalogue } from "../compare/made-lines.ts";
import { type MadeMerge, madeMerge } from "./made-merges.ts";
import { isSameSaying, type Says, saysOf } from "./oracle.ts";

const NAMES = { ours: "ours", base: "base", theirs: "theirs" };
/** More of them are tried by hand, with MERGES=5000. */
const RUNS = Number(process.env.MERGES ?? 120);

const merge = (base: string, ours: string, theirs: string) => mergeTexts(base, ours, theirs, NAMES);

/** Holds a law to made merges; one that breaks it is shown with its seed (`madeMerge(SEED, …)`) and its texts. */
function expectOf(freedom: "any" | "apart", fault: (made: MadeMerge) => string | null, numRuns = RUNS): void {
  fc.assert(
    fc.property(fc.nat(2 ** 31 - 1), (seed) => {
      const made = madeMerge(seed, freedom);
      const found = fault(made);
      if (found !== null) throw new Error(`${found}\n${shown(made)}`);
    }),
    { numRuns, seed: Number(process.env.SEED ?? 2026), endOnFailure: true },
  );
  expect(numRuns).toBeGreaterThan(0);
}

function shown({ seed, base, ours, theirs }: MadeMerge): string {
  const { text } = merge(base, ours, theirs);
  return [
    `seed ${seed}`,
    `--- base\n${base}`,
    `--- ours\n${ours}`,
    `--- theirs\n${theirs}`,
    `--- merged\n${text}`,
  ].join("\n");
}

/** The text with one side of each conflict. */
function resolved(text: string, side: "ours" | "theirs"): string {
  const lines: string[] = [];
  let part: "both" | "ours" | "theirs" = "both";
  for (const line of text.split("\n")) {
    if (/^<{7}( |$)/.test(line)) part = "ours";
    else if (/^={7}$/.test(line) && part === "ours") part = "theirs";
    else if (/^>{7}( |$)/.test(line)) part = "both";
    else if (part === "both" || part === side) lines.push(line);
  }
  return lines.join("\n");
}

/** The name of a setting that is a list, each of whose lines is merged by itself; board text is merged by its lines. */
function isMergedByLines(key: string): boolean {
  const [section = "", name = ""] = key.split(".");
  return key.startsWith("verbatim.") || catalogue.setting(section.split("/")[0]!, name)?.repeatable === true;
}

function isRenamed({ base, ours, theirs }: MadeMerge): boolean {
  return [base, ours, theirs].some((text) => /^pack "(Frost|Thaw)"/m.test(text));
}

const keysOf = (...all: readonly Says[]) => new Set(all.flatMap((says) => [...says.keys()]));

test("no name says what neither side says, and what one side alone changed is as that side has it", () => {
  expectOf("any", (made) => {
    if (isRenamed(made)) return null;
    const { text } = merge(made.base, made.ours, made.theirs);
    const [base, ours, theirs] = [saysOf(made.base), saysOf(made.ours), saysOf(made.theirs)];
    for (const side of ["ours", "theirs"] as const) {
      const result = saysOf(resolved(text, side));
      for (const key of keysOf(base, ours, theirs, result)) {
        const [b, o, t, r] = [base, ours, theirs, result].map((says) => says.get(key));
        if (
          isSameSaying(o, t)
            ? isSameSaying(r, o)
            : isSameSaying(b, o)
              ? isSameSaying(r, t)
              : isSameSaying(b, t) && isSameSaying(r, o)
        )
          continue;
        const isInConflict = text.includes("<<<<<<<");
        // A line that takes back several names stands in a conflict over one of them, and goes with it.
        if (isInConflict && key.includes(" drop ")) continue;
        if (isInConflict && isSameSaying(r, side === "ours" ? o : t)) continue;
        if (isSameSaying(o, t) || isSameSaying(b, o) || isSameSaying(b, t)) return `${key} is wrong, with ${side}`;
        if (isMergedByLines(key) || key === "use") continue;
        if (key.includes(" drop ")) continue;
        if (!isSameSaying(r, o) && !isSameSaying(r, t)) return `${key} says what neither does, with ${side}`;
      }
    }
    return null;
  });
});

test("a conflict is there wherever both sides changed a name in two ways", () => {
  expectOf("any", (made) => {
    if (isRenamed(made)) return null;
    const { conflicts } = merge(made.base, made.ours, made.theirs);
    const [base, ours, theirs] = [saysOf(made.base), saysOf(made.ours), saysOf(made.theirs)];
    for (const key of keysOf(base, ours, theirs)) {
      const [b, o, t] = [base, ours, theirs].map((says) => says.get(key));
      if (isMergedByLines(key) || key === "use") continue;
      if (!isSameSaying(b, o) && !isSameSaying(b, t) && !isSameSaying(o, t) && conflicts === 0)
        return `${key} clashes, and nothing says so`;
    }
    return null;
  });
});

test("where the sides changed different names there is no conflict", () => {
  expectOf("apart", ({ base, ours, theirs }) => {
    const { conflicts, clashes } = merge(base, ours, theirs);
    return conflicts === 0 ? null : `a conflict: ${clashes[0]!.why}`;
  });
});

test("the lines of a list are those of the sides, in an order that the sides have", () => {
  const itemsOf = (text: string) => {
    const items = new Map<string, number>();
    const twice = new Set<string>();
    text.split("\n").forEach((line, i) => {
      const item = /^ {2}(?:notch|smooth-gyro|smooth-d) +(.*?)(?: +#.*)?$/
        .exec(line)?.[0]
        .replace(/ +/g, " ")
        .replace(/ #.*$/, "");
      if (item === undefined) return;
      if (items.has(item)) twice.add(item);
      items.set(item, i);
    });
    for (const item of twice) items.delete(item);
    return { items, twice };
  };
  expectOf("any", ({ base, ours, theirs }) => {
    const { text, conflicts } = merge(base, ours, theirs);
    const [b, o, t, r] = [base, ours, theirs, text].map(itemsOf);
    if (conflicts > 0 || [b, o, t, r].some((each) => each!.twice.size > 0)) return null;
    for (const item of o!.items.keys()) if (t!.items.has(item) && !r!.items.has(item)) return `“${item}” is lost`;
    for (const item of r!.items.keys()) if (!o!.items.has(item) && !t!.items.has(item)) return `“${item}” is new`;
    const inAll = [...r!.items.keys()].filter((item) => o!.items.has(item) && t!.items.has(item));
    const isBefore = (side: typeof o, one: string, other: string) => side!.items.get(one)! < side!.items.get(other)!;
    for (const one of inAll)
      for (const other of inAll)
        if (
          one.split(" ")[1] === other.split(" ")[1] &&
          isBefore(o, one, other) &&
          isBefore(t, one, other) &&
          !isBefore(r, one, other)
        )
          return `“${one}” no longer stands before “${other}”`;
    return null;
  });
});

test("the order of the sides does not matter for what comes out", () => {
  expectOf("any", ({ base, ours, theirs }) => {
    const [one, other] = [merge(base, ours, theirs), merge(base, theirs, ours)];
    if (one.conflicts !== other.conflicts)
      return `conflicts: ${one.conflicts} and, the other way round, ${other.conflicts}\n${other.text}`;
    if (one.conflicts > 0) return null;
    const [a, b] = [saysOf(one.text), saysOf(other.text)];
    for (const key of keysOf(a, b))
      if (!isSameSaying(a.get(key), b.get(key))) return `${key} depends on it\n${other.text}`;
    return null;
  });
});

test("what only one side has changed is that side, and what both have alike is as it is", () => {
  expectOf("any", ({ base, ours, theirs }) => {
    if (merge(base, ours, ours).text !== ours) return "both alike";
    if (merge(base, base, theirs).text !== theirs) return "only theirs";
    return merge(base, ours, base).text === ours ? null : "only ours";
  });
});

test("no comment that a side has is lost, but where a side took it away", () => {
  const comments = (text: string) => new Set(text.match(/# .*\d$/gm) ?? []);
  expectOf("any", (made) => {
    const { text } = merge(made.base, made.ours, made.theirs);
    const [b, o, t, r] = [made.base, made.ours, made.theirs, text].map(comments);
    for (const each of [...o!, ...t!]) {
      const stays = o!.has(each) && t!.has(each) ? true : !b!.has(each);
      if (stays && !r!.has(each)) return `“${each}” is lost`;
    }
    return null;
  });
});

test("lines of which nobody changed anything are as in ours, in its order", () => {
  expectOf("apart", ({ base, ours, theirs }) => {
    const { text } = merge(base, ours, theirs);
    // A name that is said twice may have exchanged its values.
    const nameOf = (line: string) => line.trim().split(" ")[0];
    const isOnceIn = (side: string, line: string) =>
      side.split("\n").filter((each) => nameOf(each) === nameOf(line)).length === 1;
    const inTheirs = new Set(theirs.split("\n"));
    const isKept = (line: string) => inTheirs.has(line) && isOnceIn(ours, line) && isOnceIn(theirs, line);
    const kept = ours.split("\n").filter(isKept);
    // What was removed and added again in another place was moved.
    const places = kept.map((line) => theirs.split("\n").indexOf(line));
    if (places.some((place, i) => i > 0 && place < places[i - 1]!)) return null;
    const lines = text.split("\n");
    let at = 0;
    for (const line of kept) {
      at = lines.indexOf(line, at) + 1;
      if (at === 0) return `“${line}” is not where it was`;
    }
    return null;
  });
});

test("nothing stands more often than in the sides, and a regular layout stays regular", () => {
  const counted = (text: string) => {
    const counts = new Map<string, number>();
    let section = "";
    for (const line of text.split("\n")) {
      if (/^[a-z]/.test(line)) section = line;
      const key = /^ /.test(line) ? `${section} ${line.trim().split(" ")[0]}` : line;
      if (line !== "" && !/^ *[#|]/.test(line)) counts.set(key, (counts.get(key) ?? 0) + 1);
    }
    return counts;
  };
  expectOf("any", (made) => {
    const { base, ours, theirs } = made;
    const { text, conflicts } = merge(base, ours, theirs);
    if (conflicts > 0 || isRenamed(made)) return null;
    const [b, o, t] = [base, ours, theirs].map(counted);
    for (const [key, count] of counted(text)) {
      const most = Math.max(b!.get(key) ?? 0, o!.get(key) ?? 0, t!.get(key) ?? 0);
      if (count > most && most < 2 && !/^use|drop$/.test(key) && !isMergedByLines(key.replace(" ", ".")))
        return `“${key}” stands ${count} times`;
    }
    if (/\n\n\n/.test(text)) return "two blank lines";
    if (/\n\n$/.test(text)) return "a blank line at the end";
    const lines = text.split("\n");
    const crowded = lines.findIndex(
      (line, i) =>
        /^[a-z]/.test(line) && !/^use/.test(line) && i > 0 && lines[i - 1] !== "" && !/^#/.test(lines[i - 1]!),
    );
    return crowded < 0 ? null : `no blank line above “${lines[crowded]}”`;
  });
});

test("made merges are of every kind", () => {
  const outcomes = Array.from({ length: 300 }, (_, seed) => madeMerge(seed, "any")).map(
    ({ base, ours, theirs }) => merge(base, ours, theirs).conflicts,
  );
  expect(outcomes.filter((each) => each === 0).length).toBeGreaterThan(50);
  expect(outcomes.filter((each) => each > 0).length).toBeGreaterThan(50);
});
