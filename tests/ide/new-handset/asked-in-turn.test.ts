/** The questions of a new handset, one after the other, as an editor asks them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { askedNext, madeFrom, WHEEL } from "./handset-made.ts";

describe("asked one by one", () => {
  const files = { "handsets/wheel.fettle": WHEEL };

  test("each question follows the answers before, and the script follows the last", () => {
    const asked: string[] = [];
    const given: Record<string, string | readonly string[]> = {};
    const say: Record<string, string> = { "control-1.kind": "dial", "control-2.positions": "up, mid, down" };
    for (;;) {
      const { question, problem } = askedNext(given, files);
      expect(problem).toBeNull();
      if (!question) break;
      asked.push(question.id);
      given[question.id] = say[question.id] ?? (question.id === "control-2.kind" ? "switch" : question.usual!);
    }
    expect(asked).toEqual([
      "name",
      "as-on",
      ...["band", "power", "stick-mode", "order", "travel"],
      ...["kind", "name", "channel", "range", "lies"].map((part) => `control-1.${part}`),
      ...["kind", "name", "channel", "positions", "rest", "lies"].map((part) => `control-2.${part}`),
      "control-3.kind",
    ]);
    expect(given["control-3.kind"]).toBe("done");
  });

  test("a wrong answer is named, and nothing is asked behind it", () => {
    const { question, problem } = askedNext({ name: "Kiln", "as-on": "none", band: "fast" }, files);
    expect(question).toBeNull();
    expect(problem?.id).toBe("band");
  });

  test("a handset without a control is not offered to end", () => {
    const before = { name: "K", "as-on": "none", band: "2.4-ghz", power: "not-known", "stick-mode": "2" };
    const { question } = askedNext({ ...before, order: "not-known", travel: "not-measured" }, files);
    expect(question?.id).toBe("control-1.kind");
    expect(question?.choices.map(({ word }) => word)).not.toContain("done");
  });

  test("whatever is chosen, nothing is found", () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat({ max: 99 })), fc.integer({ min: 1, max: 8 }), (numbers, count) => {
        const given: Record<string, string | readonly string[]> = {};
        for (;;) {
          const { question, problem } = askedNext(given, files);
          expect(problem).toBeNull();
          if (!question) break;
          const { id, choices, many, usual } = question;
          const [number = 0] = numbers.take(1);
          const words = choices.map(({ word }) => word);
          if (many) given[id] = words.filter((_, i) => (number >> i) % 2 === 0);
          else if (id === `control-${count + 1}.kind` && words.includes("done")) given[id] = "done";
          else given[id] = words.length === 0 ? usual! : words[number % words.length]!;
        }
        expect(madeFrom(given, files)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
