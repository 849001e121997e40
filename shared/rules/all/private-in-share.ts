import type { FileRule, Report } from "../engine/rule.ts";
import { linesBelowComment, locationAt, locationOf } from "../lib/locations.ts";
import { privateEntries, privateInComment, privateTexts, sharedMarkOf } from "../lib/private-lines.ts";

export const rule: FileRule = {
  code: "private-in-share",
  severity: "warning",
  scope: "file",
  summary: "A script that is meant for others holds something private.",
  prose:
    "What is shared once cannot be called back: a pairing secret lets others take the receiver over, coordinates lead to a garden, a registration mark or a phone number to a person. A script counts as shared if a comment above its header begins with “Shared with Fettle”, as it does in what `fettle share` writes; you may write that line yourself above a script that you keep in public. Take out what is named here, or move it to a layer of your own that stays at home. Names in plain sentences are not found: only you know who is who.",
  examples: {
    bad: {
      "jug.fettle": '# Shared with Fettle\ncraft "Jug"\n\nboard\n  note "Found it? maud@pottery.example"\n',
    },
    good: {
      "jug.fettle": '# Shared with Fettle\ncraft "Jug"\n\nboard\n  note "Port 3 is torn: do not use it"\n',
    },
  },
  check(script, { catalogue }) {
    if (sharedMarkOf(script) === null) return [];
    const { file, tree } = script;
    const reports: Report[] = privateEntries(script, catalogue).map(({ section, name, line, head, why }) => ({
      at: locationAt({ file, line }, head),
      message: `${section.split("/")[0]}.${name} is private, and this script is meant for others: take it out, or keep it in a layer of your own. ${why}`,
    }));
    const told = new Set(reports.map(({ at }) => at.source.line));
    tree.lines.forEach(({ text, node, comment }, line) => {
      if (node.kind !== "comment" || !comment) return;
      const section = tree.sections.findLast((each) => each.line < line)?.name;
      const why = privateInComment(text.slice(comment.start), section, catalogue);
      if (why === null) return;
      told.add(line);
      reports.push({
        at: locationAt({ file, line }, { start: comment.start, end: text.length }),
        message: `A comment still says what it said as a setting, and this script is meant for others: remove it. ${why}`,
        alsoOf: linesBelowComment(script, line),
      });
    });
    for (const { what: _, like, ...span } of privateTexts(script)) {
      if (told.has(span.line)) continue;
      reports.push({
        at: locationOf(file, span),
        message: `This looks like ${like}, and the script is meant for others: take it out, or accept it here with your reason.`,
        alsoOf: linesBelowComment(script, span.line),
      });
    }
    return reports;
  },
};
