/** The dialect that a command works with: the one that is named, else the one by which a text is known. */
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { dialectOf, dialectsFitting, dialectsIn } from "../../../shared/dialect/dialects.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { CannotRun, type Io } from "./io.ts";
import { openScripts } from "./scripts.ts";

export interface OpenedDialect {
  readonly dialect: Dialect;
  readonly workspace: Workspace;
  /** Its path as a person knows it. */
  readonly name: string;
}

/** The dialect of a file. What is wrong in it goes to standard error; lines with a fault are left out. */
export async function openDialect(path: string, io: Io): Promise<OpenedDialect> {
  const { opened, refused, nameOf } = await openScripts([path], io);
  if (refused[0] !== undefined) throw new CannotRun(refused[0]);
  const [one, second] = opened;
  if (!one || second) throw new CannotRun(`${path} holds several scripts: name one dialect`);
  return named(one.workspace, one.file, nameOf(one.file), io);
}

/** The dialect of a file of a workspace that is open. */
export function named(workspace: Workspace, file: string, name: string, io: Io): OpenedDialect {
  const dialect = dialectOf(workspace, file);
  if (!dialect) {
    const kind = workspace.script(file)?.kind;
    throw new CannotRun(
      kind ? `${name} is a ${kind}, and a dialect is expected here` : `${name}: there is no such file`,
    );
  }
  tellFaults(dialect, name, io);
  return { dialect, workspace, name };
}

/** The one dialect of the workspace by which a text is known; of several a person at a terminal is asked. */
export async function dialectOfText(
  text: string,
  workspace: Workspace,
  nameOf: (file: string) => string,
  io: Io,
): Promise<OpenedDialect> {
  const fitting = dialectsFitting(dialectsIn(workspace), text);
  const [one] = fitting;
  if (!one) throw new CannotRun("no dialect of this workspace knows this text (known-by): name one with --dialect");
  const chosen = fitting.length === 1 ? one : await asked(fitting, nameOf, io);
  const name = nameOf(chosen.file);
  tellFaults(chosen, name, io);
  return { dialect: chosen, workspace, name };
}

async function asked(fitting: readonly Dialect[], nameOf: (file: string) => string, io: Io): Promise<Dialect> {
  const names = fitting.map(({ file }) => nameOf(file));
  const conversation = io.converse?.();
  if (!conversation) {
    throw new CannotRun(`several dialects know this text: name one with --dialect: ${names.join(", ")}`);
  }
  try {
    io.error(`Several dialects know this text:\n${names.map((name, i) => `  ${i + 1}  ${name}\n`).join("")}`);
    for (;;) {
      const answer = await conversation.ask("Which one? Its number: ");
      if (answer === null) throw new CannotRun("no dialect was chosen");
      const chosen = /^\d+$/.test(answer.trim()) ? fitting[Number(answer) - 1] : undefined;
      if (chosen) return chosen;
    }
  } finally {
    conversation.end();
  }
}

/** As many faults of a dialect as are listed: fettle check tells all. */
const MOST_FAULTS = 5;

/** What takes a line out of a dialect; the rest is told by fettle check. */
const TAKES_OUT = new Set(["syntax", "unknown-name", "slot-unmatched"]);

function tellFaults(dialect: Dialect, name: string, io: Io): void {
  const issues = dialect.issues.filter(({ code }) => TAKES_OUT.has(code));
  for (const { span, code, message } of issues.slice(0, MOST_FAULTS))
    io.error(`${name}:${span.line + 1}:${span.start + 1}  ${code}  ${message}\n`);
  const more = issues.length - MOST_FAULTS;
  if (more > 0) io.error(`${name}: and ${more} more, see fettle check ${name}\n`);
}
