/** Craft whose OSD does not show anything yet, of every picture and every state of the script. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { beginningsOf } from "../../../shared/ide/edits/osd-beginnings.ts";
import { osdEditOf } from "../../../shared/ide/edits/osd-edit.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { OsdSource } from "../../../shared/protocol/osd-edit.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { edited } from "./scripts-edited.ts";

const core = makeCore(makeCatalogue());
const FILE = "jug.fettle";

export interface BeginCase {
  readonly name: string;
  readonly files: Readonly<Record<string, string>>;
  readonly page?: "osd-second";
}

const craft = (...lines: string[]) => `craft "Jug"\n\n${lines.join("\n")}\n`;
const video = (...lines: string[]) => ["video", ...lines.map((line) => `  ${line}`), ""];
const own = (name: string, ...lines: string[]): BeginCase => ({ name, files: { "jug.fettle": craft(...lines) } });

export const WIDE = `layer "Wide"

osd
  grid 53 x 20
  cell-volts   at left+2, bottom-1
  link-quality at right-2, top+1
`;

export const beginCases: readonly BeginCase[] = [
  { name: "nothing but a header", files: { "jug.fettle": 'craft "Jug"' } },
  own("analogue, pal", ...video("signal analogue", "standard pal")),
  own("analogue, ntsc", ...video("signal analogue", "standard ntsc")),
  own("analogue, no standard said", ...video("signal analogue")),
  own("analogue and wide", ...video("signal analogue", "standard pal", "camera-picture 16:9")),
  own("digital, no grid said", ...video("signal digital")),
  own("a viewer of 53 x 20", ...video("signal digital", "viewer-grid 53 x 20")),
  own("a viewer that is the same", ...video("signal analogue", "standard ntsc", "viewer-grid same")),
  own("a viewer of few cells", ...video("viewer-grid 20 x 8")),
  own("a viewer with room for one", ...video("viewer-grid 8 x 2")),
  own("satellites", ...video("viewer-grid 60 x 22"), "ports", "  port1 receiver", "  port3 gps"),
  own("no satellites", ...video("viewer-grid 60 x 22"), "ports", "  port1 receiver", "  port3 spare"),
  own("a current sensor", ...video("viewer-grid 50 x 18"), "pack", "  chemistry li-ion", "  current-from shunt"),
  own("nothing measures the pack", ...video("viewer-grid 50 x 18"), "pack", "  volts-from none", "  current-from none"),
  own("a grid and nothing on it", "osd", "  grid          pal", "", "pack", "  cells 4"),
  own("a grid with a fault", "osd", "  grid 53 by 20"),
  own(
    "elements and no grid",
    "osd",
    "  # over the volts",
    "  amps          at left+2, bottom-2",
    "  cell-volts    at 40, 17",
  ),
  own("elements with tabs and no grid", "osd", "\tamps\tat left+2, bottom-2"),
  own("alerts said, nothing placed", "osd", "  alert-on low-pack", ""),
  {
    name: "a second page",
    page: "osd-second",
    files: { "jug.fettle": craft("osd", "  grid 53 x 20", "  cell-volts at left+2, bottom-1") },
  },
  { name: "a second page alone", page: "osd-second", files: { "jug.fettle": craft(...video("viewer-grid 53 x 20")) } },
  {
    name: "a layer with the grid",
    files: { "jug.fettle": 'craft "Jug"\nuse "grid.fettle"\n', "grid.fettle": 'layer "Grid"\nosd\n  grid 50 x 18\n' },
  },
  {
    name: "a layer to use, and a friend's craft",
    files: {
      "jug.fettle": craft(...video("viewer-grid 53 x 20")),
      "layers/wide.fettle": WIDE,
      "layers/narrow.fettle": 'layer "A narrow one"\nosd\n  grid pal\n  mode at left, top\n',
      "mug.fettle": 'craft "Mug"\nuse "layers/wide.fettle"\nosd\n  home-arrow at centre, top+1\n',
    },
  },
  {
    name: "all dropped",
    files: { "jug.fettle": 'craft "Jug"\nuse "wide.fettle"\n\nosd\n  drop all\n', "wide.fettle": WIDE },
  },
  { name: "lines that end in CR LF", files: { "jug.fettle": 'craft "Jug"\r\n\r\nvideo\r\n  standard pal\r\n' } },
  { name: "a newer edition", files: { "jug.fettle": 'craft "Jug" edition 9\n' } },
  {
    name: "a conflict",
    files: { "jug.fettle": 'craft "Jug"\n<<<<<<< a\npack\n  cells 4\n=======\npack\n  cells 6\n>>>>>>> b' },
  },
];

const workspaceOf = ({ files }: BeginCase) => core.at(memoryFiles(files));

/** What is offered, a word for each. */
export function offersFor(each: BeginCase): string {
  const workspace = workspaceOf(each);
  const begin = beginningsOf(workspace.craft(FILE)!, workspace, each.page ?? "osd");
  if (!begin) return "nothing";
  const size = ({ columns, rows }: { readonly columns: number; readonly rows: number }) => `${columns}x${rows}`;
  const models = [...begin.layers, ...begin.crafts].map((model) => `${model.name} ${size(model)}`);
  return `${begin.lacks}: ${[...begin.grids.map(size), ...models].join(", ")}`;
}

/** The lines that are written, and the codes of the findings that come with them; or why nothing is written. */
export function begun(each: BeginCase, from?: OsdSource): string {
  const workspace = workspaceOf(each);
  const page = each.page ?? "osd";
  const grid = beginningsOf(workspace.craft(FILE)!, workspace, page)?.grids[0] ?? { columns: 53, rows: 20 };
  const gesture = { kind: "begin" as const, from: from ?? { kind: "usual" as const, ...grid } };
  const answer = osdEditOf(workspace, FILE, { page, where: null, gesture });
  if (answer.kind !== "edits") return answer.kind === "refused" ? answer.message : answer.kind;
  const after: Record<string, string> = { ...each.files };
  for (const { file, edits } of answer.files) after[file] = edited(after[file]!, edits);
  const before = each.files[FILE]!.split(/\r?\n/);
  const written = after[FILE]!.split(/\r?\n/).filter((line) => line !== "" && !before.includes(line));
  const told = findingsOf(workspace, FILE).map(({ message }) => message);
  const fresh = findingsOf(core.at(memoryFiles(after)), FILE).filter(({ message }) => !told.includes(message));
  return [...written, ...fresh.map(({ code }) => `! ${code}`)].join("\n");
}
