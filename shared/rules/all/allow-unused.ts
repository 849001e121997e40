import type { Allowance, Script } from "../../model/script.ts";
import type { Fix } from "../../syntax/span.ts";
import type { FileRule, Report } from "../engine/rule.ts";
import { locationOf } from "../lib/locations.ts";

export const rule: FileRule = {
  code: "allow-unused",
  severity: "hint",
  scope: "file",
  acceptable: false,
  summary: "A note accepts a finding that is not there, in this file or on any craft that uses it.",
  prose:
    "What was accepted has been put right, or the note stands where it does not reach: it accepts on the line below it (or at whose end it stands), above a section's name in that section, above the header in the whole file; and what a layer accepts is accepted on every craft that uses it. Left where it is, it would silence the next finding of its kind, of which nobody has thought yet. Take it out, or put it where it belongs. Nothing is said while a craft that uses the file cannot be seen or was not understood, since its findings are then not known; nor of a layer that more than forty craft use. Findings about what was not understood, and about notes like these, cannot be accepted at all.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\npack\n  # allow out-of-range: a bench supply stands in for the pack\n  cells 6\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\npack\n  # allow out-of-range: a bench supply stands in for the pack\n  cells 99\n',
    },
  },
  check(script, _, others) {
    if (script.allowances.length === 0) return [];
    const idle = new Set(others.idle(script));
    return script.allowances.flatMap((each) => {
      if (!others.codes.includes(each.code)) return [];
      const message = others.mayAccept(each.code) ? whyUnused(each, script, idle) : whyNever(each);
      return message === null ? [] : [reportOn(each, message, script)];
    });
  },
};

function whyNever({ code }: Allowance): string {
  return `No note can accept ${code}: silenced, it would hide other faults. Correct what it reports, and take this comment out.`;
}

/** Why an allowance silences nothing, and what to do; null where it may silence something. */
function whyUnused(allowance: Allowance, { kind }: Script, idle: ReadonlySet<Allowance>): string | null {
  const { code, holds } = allowance;
  if (holds === "nothing")
    return `This accepts ${code} nowhere, because no line follows directly: put it straight above the entry, the section's name or the header for which it is meant.`;
  if (!idle.has(allowance)) return null;
  const where = { line: "on this line", section: "in this section", file: "in this file" }[holds];
  const elsewhere = kind === "craft" ? "" : ", neither here nor on any craft that uses this file";
  return `There is no ${code} to accept ${where}${elsewhere}. Take the comment out, so that one which comes later is seen.`;
}

function reportOn({ span }: Allowance, message: string, script: Script): Report {
  return { at: locationOf(script.file, span), message, fixes: [removal({ span }, script)] };
}

/** Takes the comment out, and with it its line where nothing else stands there. */
function removal({ span: { line, start, end } }: Pick<Allowance, "span">, { tree }: Script): Fix {
  const before = tree.lines[line]!.text.slice(0, start).trimEnd();
  const whole = before === "" && line + 1 < tree.lines.length;
  const range = whole
    ? { start: { line, character: 0 }, end: { line: line + 1, character: 0 } }
    : { start: { line, character: before.length }, end: { line, character: end } };
  return { title: "Take the comment out", edits: [{ range, text: "" }] };
}
