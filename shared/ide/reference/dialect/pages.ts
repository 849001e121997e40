/** The pages about dialects, in the order in which one reads them. */
import { codes } from "./codes.ts";
import { type DialectPage, pageText } from "./example.ts";
import { guide } from "./guide.ts";
import { lines } from "./lines.ts";
import { reading } from "./reading.ts";
import { report } from "./report.ts";
import { theFile } from "./the-file.ts";
import { writing } from "./writing.ts";

export const dialectPages: readonly DialectPage[] = [theFile, lines, codes, reading, writing, report, guide];

/** The page of this name as Markdown; null where no page about dialects is called so. */
export function dialectPage(name: string): string | null {
  const page = dialectPages.find((each) => each.name === name);
  return page ? pageText(page) : null;
}
