/** The hover of a code in an `allow` comment: what is accepted, and where. */
import type { Allowance, Script } from "../../model/script.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { codeSpan, paragraphs } from "../context/markdown.ts";
import type { PageName } from "../reference/page-names.ts";
import { type LinkTargets, pageLink } from "./links.ts";

/** The rule that is accepted, and how far the note reaches; null for a code that no rule has. */
export function hoverAllowance(
  { code, holds, section }: Allowance,
  { kind }: Script,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  const rule = rules.find((each) => each.code === code);
  if (!rule) return null;
  const where = {
    line: "on this line",
    section: `in all of ${codeSpan(section ?? "")}`,
    file: "in this file",
    nothing: "nowhere, since no line follows directly",
  }[holds];
  const also = kind === "craft" || holds === "nothing" ? "" : ", and so on every craft that uses it";
  return paragraphs(
    rule.acceptable === false ? "No note can accept it." : `Accepted ${where}${also}.`,
    `**${code}** — ${rule.summary}`,
    (page && pageLink(page, links)) ?? "",
  );
}
