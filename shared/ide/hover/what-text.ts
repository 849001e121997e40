/** How a hover ends: what the name is, in one sentence, and the way to all the rest. */
import type { Description } from "../context/describe.ts";
import { paragraphs } from "../context/markdown.ts";
import type { PageName } from "../reference/page-names.ts";
import { type LinkTargets, pageLink } from "./links.ts";

/** What it is, the caution, and the link to its page; for a client that cannot follow one, the rest itself. */
export function whatText(description: Description, page: PageName | null, links: LinkTargets): string {
  const { title, what, hazard } = description;
  const link = page && pageLink(page, links);
  return paragraphs(`**${title}** — ${what}`, hazard, link ?? description.rest);
}
