/** What the editor asks of the values themselves: their parts while they are typed, their colours. */
import type { Connection } from "vscode-languageserver";
import type { Color, SignatureHelp } from "vscode-languageserver-types";
import { type ColourAt, coloursOf, spellingsOf } from "../../../shared/ide/editor/colours.ts";
import { type SignatureHelp as Parts, signatureAt } from "../../../shared/ide/signature/signature.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { loadFor } from "./load.ts";
import { markup } from "./markup.ts";

/** Answers signature help and both questions about colours. */
export function answerValues(
  connection: Connection,
  documents: Documents,
  guard: Guard,
  abilities: () => Abilities,
): void {
  connection.onSignatureHelp(
    guard("signature help", null, async (params) => {
      const file = await loadFor(documents, params);
      const help = signatureAt(documents.now(), file, params.position);
      return help && toSignatureHelp(help, abilities());
    }),
  );
  connection.onDocumentColor(
    guard("colours", [], async ({ textDocument }) => {
      const file = await documents.load(textDocument.uri);
      return coloursOf(documents.now(), file).map(({ rgb, range }) => ({ color: toColor(rgb), range }));
    }),
  );
  connection.onColorPresentation(
    guard("ways to write a colour", [], ({ color, range }) =>
      spellingsOf(
        [color.red, color.green, color.blue].map((part) => Math.round(part * 255)) as [number, number, number],
      ).map((label) => ({ label, textEdit: { range, newText: label } })),
    ),
  );
}

function toSignatureHelp({ signatures, active, parameter }: Parts, client: Abilities): SignatureHelp {
  const inWords = (markdown: string) => markup(markdown, client.signatureMarkdown);
  return {
    signatures: signatures.map(({ label, markdown, parameters }) => ({
      label,
      ...(markdown !== "" && { documentation: inWords(markdown) }),
      parameters: parameters.map(({ start, end, markdown }) => ({
        label: client.partsByColumn ? [start, end] : label.slice(start, end),
        documentation: inWords(markdown),
      })),
    })),
    activeSignature: active,
    activeParameter: parameter,
  };
}

function toColor([red, green, blue]: ColourAt["rgb"]): Color {
  return { red: red / 255, green: green / 255, blue: blue / 255, alpha: 1 };
}
