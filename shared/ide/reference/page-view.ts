/** The page of a name as an editor shows it: HTML whose links are addresses of other pages, `#KIND/NAME`. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { NamedPage, PageView } from "../../protocol/pages.ts";
import { escapeHtml } from "../../text/html.ts";
import { colouredScript } from "./coloured-script.ts";
import { pageOfCode } from "./links.ts";
import { htmlOf } from "./markdown-html.ts";
import { exactly, namesLike, pageOfNamed } from "./page.ts";
import { everyName, type PageName, pageAddress, parseAddress } from "./page-names.ts";
import { SURE, searchNames } from "./search.ts";

/** The page of everything that has this name, or of KIND/NAME; of an unknown one, what may have been meant, as links. */
export function pageView(catalogue: Catalogue, asked: string): PageView {
  const { named: exact, topic } = exactly(catalogue, asked);
  const named = exact.length > 0 || topic !== null ? exact : meantBy(catalogue, asked);
  const { name } = parseAddress(asked.trim());
  const parts = [
    ...named.map((page) => htmlOfPage(catalogue, pageOfNamed(catalogue, page), page)),
    ...(topic === null ? [] : [htmlOfPage(catalogue, topic, null)]),
  ];
  if (parts.length === 0) return { asked, title: name, html: unknownHtml(name, namesLike(catalogue, asked)) };
  return { asked, title: named[0]?.name ?? name, html: parts.join("\n<hr>\n") };
}

/** More pages than these are not read below one another. */
const MOST_PAGES = 3;

/** What is named in other letters, or by exactly its plain words, such as a pilot's own word for it. */
function meantBy(catalogue: Catalogue, asked: string): NamedPage[] {
  const found = searchNames(catalogue, asked, MOST_PAGES).filter(({ cost }) => cost < SURE);
  return found.map(({ page }) => page);
}

function htmlOfPage(catalogue: Catalogue, markdown: string, on: PageName | null): string {
  const meant = pageOfCode(catalogue);
  const linkTo = (name: string, chapter: string) => {
    const page = meant(name, chapter, on);
    // A page leads to others: its own name is no link.
    return page && !(page.kind === on?.kind && page.name === on.name) ? `#${pageAddress(page)}` : null;
  };
  return htmlOf(markdown, linkTo, (script) => colouredScript(catalogue, script));
}

function unknownHtml(name: string, near: readonly NamedPage[]): string {
  const called = `<h2>${escapeHtml(name)}</h2>\n<p>Nothing is called “${escapeHtml(name)}”: no section, setting, mode, element, unit, rule or word of the language.</p>`;
  if (near.length === 0)
    return `${called}\n<p>Search for it above in other words, or begin at <a href="#word/language"><code>language</code></a>: how a script is written.</p>`;
  const items = near.map(
    (page) =>
      `<li><a href="#${escapeHtml(pageAddress(page))}"><code>${escapeHtml(page.name)}</code></a> <em>${page.kind}</em>: ${escapeHtml(page.summary.replaceAll("`", ""))}</li>`,
  );
  return `${called}\n<p>Perhaps one of these is meant:</p>\n<ul>\n${items.join("\n")}\n</ul>`;
}

/** The name of a page with what it is; null where nothing is called so. */
export function namedPage(catalogue: Catalogue, { kind, name }: PageName): NamedPage | null {
  return everyName(catalogue).find((each) => each.kind === kind && each.name === name) ?? null;
}
