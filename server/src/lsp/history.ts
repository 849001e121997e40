/** The history of a value: by the host's own git where it has one, else by what the client knows of commits. */
import type { CancellationToken, Connection } from "vscode-languageserver";
import { historyOf, type Moment, type ValueChange } from "../../../shared/ide/history/history.ts";
import { historyReport, type ReportedChange, type ReportedValue } from "../../../shared/ide/history/history-report.ts";
import { placeOf } from "../../../shared/ide/history/past-value.ts";
import { craftAt, saidNameAt, wordsOf } from "../../../shared/ide/origin/name-at.ts";
import { type FilePath, memoryFiles } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { asUri, type Uri } from "../../../shared/protocol/addresses.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import {
  HISTORY_REQUEST,
  type HistoryParams,
  type HistoryResult,
  type HistoryRow,
  LOG_REQUEST,
  type LoggedCommit,
  type LogParams,
  type LogResult,
} from "../../../shared/protocol/history.ts";
import { otherAddress } from "../../../shared/protocol/other-texts.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import type { ReadOther } from "./other-side.ts";
import { inSlicesOver } from "./slices.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "The history could not be told, which is a fault of this tool; its log says more.",
};
const NO_NAME = "There is no name here: put the cursor on an entry, or on a word of a “drop”.";
/** So many commits are looked at where each of their texts is a message there and back. */
const MOST_ASKED = 60;
const ASKED_NOTE = `At most ${MOST_ASKED} commits, none followed through a rename: “fettle history” tells more.`;

/** A moment with the commit that it is; null for what lies in the working tree. */
interface PastMoment extends Moment {
  readonly commit: LoggedCommit | null;
  /** The address of one of its files. */
  uriOf(file: FilePath): Uri;
}

interface Past {
  readonly moments: readonly PastMoment[];
  readonly notes: readonly string[];
}

/** Answers `fettle/history`, with all files of the workspace read. */
export function answerHistory(connection: Connection, documents: Documents, guard: Guard, readOther: ReadOther): void {
  const askLog = async (params: LogParams): Promise<LogResult> => {
    try {
      return await connection.sendRequest<LogResult>(LOG_REQUEST, params);
    } catch {
      return {
        kind: "none",
        why: "This editor does not tell what was committed: “fettle history” does on the command line.",
      };
    }
  };
  const past: PastOf = async (file, token) =>
    (await hostPast(documents, file)) ?? (await clientPast(documents, file, askLog, readOther, token));
  connection.onRequest<HistoryResult, void>(
    HISTORY_REQUEST,
    guard<Request<HistoryParams>, HistoryResult>("history", FAILED, async (params, token) => {
      const file = await documents.loadAll(params.uri);
      return historyAt(documents, file, params, past, token);
    }),
  );
}

type PastOf = (file: FilePath, token: CancellationToken | undefined) => Promise<Past | Refused>;

async function historyAt(
  documents: Documents,
  file: FilePath,
  { position, craft: picked }: HistoryParams,
  pastOf: PastOf,
  token: CancellationToken | undefined,
): Promise<HistoryResult> {
  const now = documents.now();
  const name = saidNameAt(now, file, position);
  if (!name) return { kind: "refused", message: NO_NAME };
  // A layer that no craft uses is looked at by itself.
  const craft = craftAt(now, file, picked && documents.pathOf(picked))?.file ?? file;
  const past = await pastOf(craft, token);
  if ("kind" in past) return past;
  const working = (workspace: Workspace): PastMoment => ({
    id: "working tree",
    parents: past.moments.slice(0, 1).map(({ id }) => id),
    workspace,
    file: craft,
    isCut: false,
    commit: null,
    uriOf: documents.uriOf,
  });
  const momentsAt = (workspace: Workspace) => [working(workspace), ...past.moments];
  const history = await inSlicesOver(documents, (at) => historyOf(momentsAt(at), name), token);
  const moments = momentsAt(documents.now());
  const script = documents.now().script(craft);
  const report = historyReport(history, {
    what: wordsOf(name),
    craft: script?.name ?? craft,
    notes: past.notes,
    commitOf: ({ commit }) => commit && { ...commit, author: commit.author ?? "", date: commit.date ?? "" },
    nameOf: (each) => each,
  });
  const byId = new Map(moments.map((each) => [each.id, each]));
  return {
    kind: "history",
    what: report.what,
    craft: { name: report.craft, uri: documents.uriOf(craft) },
    now: inWords(report.now),
    rows: history.changes.map((change, i) => rowOf(change, report.changes[i]!, byId)),
    notes: report.notes,
  };
}

function rowOf(
  { at, before, after }: ValueChange<PastMoment>,
  told: ReportedChange,
  byId: ReadonlyMap<string, PastMoment>,
): HistoryRow {
  const place = placeOf(after, before);
  const earlier = before.kind === "absent" ? undefined : byId.get(at.parents[0] ?? "");
  const fileBefore = placeOf(before, after)?.file ?? earlier?.file;
  const asides = [
    told.respelled ? "the same, written otherwise" : "",
    told.kept ? "" : "a later merge kept another value",
  ];
  return {
    commit: told.commit && shortId(told.commit),
    author: told.author || null,
    day: told.date?.slice(0, 10) || null,
    subject: told.subject,
    words: [`${inWords(told.before)} → ${inWords(told.after)}`, ...asides.filter((each) => each !== "")].join(", "),
    note: told.note,
    at: place && { file: at.uriOf(place.file), line: place.line },
    before: earlier && fileBefore !== undefined ? earlier.uriOf(fileBefore) : null,
  };
}

function inWords({ text, unknown }: ReportedValue): string {
  if (unknown !== null) return `not known (${unknown})`;
  return text ?? "not said";
}

/** Long enough for any repository of scripts, and short enough for the name of a tab. */
function shortId(id: string): string {
  return id.slice(0, 10);
}

/** By the host's own git; null where it has none to ask. */
async function hostPast(documents: Documents, file: FilePath): Promise<Past | Refused | null> {
  const answer = documents.now().view.read(file);
  const found = answer?.kind === "text" ? await documents.commitsOf(file, answer.text) : null;
  if (found === null) return null;
  if (found.kind === "none") return { kind: "refused", message: found.why };
  const core = documents.words.core();
  const moments = found.commits.map(({ id, parents, author, date, subject, view, file: place, isCut }) => ({
    id,
    parents,
    workspace: core.at(view),
    file: place,
    isCut,
    commit: { id, author, date, subject },
    uriOf: (each: FilePath) => otherAddress({ uri: documents.uriOf(each), revision: shortId(id) }),
  }));
  const isShallow = found.commits.some(({ isCut }) => isCut);
  return { moments, notes: isShallow ? ["This is a shallow clone: earlier commits are not in it."] : [] };
}

/** By what the client knows: the commits of the craft's files, each read with all that it uses. */
async function clientPast(
  documents: Documents,
  file: FilePath,
  askLog: (params: LogParams) => Promise<LogResult>,
  readOther: ReadOther,
  token: CancellationToken | undefined,
): Promise<Past | Refused> {
  const files = documents
    .now()
    .craftLike(file)
    ?.scripts.map((script) => script.file) ?? [file];
  const log = await askLog({ uris: [...new Set([file, ...files])].map(documents.uriOf) });
  if (log.kind === "none") return { kind: "refused", message: log.why };
  const commits = log.commits.slice(0, MOST_ASKED);
  const moments: PastMoment[] = [];
  for (const [i, commit] of commits.entries()) {
    if (token?.isCancellationRequested) break;
    const uri = documents.uriOf(file);
    const side = await readOther({ kind: "revision", uri, revision: shortId(commit.id) });
    const isRead = side.kind === "read";
    moments.push({
      id: commit.id,
      parents: commits.slice(i + 1, i + 2).map(({ id }) => id),
      workspace: isRead ? side.workspace : documents.words.core().at(memoryFiles({})),
      file: isRead ? side.file : file,
      isCut: i === MOST_ASKED - 1 && log.commits.length > MOST_ASKED,
      commit,
      uriOf: isRead ? side.uriOf : () => asUri(uri),
    });
  }
  return { moments, notes: [ASKED_NOTE] };
}
