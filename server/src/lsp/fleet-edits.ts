/** Changes of several craft at once: shown craft by craft, with the edits of those that are chosen. */
import type { Connection } from "vscode-languageserver";
import { makeAlike } from "../../../shared/ide/fleet-edits/alike.ts";
import type { CoreChange } from "../../../shared/ide/fleet-edits/change-core.ts";
import { changeHabit } from "../../../shared/ide/fleet-edits/change-habit.ts";
import { habitsOf } from "../../../shared/ide/fleet-edits/habits.ts";
import { faultOfCondition } from "../../../shared/ide/fleet-edits/new-condition.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import {
  ALIKE_LAYERS_REQUEST,
  type AlikeLayersParams,
  type AlikeLayersResult,
  CHANGE_HABIT_REQUEST,
  type ChangeHabitParams,
  type FleetChangeResult,
  HABIT_CONDITION_REQUEST,
  HABITS_REQUEST,
  type Habit,
  type HabitConditionParams,
  type HabitConditionResult,
  type HabitsResult,
  type HandsetHabits,
  MAKE_ALIKE_REQUEST,
  type MakeAlikeParams,
} from "../../../shared/protocol/fleet-change.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import { toFiles } from "./osd-edits.ts";
import { inSlicesOver } from "./slices.ts";
import type { UriOf } from "./to-lsp.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "The change could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};
const NOTHING: Refused = { kind: "refused", message: "No craft is chosen, so nothing is written." };

/** Answers what changes of several craft ask, with all files of the workspace read. */
export function answerFleetEdits(connection: Connection, documents: Documents, guard: Guard): void {
  answerHabits(connection, documents, guard);
  answerAlike(connection, documents, guard);
}

/** Answers `fettle/habits`, `fettle/habitCondition` and `fettle/changeHabit`. */
function answerHabits(connection: Connection, documents: Documents, guard: Guard): void {
  const { uriOf, now } = documents;
  connection.onRequest(
    HABITS_REQUEST,
    guard<Request<object>, HabitsResult>("habits", { handsets: [] }, async (_, token) => {
      await documents.loadWorkspace();
      const handsets = await inSlicesOver(documents, habitsOf, token);
      return { handsets: handsets.map((each) => withAddresses(each, uriOf)) };
    }),
  );
  connection.onRequest(
    HABIT_CONDITION_REQUEST,
    guard<[HabitConditionParams], HabitConditionResult>("condition of a habit", { fault: null }, ({ mode, to }) => ({
      fault: faultOfCondition(now(), mode, to),
    })),
  );
  connection.onRequest<FleetChangeResult, void>(
    CHANGE_HABIT_REQUEST,
    guard<Request<ChangeHabitParams>, FleetChangeResult>("change of a habit", FAILED, async (params, token) => {
      await documents.loadWorkspace();
      const { handset, leftOut, ...asked } = params;
      const change = { ...asked, handset: documents.pathOf(handset), leftOut: leftOut && pathsOf(leftOut, documents) };
      const made = await inSlicesOver(documents, (at) => changeHabit(at, change), token);
      return toResult(made, documents);
    }),
  );
}

/** Answers `fettle/alikeLayers` and `fettle/makeAlike`. */
function answerAlike(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest(
    ALIKE_LAYERS_REQUEST,
    guard<[AlikeLayersParams], AlikeLayersResult>("layers of a craft", { layers: [] }, async ({ example }) => {
      const craft = documents.now().craft(await documents.load(example));
      const layers = craft?.scripts.filter(({ kind }) => kind === "layer") ?? [];
      return { layers: layers.map(({ file, name }) => ({ file: documents.uriOf(file), name })) };
    }),
  );
  connection.onRequest<FleetChangeResult, void>(
    MAKE_ALIKE_REQUEST,
    guard<Request<MakeAlikeParams>, FleetChangeResult>("craft made alike", FAILED, async (params, token) => {
      await documents.loadWorkspace();
      const { kinds, leftOut } = params;
      const layers = pathsOf(params.layers, documents);
      const asked = {
        kinds,
        layers,
        example: documents.pathOf(params.example),
        leftOut: leftOut && keysOf(leftOut, documents),
      };
      const made = await inSlicesOver(documents, (at) => makeAlike(at, asked), token);
      return toResult(made, documents);
    }),
  );
}

function withAddresses({ file, modes, ...handset }: HandsetHabits, uriOf: UriOf): HandsetHabits {
  const placed = ({ text, craft }: Habit): Habit => ({
    text,
    craft: craft.map((each) => ({ ...each, file: uriOf(each.file) })),
  });
  return {
    ...handset,
    file: uriOf(file),
    modes: modes.map(({ name, habits }) => ({ name, habits: habits.map(placed) })),
  };
}

/** What is left out: addresses of craft, some with the name of a line behind a blank. */
function keysOf(keys: readonly string[], documents: Documents): string[] {
  return keys.map((key) => {
    const [uri = "", ...what] = key.split(" ");
    return [documents.pathOf(asUri(uri)), ...what].join(" ");
  });
}

function pathsOf(uris: readonly string[], documents: Documents): FilePath[] {
  return uris.map((uri) => documents.pathOf(asUri(uri)));
}

/** With the editor's own addresses, and the versions of those documents that it has open. */
function toResult(change: CoreChange | string, documents: Documents): FleetChangeResult {
  if (typeof change === "string") return { kind: "refused", message: change };
  const { title, notes, craft, files } = change;
  return {
    kind: "change",
    title,
    notes,
    craft: craft.map((each) => ({
      ...each,
      file: documents.uriOf(each.file),
      lines: each.lines.map((line) => ({
        ...line,
        at: line.at && { file: documents.uriOf(line.at.file), line: line.at.line },
      })),
    })),
    edits: files.length === 0 ? NOTHING : { kind: "edits", files: toFiles(files, documents) },
  };
}
