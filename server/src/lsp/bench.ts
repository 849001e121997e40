/** What is written down on the bench list, answered with edits of the craft. */
import type { Connection } from "vscode-languageserver";
import { benchFileOf, benchPath } from "../../../shared/ide/bench/bench-file.ts";
import { pickedCraft } from "../../../shared/ide/context/picked-craft.ts";
import { type BenchEdit, benchEditOf, benchTrialOf } from "../../../shared/ide/edits/bench-edit.ts";
import {
  BENCH_EDIT_REQUEST,
  BENCH_READING_REQUEST,
  type BenchEditParams,
  type BenchEditResult,
  type BenchReadingParams,
  type BenchTrial,
} from "../../../shared/protocol/bench-edit.ts";
import { BENCH_FILE_REQUEST, type BenchFileParams, type BenchFileResult } from "../../../shared/protocol/bench-file.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { toFiles } from "./osd-edits.ts";

const FAILED: BenchEditResult = {
  kind: "refused",
  message: "The lines could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};
const NOT_READ: BenchTrial = {
  kind: "unclear",
  message: "It could not be found out how this would be read, which is a fault of this tool; its log says more.",
};

const NO_LIST: BenchFileResult = {
  kind: "refused",
  message: "The bench list could not be made, which is a fault of this tool; its log says more.",
};
const NO_CRAFT: BenchFileResult = {
  kind: "refused",
  message: "No craft uses this file, and a craft is what is checked on the bench: open one first.",
};

/** Answers what the bench list asks for: edits, how a reading is read, and the list as a file. */
export function answerBench(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<BenchEditResult, void>(
    BENCH_EDIT_REQUEST,
    guard<[BenchEditParams], BenchEditResult>("bench edit", FAILED, async ({ uri, craft, gesture }) => {
      const file = await documents.loadAll(uri);
      return toResult(
        benchEditOf(documents.now(), file, { craft: craft && documents.pathOf(craft), gesture }),
        documents,
      );
    }),
  );
  connection.onRequest<BenchTrial, void>(
    BENCH_READING_REQUEST,
    guard<[BenchReadingParams], BenchTrial>("bench reading", NOT_READ, async ({ uri, craft, name, text }) => {
      const file = await documents.loadAll(uri);
      return benchTrialOf(documents.now(), file, { name, text, ...(craft && { craft: documents.pathOf(craft) }) });
    }),
  );
  connection.onRequest<BenchFileResult, void>(
    BENCH_FILE_REQUEST,
    guard<[BenchFileParams], BenchFileResult>("bench list", NO_LIST, async ({ uri, craft, form, shown, wiped }) => {
      const file = await documents.loadAll(uri);
      const now = documents.now();
      const picked = pickedCraft(now, file, craft && documents.pathOf(craft));
      if (!picked || picked.script.tree.newer) return NO_CRAFT;
      const text = benchFileOf(picked, now, form, { shown, wiped });
      return { kind: "text", text, name: picked.name, proposed: documents.uriOf(benchPath(picked.file, wiped)) };
    }),
  );
}

function toResult(edit: BenchEdit, documents: Documents): BenchEditResult {
  return edit.kind === "edits" ? { ...edit, files: toFiles(edit.files, documents) } : edit;
}
