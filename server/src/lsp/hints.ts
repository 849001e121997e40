/** Figures beside the lines; what they mean is told when it is asked for, where the client can ask. */
import type { Connection, InlayHint } from "vscode-languageserver";
import { type InlayHint as Hint, hintsOf } from "../../../shared/ide/editor/hints.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import { visibleLine, visibleText } from "../../../shared/text/visible-text.ts";
import { broughtBack } from "./brought-back.ts";
import type { Abilities } from "./capabilities.ts";
import type { Documents } from "./documents.ts";
import { type Guard, resolving } from "./guard.ts";
import { loadFor } from "./load.ts";
import type { Settings } from "./settings.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
  readonly settings: () => Settings;
}

/** The document of a hint, by which its words are found again. */
interface HintData {
  readonly uri: string;
}

/** Answers with the hints of the lines that are asked for, and with what one of them means. */
export function answerHints({ connection, documents, guard, abilities, settings }: Parts): void {
  const { inlayHint } = connection.languages;
  inlayHint.on(
    guard("inlay hints", null, async (params) => {
      const file = await loadFor(documents, params);
      const shown = hintsOf(documents.now(), file, params.range).filter(({ kind }) => settings().showsHint(kind));
      const data: HintData | null = abilities().resolvesHints ? { uri: params.textDocument.uri } : null;
      return shown.map((hint) =>
        data ? { ...toHint(hint), data } : { ...toHint(hint), tooltip: visibleText(hint.tooltip) },
      );
    }),
  );
  inlayHint.resolve(
    resolving(guard, "words of a hint", async (hint: InlayHint) => {
      const data = broughtBack<HintData>(hint.data, { uri: "string" });
      if (!data) return hint;
      const file = await loadFor(documents, { textDocument: { uri: asUri(data.uri) } });
      const range = { start: hint.position, end: hint.position };
      const same = hintsOf(documents.now(), file, range).find((each) => toHint(each).label === hint.label);
      return same ? { ...hint, tooltip: visibleText(same.tooltip) } : hint;
    }),
  );
}

function toHint({ at, label }: Hint) {
  return {
    position: at,
    // The editor's own padding is too narrow to tell the hint from the value.
    label: `\u00a0${visibleLine(label)}`,
    paddingLeft: true,
    paddingRight: true,
  } satisfies InlayHint;
}
