/** A script as a diff shows it. */
import { parse } from "../../syntax/parse.ts";
import type { Line, Tree } from "../../syntax/tree.ts";

/**
 * The text with the name of the craft, layer, handset or dialect behind the name of each section, as a comment: `pack
 * # of Tankard`. A piece of a diff is headed by the nearest such line and no other, so it tells both. What it means,
 * and its lines, stay.
 */
export function diffText(text: string): string {
  const tree = parse(text);
  const { name, newer } = tree;
  if (name === null || newer) return text;
  return tree.lines
    .map((line, i) => (isHeading(line, i, tree) ? headed(line, name) : line.text) + tree.ends[i])
    .join("");
}

function isHeading(line: Line, at: number, tree: Tree): boolean {
  return line.node.kind === "section" && tree.sections.some((each) => each.line === at);
}

function headed({ text, comment }: Line, name: string): string {
  const said = comment ? text.slice(comment.start + 1).trim() : "";
  const heading = text.slice(0, comment?.start ?? text.length).trimEnd();
  return `${heading}  # of ${name}${said === "" ? "" : `: ${said}`}`;
}
