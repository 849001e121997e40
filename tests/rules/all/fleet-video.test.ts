/**
 * Craft that fly together, held to `fleet-video.txt`: below each flight what is found, as `CRAFT: message`, and what
 * its fix is called. A craft is a line of its entries in “video”. `UPDATE_CASES=1` writes what is found, to be read.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { viewTogether } from "../../../shared/rules/lib/flown.ts";

const core = makeCore(makeCatalogue());
const PATH = inProject("tests/rules/all", "fleet-video.txt");

interface Flight {
  readonly title: string;
  readonly lines: readonly string[];
  readonly expected: readonly string[];
}

const flights = readFileSync(PATH, "utf8")
  .split(/^## /m)
  .filter((part) => part.trim() !== "")
  .map((part): Flight => {
    const [title = "", ...lines] = part.trimEnd().split("\n");
    return {
      title,
      lines: lines.filter((line) => !line.startsWith("  ")),
      expected: lines.filter((line) => line.startsWith("  ")),
    };
  });

const LINE = /^(?<how>layer |stays: )?(?<path>[\w/]+)(?: "(?<name>[^"]*)")?: ?(?<entries>.*)$/;

/** The scripts of a flight by path, and the paths that are named. */
function read({ lines }: Flight): { texts: Record<string, string>; together: string[] } {
  const texts: Record<string, string> = {};
  const together: string[] = [];
  for (const line of lines) {
    const also = /^also: (.*)$/.exec(line)?.[1];
    const { how = "", path = "", name, entries = "" } = LINE.exec(line)?.groups ?? {};
    if (also !== undefined) together.push(also);
    else {
      const file = `${path.toLowerCase()}.fettle`;
      const shown = JSON.parse(`"${(name ?? path.split("/").at(-1)!).replace(/\\u\{(\w+)\}/g, "\\u$1")}"`) as string;
      texts[file] = script(how === "layer " ? "layer" : "craft", shown, entries);
      if (how === "") together.push(file);
    }
  }
  return { texts, together };
}

function script(kind: string, name: string, entries: string): string {
  const parts = entries.split("; ").filter((each) => each !== "");
  const uses = parts.filter((each) => each.startsWith("use "));
  const rest = parts.filter((each) => !uses.includes(each));
  return [
    `${kind} "${name}"`,
    ...uses,
    ...(rest.length > 0 ? ["video", ...rest.map((each) => `  ${each}`)] : []),
    "",
  ].join("\n");
}

function workspaceOf(texts: Record<string, string>, together: readonly string[]): Workspace {
  return core.at(viewTogether(memoryFiles(texts), core, together));
}

function found(flight: Flight): string[] {
  const { texts, together } = read(flight);
  const workspace = workspaceOf(texts, together);
  return Object.keys(texts).flatMap((file) =>
    findingsOf(workspace, file)
      .filter(({ code }) => code === "fleet-video" || code === "allow-unused")
      .map(({ message, fixes, range }) => {
        const line = texts[file]!.split("\n")[range.start.line]!;
        const marked = line.slice(range.start.character, range.end.character);
        return `  ${file} ${marked}: ${message}${fixes.map(({ title }) => ` [${title}]`).join("")}`;
      }),
  );
}

if (process.env.UPDATE_CASES !== undefined)
  writeFileSync(
    PATH,
    flights.map((each) => `## ${[each.title, ...each.lines, ...found(each)].join("\n")}\n`).join("\n"),
  );

test.each(flights.map((flight) => [flight.title, flight] as const))("%s", (_, flight) => {
  expect(found(flight)).toEqual(flight.expected);
});

test("an editor looks for a plan only as long as a key may wait, and says who looks longer", () => {
  const names = ["Bowl", "Cup", "Jug", "Saucer", "Urn", "Vat"];
  const lines = names.map((name) => `${name}: signal analogue; frequency 5806 MHz`);
  const { texts, together } = read({ title: "", lines, expected: [] });
  const messages = (isPatient: boolean) => {
    const own = makeCore(makeCatalogue());
    const view = { ...viewTogether(memoryFiles(texts), own, together), isPatient };
    return findingsOf(own.at(view), "bowl.fettle").map(({ message }) => message);
  };
  expect(messages(false).join()).toContain("“fettle fleet --together” looks longer.");
  expect(messages(true).join()).toContain("and nothing is left in the way");
});

test("there are flights of all kinds", () => expect(flights.length).toBeGreaterThan(60));
