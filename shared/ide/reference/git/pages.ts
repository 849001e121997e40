/** The pages about keeping configurations in git, in the order in which one reads them. */
import { type DialectPage, pageText } from "../dialect/example.ts";
import { continuous } from "./continuous.ts";
import { hook } from "./hook.ts";
import { keeping } from "./keeping.ts";
import { merging } from "./merging.ts";

export const gitPages: readonly DialectPage[] = [keeping, merging, hook, continuous];

/** The page of this name as Markdown; null where no page about git is called so. */
export function gitPage(name: string): string | null {
  const page = gitPages.find((each) => each.name === name);
  return page ? pageText(page) : null;
}
