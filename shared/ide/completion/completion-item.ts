/** Completion items, and the offers that they are made from. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { unitFamily } from "../../catalogue/units.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import type { Range } from "../../syntax/span.ts";
import { type Description, describeName, describeSection, describeUnit } from "../context/describe.ts";
import { paragraphs } from "../context/markdown.ts";

export type CompletionKind =
  | "section"
  | "setting"
  | "mode"
  | "output"
  | "element"
  | "choice"
  | "unit"
  | "control"
  | "position"
  | "keyword"
  | "anchor"
  | "field"
  | "colour"
  | "file"
  | "code"
  | "value"
  | "snippet";

/** Where the description of an offer is found. */
export type DocRef =
  | { readonly of: "name"; readonly section: string; readonly name: string }
  | { readonly of: "section"; readonly name: string }
  | { readonly of: "unit"; readonly name: string }
  | { readonly of: "rule"; readonly name: string }
  | { readonly of: "text"; readonly text: string };

export interface CompletionItem {
  readonly label: string;
  readonly kind: CompletionKind;
  /** A few words beside the label. */
  readonly detail: string;
  /** The text that is inserted; a snippet where `snippet` is true. */
  readonly text: string;
  readonly snippet: boolean;
  /** What the editor matches the typed text against: the label, then synonyms. */
  readonly filter: string;
  /** The range that is replaced. */
  readonly range: Range;
  /** Items are sorted by this text. */
  readonly sort: string;
  readonly doc: DocRef | null;
  /** True where a value is expected directly after it, so that completion is triggered again. */
  readonly retrigger: boolean;
}

/** A completion item without its range. `group` sorts: 0 first, 9 last. */
export interface Offer {
  readonly label: string;
  readonly kind: CompletionKind;
  readonly detail?: string;
  readonly text?: string;
  readonly snippet?: boolean;
  /** Synonyms by which it is found as well. */
  readonly words?: readonly string[];
  readonly group?: number;
  readonly doc?: DocRef | null;
  readonly retrigger?: boolean;
}

/** Offers as completion items for a range: in the order of their groups, then as given. */
export function completionItems(offers: readonly Offer[], range: Range): CompletionItem[] {
  return offers.map((offer, i) => ({
    label: offer.label,
    kind: offer.kind,
    detail: offer.detail ?? "",
    text: offer.text ?? offer.label,
    snippet: offer.snippet === true,
    // The editor matches single words: “self level” is found by self-level.
    filter: [offer.label, ...(offer.words ?? []).map((word) => word.replaceAll(" ", "-"))].join(" "),
    range,
    sort: `${offer.group ?? 5}${String(i).padStart(4, "0")}`,
    doc: offer.doc ?? null,
    retrigger: offer.retrigger === true,
  }));
}

/** What there is to know of an offer besides its detail, as Markdown; null where there is nothing more. */
export function documentationOf(catalogue: Catalogue, doc: DocRef): string | null {
  switch (doc.of) {
    case "name":
      return textOf(describeName(catalogue, doc.section, doc.name));
    case "section": {
      const section = catalogue.section(doc.name);
      return section ? textOf(describeSection(section)) : null;
    }
    case "unit": {
      const family = unitFamily(doc.name);
      return family ? paragraphs(family.what, describeUnit(doc.name, family).rest) : null;
    }
    case "rule": {
      const rule = rules.find((each) => each.code === doc.name);
      return rule?.prose ?? null;
    }
    case "text":
      return doc.text;
  }
}

/** A unit, its name beside it. */
export function unitOffer(label: string, group: number): Offer {
  const unit = unitFamily(label)?.units.find(({ symbol }) => symbol === label);
  return {
    label,
    kind: "unit",
    detail: unit && unit.name !== label ? unit.name : "",
    group,
    doc: { of: "unit", name: label },
  };
}

/** What is known besides the one sentence that stands beside the label. */
function textOf(description: Description | null): string | null {
  return description && paragraphs(description.hazard, description.rest);
}

/** Plain text escaped for use in a snippet, where `$`, `}` and `\` are special. */
export function inSnippet(text: string): string {
  return text.replace(/[\\$}]/g, "\\$&");
}
