/** The questions for a new craft and the resulting script, for the client that asks them. */
import type { Connection } from "vscode-languageserver";
import { NAME_PROMPT, readAnswers, USUAL_NAME } from "../../../shared/ide/new-craft/answers.ts";
import { findFiles, newCraft, pathForName } from "../../../shared/ide/new-craft/new-craft.ts";
import { type FoundFiles, questionsFor } from "../../../shared/ide/new-craft/questions.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import {
  isAsked,
  NEW_CRAFT_REQUEST,
  type NewCraftParams,
  type NewCraftResult,
} from "../../../shared/protocol/new-craft.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";

const NOTHING_FOUND: FoundFiles = { handsets: [], layers: [], notOffered: [] };

/** Answers `fettle/newCraft`; null where that fails. */
export function answerNewCraft(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<NewCraftResult | null, void>(
    NEW_CRAFT_REQUEST,
    guard<[NewCraftParams], NewCraftResult | null>("new craft", null, async ({ folder, answers }) => {
      const path = pathForName(typeof answers.name === "string" ? answers.name : USUAL_NAME);
      // A folder may be opened through a link, while its files are known by their real paths.
      const root = (await documents.loadAll(folder ?? asUri("untitled:"))).replace(/\/$/, "");
      const workspace = documents.now();
      // Without a folder a `use` could not lead to any file.
      const found: FoundFiles =
        folder === null ? NOTHING_FOUND : { ...findFiles(workspace, root), newHandset: "offered" };
      const understood = readAnswers(found, answers);
      const questions = questionsFor(found, answers);
      const isOpen = questions.filter(isAsked).some(({ id }) => answers[id] === undefined);
      const made =
        isOpen || understood.kind === "problem"
          ? null
          : newCraft(understood.answers, found, workspace, `${root}/${path}`);
      return {
        questions,
        notOffered: found.notOffered,
        name: { prompt: NAME_PROMPT, usual: USUAL_NAME },
        text: made?.text ?? null,
        problem: understood.kind === "problem" ? understood.problem : null,
        leftOut: made?.leftOut ?? [],
        path,
      };
    }),
  );
}
