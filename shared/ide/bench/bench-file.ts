/** The bench list of a craft as a file: a page to print, or Markdown. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchShown } from "../../protocol/bench.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { benchMarkdown } from "./bench-markdown.ts";
import { benchPage } from "./bench-page.ts";
import { benchPicture } from "./bench-picture.ts";
import { sheetPictures } from "./sheet-pictures.ts";

/** The text of the file. It names the craft's file without its folders, which are nobody else's business. */
export function benchFileOf(
  craft: Craft,
  workspace: Workspace,
  form: "page" | "markdown",
  shown: BenchShown | undefined,
): string {
  const { list } = benchPicture(craft, workspace, shown);
  const told = { ...list, file: fileNameOf(list.file) };
  return form === "markdown" ? benchMarkdown(told) : benchPage(told, sheetPictures(craft, workspace));
}

/** Where a page is proposed to be saved, beside the craft's own file. */
export function benchPath(file: FilePath): FilePath {
  return file.replace(/(?:\.fettle)?$/, "-bench.html");
}
