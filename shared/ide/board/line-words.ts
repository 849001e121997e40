/** A board line in our words, as a hover shows it, and the lines of scripts to which it leads. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { dialectOf } from "../../dialect/dialects.ts";
import type { ReadLine } from "../../dialect/read/reading.ts";
import type { Craft, Source } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { plainText } from "../../text/plain-text.ts";
import {
  type Description,
  describeElement,
  describeMode,
  describeSection,
  describeSetting,
} from "../context/describe.ts";
import { effectiveEntryIn, type NamedEntry } from "../context/effective-entry.ts";
import { codeSpan, list, paragraphs } from "../context/markdown.ts";

/** Where a link leads on this client. */
export interface LineLinks {
  readonly line: (source: Source) => string | null;
  /** The page of a name, KIND/NAME. */
  readonly page: (kind: "setting" | "mode" | "element" | "section", name: string) => string | null;
}

/** What a board line says of one name. */
export interface Said extends NamedEntry {
  readonly value: string;
}

/** A `says` of a read line: a section may have a title, so its name is found by the catalogue. */
export function saidIn(catalogue: Catalogue, says: string): Said | null {
  const [first = ""] = says.split(" ", 1);
  const titled = /^(\S+ "(?:[^"\\]|\\.)*") (\S+) ?(.*)$/s.exec(says);
  const plain = /^(\S+) (\S+) ?(.*)$/s.exec(says);
  const parts = titled ?? plain;
  if (!parts) return null;
  const [, heading = "", name = "", value = ""] = parts;
  const title = /^\S+ "(.*)"$/s.exec(heading)?.[1];
  const section = title === undefined ? heading : `${first}/${title.replace(/\\(.)/g, "$1")}`;
  const base = section.replace(/[/].*$/s, "");
  const holds = catalogue.section(base)?.holds;
  const kind =
    holds === "modes"
      ? "mode"
      : holds === "outputs"
        ? "output"
        : holds === "follows"
          ? "follows"
          : holds === "places" && catalogue.element(name)
            ? "element"
            : "setting";
  return { kind, section, name, value };
}

/** The hover of a line: what it says, what each piece of it means, what the name is, and which line reads it. */
export function lineWords(
  workspace: Workspace,
  dialectFile: FilePath,
  line: Pick<ReadLine, "state" | "by" | "says" | "why" | "slots">,
  text: string,
  links: LineLinks,
): string {
  const { catalogue } = workspace;
  const said = line.says.flatMap((each) => saidIn(catalogue, each) ?? []);
  const heads: Readonly<Record<ReadLine["state"], string>> = {
    read: said.length > 0 ? line.says.map(codeSpan).join(", ") : "Says that nothing is set.",
    odd: "**Odd**: a line of the dialect nearly reads it.",
    kept: "**Kept** as it is: no line of the dialect reads it.",
    idle: "Says nothing to the craft: a comment, a heading, or what stands first or last.",
  };
  const slots = line.slots.map(
    ({ start, end, name, means }) =>
      `${codeSpan(text.slice(start, end) || " ")} is ${codeSpan(means)}${name === "#" ? " (its number)" : ""}`,
  );
  const descriptions = new Map(said.map((each) => [`${each.section}.${each.name}`, each]));
  return paragraphs(
    heads[line.state],
    line.why === null ? "" : plainText(line.why),
    list(slots),
    ...[...descriptions.values()].map((each) => described(catalogue, each, links)),
    readBy(workspace, dialectFile, line.by, links),
  );
}

function described(catalogue: Catalogue, said: Said, links: LineLinks): string {
  const base = said.section.replace(/[/].*$/s, "");
  const of = (description: Description, kind: "setting" | "mode" | "element" | "section", page: string): string => {
    const address = links.page(kind, page);
    const link = address === null ? description.rest : `[Explain ${plainText(page)}](${escaped(address)})`;
    return paragraphs(`**${description.title}** — ${description.what}`, description.hazard, link);
  };
  const mode = said.kind === "mode" ? catalogue.mode(said.name) : undefined;
  if (mode) return of(describeMode(mode), "mode", mode.name);
  const element = said.kind === "element" ? catalogue.element(said.name) : undefined;
  if (element) return of(describeElement(element), "element", element.name);
  const setting = catalogue.setting(base, said.name);
  if (setting) return of(describeSetting(catalogue, setting, base), "setting", `${base}.${setting.name}`);
  const section = catalogue.section(base);
  return section ? of(describeSection(section), "section", base) : "";
}

/** The lines of the dialect, each with its text, which leads there. */
function readBy(workspace: Workspace, file: FilePath, by: readonly number[], links: LineLinks): string {
  const dialect = dialectOf(workspace, file);
  const script = workspace.script(file);
  if (!dialect || !script || by.length === 0) return "";
  const lines = by.flatMap((line) => {
    const found = script.tree.lines[line];
    if (!found) return [];
    const address = links.line({ file, line });
    const name = `line ${line + 1} of ${plainText(dialect.name)}`;
    return `${address === null ? name : `[${name}](${escaped(address)})`}: ${codeSpan(found.text.trim())}`;
  });
  return lines.length === 0 ? "" : paragraphs("Read by", list(lines));
}

/** A bracket in an address would end the link. */
function escaped(address: string): string {
  return address.replaceAll("(", "%28").replaceAll(")", "%29");
}

/** The facts that read a line, then what the craft that name its text say of the same names. */
export function leadsTo(
  workspace: Workspace,
  dialectFile: FilePath,
  line: Pick<ReadLine, "by" | "says">,
  craft: readonly Craft[],
): readonly Source[] {
  const facts = line.by.map((each) => ({ file: dialectFile, line: each }));
  const said = line.says.flatMap((each) => saidIn(workspace.catalogue, each) ?? []);
  const sources = craft.flatMap((each) =>
    said.flatMap((entry) => effectiveEntryIn(each, entry)?.sources.map(({ source }) => source) ?? []),
  );
  const seen = new Set<string>();
  return [...facts, ...sources].filter(({ file, line: at }) => {
    const key = `${at} ${file}`;
    return !seen.has(key) && seen.add(key);
  });
}
