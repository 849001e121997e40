/** The words above a board's text: how much of it is understood, and what can be done with it. */
import type { Command } from "vscode";
import type { Uri } from "../../shared/protocol/addresses.ts";
import { BOARD_COMMANDS, type BoardTextResult } from "../../shared/protocol/board.ts";
import { LINE_COMMAND } from "../../shared/protocol/pages.ts";
import { visibleLine, withoutIcons } from "../../shared/text/visible-text.ts";

/** The lenses, in order; none for what is no board's text. */
export function boardLenses(result: BoardTextResult, uri: Uri): readonly Command[] {
  const does = (title: string, command: string): Command => ({ title: shown(title), command, arguments: [{ uri }] });
  switch (result.kind) {
    case "none":
      return [];
    case "several":
      return [does(`${result.dialects.length} dialects know this text: choose one…`, BOARD_COMMANDS.chooseDialect)];
    case "read": {
      const { counts, dialect, craft, lines } = result;
      const [mine] = craft;
      const odd = lines.find(({ state }) => state === "odd");
      return [
        {
          title: shown(countsInWords(counts, dialect.name)),
          command: LINE_COMMAND,
          arguments: [{ file: dialect.uri, line: 0 }],
        },
        ...(odd
          ? [{ title: "First odd line", command: LINE_COMMAND, arguments: [{ file: uri, line: odd.line }] }]
          : []),
        does("Name a line…", BOARD_COMMANDS.nameLine),
        does("Read into a script…", BOARD_COMMANDS.read),
        does(craft.length === 1 ? `Review against ${mine!.name}…` : "Review against a craft…", BOARD_COMMANDS.review),
      ];
    }
  }
}

/** An editor makes pictures of some words of a lens. */
const shown = (title: string) => withoutIcons(visibleLine(title));

/** “118 lines understood, 3 odd, 29 kept — dialect “Kiln, spring””. */
export function countsInWords(
  { read, odd, kept }: Extract<BoardTextResult, { kind: "read" }>["counts"],
  dialect: string,
): string {
  return `${read} ${read === 1 ? "line" : "lines"} understood, ${odd} odd, ${kept} kept — dialect “${dialect}”`;
}
