/** The bench list of a craft as a file: a page to print, or Markdown. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchList, BenchShown } from "../../protocol/bench.ts";
import type { WipedBoard } from "../../protocol/bench-file.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { benchMarkdown } from "./bench-markdown.ts";
import { benchPage } from "./bench-page.ts";
import { benchPicture } from "./bench-picture.ts";
import { putBackDialects, putBackList } from "./put-back.ts";
import { sheetPictures } from "./sheet-pictures.ts";

/** The text of the file. It names the craft's file without its folders, which are nobody else's business. */
export function benchFileOf(
  craft: Craft,
  workspace: Workspace,
  form: "page" | "markdown",
  { shown, wiped }: { readonly shown?: BenchShown | undefined; readonly wiped?: WipedBoard | undefined } = {},
): string {
  const list = wiped ? putBackOf(craft, workspace, wiped) : benchPicture(craft, workspace, shown).list;
  const told = { ...list, file: fileNameOf(list.file) };
  return form === "markdown" ? benchMarkdown(told) : benchPage(told, sheetPictures(craft, workspace));
}

function putBackOf(craft: Craft, workspace: Workspace, { day, saved }: WipedBoard): BenchList {
  const { dialect, reader } = putBackDialects(craft, workspace, saved);
  return putBackList(craft, workspace, {
    dialect,
    saved: saved === null ? null : { text: saved, dialect: reader },
    day,
  });
}

/** Where a page is proposed to be saved, beside the craft's own file. */
export function benchPath(file: FilePath, wiped?: WipedBoard): FilePath {
  return file.replace(/(?:\.fettle)?$/, wiped ? "-put-back.html" : "-bench.html");
}
