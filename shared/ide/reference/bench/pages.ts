/** The pages about the bench. */
import { type DialectPage, pageText } from "../dialect/example.ts";
import { benchListPage } from "./bench-list.ts";
import { hoverPage } from "./hover-roughly.ts";
import { putBackPage } from "./put-back.ts";

export const benchPages: readonly DialectPage[] = [benchListPage, putBackPage, hoverPage];

/** The page of this name as Markdown; null where no page about the bench is called so. */
export function benchTopic(name: string): string | null {
  const page = benchPages.find((each) => each.name === name);
  return page ? pageText(page) : null;
}
