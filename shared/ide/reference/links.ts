/** Which page a name in a page's text means. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { hasOwnPage } from "./language-words.ts";
import { everyName, type NameKind, type PageName } from "./page-names.ts";

/** The page that a name in code leads to, by the chapter it stands in and the page that it stands on; null for no name. */
export type PageOfCode = (name: string, chapter: string, on: PageName | null) => PageName | null;

const known = new WeakMap<Catalogue, PageOfCode>();

/** A name with several meanings leads to the likeliest: in a list of rules to the rule, elsewhere to what is set or shown. */
export function pageOfCode(catalogue: Catalogue): PageOfCode {
  const found = known.get(catalogue) ?? makePageOfCode(catalogue);
  known.set(catalogue, found);
  return found;
}

function makePageOfCode(catalogue: Catalogue): PageOfCode {
  const kinds = new Map<string, NameKind[]>();
  for (const { name, kind } of everyName(catalogue)) kinds.set(name, [...(kinds.get(name) ?? []), kind]);
  return (name, chapter, on) => {
    const setting = `${on?.name}.${name}`;
    if (on?.kind === "section" && chapter === "Settings" && kinds.has(setting))
      return { kind: "setting", name: setting };
    // A unit, and a word that every sentence may have, lead away from what is read.
    const likely = kinds.get(name)?.filter((kind) => kind !== "unit" && (kind !== "word" || hasOwnPage(name))) ?? [];
    const expected: readonly NameKind[] = chapter.startsWith("Rules") ? ["rule"] : ["setting", "mode", "element"];
    const kind = likely.find((each) => expected.includes(each)) ?? likely[0];
    return kind ? { kind, name } : null;
  };
}
