/** What is written down on the bench list, answered with edits of the craft. */
import type { Connection } from "vscode-languageserver";
import { type BenchEdit, benchEditOf, benchTrialOf } from "../../../shared/ide/edits/bench-edit.ts";
import {
  BENCH_EDIT_REQUEST,
  BENCH_READING_REQUEST,
  type BenchEditParams,
  type BenchEditResult,
  type BenchReadingParams,
  type BenchTrial,
} from "../../../shared/protocol/bench-edit.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { toFiles } from "./osd-edits.ts";
import { pathOf } from "./paths.ts";

const FAILED: BenchEditResult = {
  kind: "refused",
  message: "The lines could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};
const NOT_READ: BenchTrial = {
  kind: "unclear",
  message: "It could not be found out how this would be read, which is a fault of this tool; its log says more.",
};

/** Answers `fettle/benchEdit` and `fettle/benchReading`. */
export function answerBench(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<BenchEditResult, void>(
    BENCH_EDIT_REQUEST,
    guard<[BenchEditParams], BenchEditResult>("bench edit", FAILED, async ({ uri, craft, gesture }) => {
      const file = await documents.loadAll(uri);
      return toResult(benchEditOf(documents.now(), file, { craft: craft && pathOf(craft), gesture }), documents);
    }),
  );
  connection.onRequest<BenchTrial, void>(
    BENCH_READING_REQUEST,
    guard<[BenchReadingParams], BenchTrial>("bench reading", NOT_READ, async ({ uri, craft, name, text }) => {
      const file = await documents.loadAll(uri);
      return benchTrialOf(documents.now(), file, { name, text, ...(craft && { craft: pathOf(craft) }) });
    }),
  );
}

function toResult(edit: BenchEdit, documents: Documents): BenchEditResult {
  return edit.kind === "edits" ? { ...edit, files: toFiles(edit.files, documents) } : edit;
}
