/** The questions for a new handset and the resulting script, for the client that asks them. */
import type { Connection } from "vscode-languageserver";
import { findFiles } from "../../../shared/ide/new-craft/new-craft.ts";
import type { FoundFiles } from "../../../shared/ide/new-craft/questions.ts";
import { handsetPathFor, newHandset } from "../../../shared/ide/new-handset/new-handset.ts";
import { askNext } from "../../../shared/ide/new-handset/questions.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import {
  NEW_HANDSET_REQUEST,
  type NewHandsetParams,
  type NewHandsetResult,
} from "../../../shared/protocol/new-handset.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";

const NOTHING_FOUND: FoundFiles = { handsets: [], layers: [], notOffered: [] };

/** Answers `fettle/newHandset`; null where that fails. */
export function answerNewHandset(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<NewHandsetResult | null, void>(
    NEW_HANDSET_REQUEST,
    guard<[NewHandsetParams], NewHandsetResult | null>("new handset", null, async ({ folder, answers }) => {
      const root = (await documents.loadAll(folder ?? asUri("untitled:"))).replace(/\/$/, "");
      const workspace = documents.now();
      const found = folder === null ? NOTHING_FOUND : findFiles(workspace, root);
      const { draft, question, problem } = askNext(found, answers, workspace, "ask");
      const path = handsetPathFor(draft.name);
      const made = question || problem ? null : newHandset(draft, workspace, `${root}/${path}`);
      const controls = [...draft.used, ...draft.controls].map(({ name, channel }) => `${name} on ch${channel}`);
      const { text = null, next = [] } = made ?? {};
      return { question, problem, controls, notOffered: found.notOffered, text, next, order: draft.order, path };
    }),
  );
}
