/** `fettle draw`: the pictures of the panel, as files. */
import { resolve } from "node:path";
import { drawGoggles } from "../../../shared/draw/goggles.ts";
import type { SceneNode } from "../../../shared/draw/scene.ts";
import { toSvg } from "../../../shared/draw/svg.ts";
import { drawSwitches } from "../../../shared/draw/switches.ts";
import { stateInWords } from "../../../shared/draw/words.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { noSwitches } from "../../../shared/services/panel.ts";
import { gogglesOf, noGoggles } from "../../../shared/services/panel-goggles.ts";
import { switchesOf } from "../../../shared/services/panel-switches.ts";
import { writeAtomically } from "../node/disk.ts";
import { oneOf, onePath, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { openCraft } from "./scripts.ts";

const help = `Usage: fettle draw CRAFT --view osd|switches --out FILE.svg [--theme light|dark]
                   [--handset PATH]

Draws a craft as the panel shows it: the picture in the goggles, or the controls at rest
with what each position turns on. “-” reads the craft from standard input.

  --view VIEW      osd or switches
  --out FILE.svg   where the drawing goes; a file of that name is replaced
  --theme THEME    light (the usual) or dark
  --handset PATH   this handset in place of the one that the craft names

Exit status: 0 the drawing is written, 2 there is nothing to draw or it cannot be written.
`;

type View = "osd" | "switches";

/** Four controls side by side, each wide enough for an output's name. */
const SWITCHES_WIDTH = 690;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    view: { type: "string" },
    out: { type: "string" },
    theme: { type: "string" },
    handset: { type: "string" },
  });
  const path = onePath(given, "craft");
  if (!given.has("view")) throw new CannotRun("say what to draw: --view osd or --view switches");
  const view = oneOf(given, "view", ["osd", "switches"], "osd");
  const theme = oneOf(given, "theme", ["light", "dark"], "light");
  const out = svgPath(given.text("out"));
  const { craft, workspace } = await openCraft(path, io, given.text("handset"));
  const { scene, title } = pictureOf(view, craft, workspace);
  try {
    writeAtomically(resolve(io.folder, out), toSvg(scene, theme, title));
  } catch (error) {
    throw new CannotRun(`${out} cannot be written: ${whyNot(error as NodeJS.ErrnoException)}`);
  }
  return 0;
}

function svgPath(out: string | undefined): string {
  if (out === undefined) throw new CannotRun("say where the drawing goes: --out FILE.svg");
  if (!/\.svg$/i.test(out))
    throw new CannotRun(`drawings are written as SVG: name a file that ends in .svg, not “${out}”`);
  return out;
}

function whyNot({ code, message }: NodeJS.ErrnoException): string {
  switch (code) {
    case "ENOENT":
      return "its folder is not there";
    case "ENOTDIR":
      return "it lies below a file";
    case "EISDIR":
      return "a folder has that name";
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return "this user may not write there";
    default:
      return message;
  }
}

function pictureOf(view: View, craft: Craft, workspace: Workspace): { scene: SceneNode; title: string } {
  if (view === "osd") {
    const goggles = gogglesOf(craft, workspace);
    if (!goggles) throw new CannotRun(noGoggles(craft));
    return { scene: drawGoggles(goggles), title: `${craft.name} in the goggles` };
  }
  const switches = switchesOf(craft, workspace, undefined);
  if (!switches) throw new CannotRun(noSwitches(craft));
  return {
    scene: drawSwitches(switches, { width: SWITCHES_WIDTH }),
    title: `Switches of ${craft.name}, at rest: ${stateInWords(switches.state)}`,
  };
}

export const command: Command = { help, run };
