/** Offers for a line without indent: the header, `use` with its paths, sections. */

import type { SectionSpec } from "../../catalogue/specs.ts";
import { baseOf } from "../../model/craft.ts";
import { mayHold } from "../../model/may-hold.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import type { Offer } from "./completion-item.ts";
import { offerDialectSections } from "./dialect.ts";
import { allowOffer, sectionTemplates } from "./templates.ts";

const HEADERS = {
  craft: { detail: "one whole machine", text: `craft "\${1:NAME}"\n\nuse "\${2:handsets/NAME.fettle}"\n\n$0` },
  layer: { detail: "part of a configuration, made to be reused", text: `layer "\${1:NAME}"\n\n$0` },
  handset: {
    detail: "the pilot's transmitter",
    text: `handset "\${1:NAME}"\n\ntransmitter\n  band   \${2:2.4 GHz}\n  power  \${3:100 mW}\n\ncontrols\n  \${4:TL}  switch  ch\${5:5}  up 1000 us  down 2000 us\n  $0`,
  },
  dialect: {
    detail: "what one board's text means",
    text: [
      `dialect "\${1:NAME}"`,
      `text\n  known-by  "\${2:a name that the board writes into its text}"\n  comment   "\${3:;}"`,
      `codes\n  \${4:volts}  number \${5:0} to \${6:255} each \${7:0.1 V}`,
      `\${8:pack}\n  "\${9:holds} {c}"  \${10:capacity} {c} \${11:mAh}\n  $0`,
    ].join("\n\n"),
  },
} as const;

/** Headers where the file has none yet; else `use` and the sections that this kind of file may hold. */
export function offerTopLevel(workspace: Workspace, cursor: CursorContext): Offer[] {
  const { script, line } = cursor;
  if (script.tree.header === null || script.tree.header === line) {
    return Object.entries(HEADERS).map(([label, { detail, text }]) => ({
      label,
      kind: "snippet",
      detail,
      text,
      snippet: true,
      group: 0,
    }));
  }
  if (script.kind === "dialect") return offerDialectSections(workspace, cursor);
  const written = new Set(script.sections.filter((each) => each.line !== line).map((each) => baseOf(each.section)));
  const use: Offer = {
    label: "use",
    kind: "keyword",
    detail: "lay another file below this one",
    text: 'use "$1"',
    snippet: true,
    group: 1,
    retrigger: true,
    doc: {
      of: "text",
      text: "What this file says wins. Paths go from this file's own folder, with `/`.",
    },
  };
  const sections = workspace.catalogue.sections.filter((section) => mayHold(section, script.kind));
  return [
    use,
    ...sections.map((section) => offerSection(section, written.has(section.name))),
    ...sectionTemplates(sections, written),
    allowOffer,
  ];
}

function offerSection(section: SectionSpec, isWritten: boolean): Offer {
  const title = section.title === "required" ? ` "\${1:DIALECT}"` : "";
  const entry = section.holds === "kept" ? "  | $0" : "  $0";
  return {
    label: section.name,
    kind: "section",
    detail: isWritten ? "written already: repeated sections join" : section.what,
    text: `${section.name}${title}\n${entry}`,
    snippet: true,
    group: isWritten ? 7 : 2,
    doc: isWritten ? { of: "text", text: `${section.what}\n\n${section.why}` } : { of: "section", name: section.name },
    retrigger: section.holds !== "kept",
  };
}

/** Files that this one may use and does not use yet, by their paths from its folder. */
export function offerUsePaths(workspace: Workspace, { script, line }: CursorContext, partialPath: string): Offer[] {
  const used = new Set(
    script.uses.flatMap((use) => {
      const target = use.line === line ? null : workspace.target(script, use);
      return target?.kind === "script" ? [target.script.file] : [];
    }),
  );
  return workspace.view.list().flatMap((file): Offer[] => {
    const other = workspace.script(file);
    if (!other || file === script.file || used.has(file)) return [];
    if (other.kind === "craft" || (script.kind === "handset" && other.kind !== "handset")) return [];
    const path = pathBetween(script.file, file);
    if (path === file) return [];
    const group = path.startsWith(partialPath) ? 0 : 5;
    return [{ label: path, kind: "file", detail: `${other.kind} “${other.name}”`, group }];
  });
}
