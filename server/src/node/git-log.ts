/** The commits of a revision as git lists them, each with the scripts that it changed. */
import { asking, entriesIn, type GitSteps, kindOf, NoRevision, type TreeEntry } from "./git.ts";
import { ROOT_MARK } from "./workspace-place.ts";

/** A commit and what it did to scripts, compared with its first parent. */
export interface LoggedCommit {
  readonly id: string;
  /** The nearest earlier commits that are listed too. */
  readonly parents: readonly string[];
  readonly author: string;
  /** When the author wrote it and when it was committed, in ISO 8601. */
  readonly date: string;
  readonly committedOn: string;
  /** The first line of the message. */
  readonly subject: string;
  readonly changes: readonly LoggedChange[];
}

export interface LoggedChange {
  /** Paths from the top. */
  readonly path: string;
  /** Under which path the parent has it, where the file was renamed. */
  readonly renamedFrom: string | null;
  /** Null where the file is gone. */
  readonly entry: TreeEntry | null;
}

const FORMAT = ["%x01%H", "%P", "%aN", "%aI", "%cI", "%s"].join("%x00");
const FIELDS = FORMAT.split("%x00").length;

/** What git is told besides, so that nothing in anyone's own settings changes what it prints. */
const PLAIN = ["--raw", "-z", "-M", "--no-abbrev", "--no-color", "--no-relative", "--no-ext-diff"];

/**
 * Every commit that a revision leads back to, later ones first and each before its parents, as far as it changed
 * scripts or brought two lines of commits together. `links` are paths besides scripts that lead to some.
 * @throws NoRevision where git cannot list them
 */
export function* logOf(commit: string, links: readonly string[]): GitSteps<readonly LoggedCommit[]> {
  const args = ["log", "--full-history", "--parents", "--date-order", "--diff-merges=first-parent", "--root"];
  const format = ["--encoding=UTF-8", "--no-show-signature", `--format=${FORMAT}`];
  const ran = yield* asking([...args, ...PLAIN, ...format, commit, "--", ...pathspec(links)]);
  if (ran.status !== 0) throw new NoRevision(`git cannot list its commits: ${ran.error}`);
  return yield* commitsIn(ran.out.toString("utf8"));
}

/** What one commit did to scripts, compared with any other. */
export function changesBetween(before: string, after: string): GitSteps<readonly LoggedChange[]> {
  return changesOf(["diff-tree", "-r", ...PLAIN, before, after]);
}

/** What the working tree has done to scripts that git follows, compared with HEAD. */
export function changesInWorkingTree(): GitSteps<readonly LoggedChange[]> {
  return changesOf(["diff", ...PLAIN, "HEAD"]);
}

function* changesOf(args: readonly string[]): GitSteps<readonly LoggedChange[]> {
  const ran = yield* asking([...args, "--", ...pathspec([])]);
  if (ran.status !== 0) throw new NoRevision(`git cannot compare two commits: ${ran.error}`);
  return changesIn(ran.out.toString("utf8").split("\0"), 0).changes;
}

/** Everything that a commit holds, by path from its top. */
export function* treeOfCommit(commit: string): GitSteps<ReadonlyMap<string, TreeEntry>> {
  const ran = yield* asking(["ls-tree", "-r", "-z", "--full-tree", commit]);
  if (ran.status !== 0) throw new NoRevision(`git cannot list its files: ${ran.error}`);
  return entriesIn(ran.out.toString("utf8"), ([mode = "", , id = ""]) => ({ mode, id }));
}

/** So many commits are read without a pause. */
const MOST_AT_ONCE = 200;

function pathspec(links: readonly string[]): string[] {
  return [":(top)*.fettle", `:(top,glob)**/${ROOT_MARK}`, ...links.map((path) => `:(top,literal)${path}`)];
}

function* commitsIn(listed: string): GitSteps<LoggedCommit[]> {
  const tokens = listed.split("\0");
  const commits: LoggedCommit[] = [];
  for (let at = 0; at < tokens.length; ) {
    if (!tokens[at]!.startsWith("\x01")) {
      at++;
      continue;
    }
    const [id = "", parents = "", author = "", date = "", committedOn = "", subject = ""] = tokens.slice(
      at,
      at + FIELDS,
    );
    const { changes, end } = changesIn(tokens, at + FIELDS);
    commits.push({
      id: id.slice(1),
      parents: parents.split(" ").filter((each) => each !== ""),
      author,
      date,
      committedOn,
      subject,
      changes,
    });
    at = end;
    if (commits.length % MOST_AT_ONCE === 0) yield;
  }
  return commits;
}

/** Changes as git writes them raw: `:MODE MODE ID ID STATUS`, a path, and of a renamed file the new path as well. */
function changesIn(tokens: readonly string[], start: number) {
  const changes: LoggedChange[] = [];
  let at = start;
  for (; at < tokens.length; ) {
    const raw = /^\n?:\d+ (\d+) [0-9a-f]+ ([0-9a-f]+) ([A-Z])/.exec(tokens[at]!);
    if (!raw) break;
    const [, mode = "", id = "", status = ""] = raw;
    const first = tokens[at + 1] ?? "";
    const isRenamed = status === "R" || status === "C";
    const path = isRenamed ? (tokens[at + 2] ?? "") : first;
    const entry = status === "D" ? null : { kind: kindOf(mode), id };
    if (status === "R") changes.push({ path: first, renamedFrom: null, entry: null });
    changes.push({ path, renamedFrom: status === "R" ? first : null, entry });
    at += isRenamed ? 3 : 2;
  }
  return { changes, end: at };
}
