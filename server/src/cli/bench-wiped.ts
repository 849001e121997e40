/** What `fettle bench --wiped` asks for besides the craft: the dialect, the saved text, the day. */

import { boardFileOf } from "../../../shared/dialect/dialects.ts";
import { type PutBackOptions, putBackDialects } from "../../../shared/ide/bench/put-back.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { localDay } from "../../../shared/text/day.ts";
import type { Arguments } from "./arguments.ts";
import { readBoardText } from "./board-bytes.ts";
import { named, openDialect } from "./board-dialects.ts";
import { CannotRun, type Io } from "./io.ts";

interface Opened {
  readonly craft: Craft;
  readonly workspace: Workspace;
  readonly nameOf: (file: string) => string;
}

/** A text or a dialect that the craft names and that is not there is told of on standard error, and done without. */
export async function putBackOptions(opened: Opened, given: Arguments, io: Io): Promise<PutBackOptions> {
  const { craft, workspace } = opened;
  const text = await savedText(opened, io);
  const known = putBackDialects(craft, workspace, text);
  const path = given.text("dialect");
  if (path === undefined) tellOwnDialect(opened, io);
  return {
    dialect: path === undefined ? known.dialect : (await openDialect(path, io)).dialect,
    saved: text === null ? null : { text, dialect: known.reader },
    day: dayOf(given),
  };
}

/** What is wrong in the dialect that the craft names, or with its file. */
function tellOwnDialect({ craft, workspace, nameOf }: Opened, io: Io): void {
  const file = boardFileOf(craft, "dialect");
  if (file === null) return;
  try {
    named(workspace, workspace.view.realPath(file), nameOf(file), io);
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    io.error(`${error.message} (board.dialect)\n`);
  }
}

async function savedText({ craft, nameOf }: Opened, io: Io): Promise<string | null> {
  const file = boardFileOf(craft, "text");
  if (file === null) return null;
  try {
    return (await readBoardText(file, io)).text;
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error;
    io.error(`${nameOf(file)}${error.message.slice(file.length)} (board.text): so nothing is known of what it said\n`);
    return null;
  }
}

function dayOf(given: Arguments): string {
  const day = given.text("flashed");
  if (day === undefined) return localDay(new Date());
  const known = /^\d{4}-\d\d-\d\d$/.test(day) ? new Date(`${day}T00:00:00Z`) : null;
  if (!known || Number.isNaN(known.getTime()) || known.toISOString().slice(0, 10) !== day)
    throw new CannotRun(`--flashed takes a day, such as 2026-03-15, and “${day}” is none`);
  return day;
}
