/** `fettle draw`: the pictures of the panel, as files. */
import type { Theme } from "../../../shared/draw/palette.ts";
import { boundsWithMargin, toSvg } from "../../../shared/draw/svg.ts";
import { OSD_PAGES, SCENARIOS, type Scenario } from "../../../shared/protocol/osd.ts";
import { NoPainter, toPng } from "../node/png.ts";
import { type Arguments, oneOf, onePath, readArguments } from "./arguments.ts";
import {
  filtersPicture,
  motorsPicture,
  type OsdQuery,
  osdPicture,
  type Picture,
  ratesPicture,
  switchesPicture,
} from "./draw-pictures.ts";
import { gridNamed } from "./grid-named.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { otherCraft } from "./other-craft.ts";
import { openCraft } from "./scripts.ts";
import { writeOut } from "./write-out.ts";

const WIDTH = { least: 16, most: 8192 } as const;
/** Pixels of a PNG for each unit of the drawing, where no width is asked for: the goggles are 1080 high then. */
const PNG_SCALE = 2;

const MOMENTS = SCENARIOS.map(({ name }) => name);
const USUAL_MOMENT: Scenario = "mid-flight";

const help = `Usage: fettle draw CRAFT --view osd|switches|rates|filters|motors --out FILE.svg|FILE.png
                   [--theme light|dark|paper] [--width PX] [--handset PATH]
                   [--page osd|osd-second] [--scenario MOMENT] [--grid SIZE|pal|ntsc]
                   [--against OTHER]

Draws a craft: the picture in the goggles; the controls at rest with what each position turns
on; how fast it turns for the sticks; what its filters let through, and how much later; or its
motors from above, with their corners, numbers and directions.
“-” reads the craft from standard input.

  --view VIEW        osd, switches, rates, filters or motors
  --out FILE         where the drawing goes, as SVG or as PNG; a file of that name is replaced
  --theme THEME      light (the usual), dark, or paper: black on white, for a printer
  --width PX         pixels across, from ${WIDTH.least} to ${WIDTH.most}
  --handset PATH     this handset in place of the one that the craft names

Of the OSD and the switches:
  --against OTHER    what differs on another craft, a file or REV:PATH of git, drawn into the
                     picture: its elements in
                     other places as broken outlines, what its positions turn on besides
                     (plus) or do not (minus); a layer counts as laid over CRAFT

Of the OSD:
  --page PAGE        osd (the usual) or osd-second
  --scenario MOMENT  ${momentNames()}:
                     what the pilot sees then, and no more; without it the layout at
                     ${USUAL_MOMENT}, what is blank then outlined with its name
  --grid GRID        the layout fitted to another grid, such as 53x20; what finds no room
                     there is named on standard error

What flashes does so in an SVG, unless the reader prefers reduced motion, and is steady in a PNG.

Exit status: 0 the drawing is written, 2 there is nothing to draw or it cannot be written.
`;

function momentNames(): string {
  return `${MOMENTS.slice(0, -1).join(", ")} or ${MOMENTS.at(-1)}`;
}

const PICTURES = {
  switches: switchesPicture,
  rates: ratesPicture,
  filters: filtersPicture,
  motors: motorsPicture,
} as const;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    view: { type: "string" },
    out: { type: "string" },
    theme: { type: "string" },
    width: { type: "string" },
    handset: { type: "string" },
    page: { type: "string" },
    scenario: { type: "string" },
    grid: { type: "string" },
    against: { type: "string" },
  });
  const path = onePath(given, "craft");
  if (!given.has("view")) throw new CannotRun("say what to draw: --view osd, switches, rates, filters or motors");
  const view = oneOf(given, "view", ["osd", "switches", "rates", "filters", "motors"], "osd");
  const theme = oneOf(given, "theme", ["light", "dark", "paper"], "light");
  const out = outOf(given);
  const widthPx = widthOf(given);
  if (view !== "osd") refuseOsdOptions(given);
  const query = osdQuery(given);
  const { craft, workspace } = await openCraft(path, io, given.text("handset"));
  const against = given.text("against");
  if (against !== undefined && view !== "osd" && view !== "switches")
    throw new CannotRun("--against belongs to --view osd and --view switches");
  const other = against === undefined ? undefined : await otherCraft(against, craft, workspace, io);
  const picture = view === "osd" ? osdPicture(craft, workspace, query, other) : PICTURES[view](craft, workspace, other);
  const content = await contentOf(picture, out, theme, widthPx);
  writeOut(out, content, "replace", io);
  if (picture.unplaced && picture.unplaced.length > 0)
    io.error(`fettle: no room on this grid for ${picture.unplaced.join(", ")}\n`);
  return 0;
}

function outOf(given: Arguments): string {
  const out = given.text("out");
  if (out === undefined) throw new CannotRun("say where the drawing goes: --out FILE.svg or --out FILE.png");
  if (!/\.(svg|png)$/i.test(out))
    throw new CannotRun(`drawings are SVG or PNG: name a file that ends in .svg or .png, not “${out}”`);
  return out;
}

function widthOf(given: Arguments): number | undefined {
  const text = given.text("width");
  if (text === undefined) return undefined;
  const width = /^\d{1,6}$/.test(text) ? Number(text) : Number.NaN;
  if (width >= WIDTH.least && width <= WIDTH.most) return width;
  throw new CannotRun(`--width is a whole number of pixels from ${WIDTH.least} to ${WIDTH.most}, not “${text}”`);
}

function osdQuery(given: Arguments): OsdQuery {
  const grid = given.text("grid");
  return {
    page: oneOf(given, "page", OSD_PAGES, "osd"),
    scenario: given.has("scenario") ? oneOf(given, "scenario", MOMENTS, USUAL_MOMENT) : undefined,
    fit: grid === undefined ? undefined : gridNamed(grid),
  };
}

/** An option that would have no effect is reported as a mistake. */
function refuseOsdOptions(given: Arguments): void {
  const option = ["page", "scenario", "grid"].find((each) => given.has(each));
  if (option !== undefined) throw new CannotRun(`--${option} belongs to --view osd`);
}

async function contentOf(
  { scene, unplaced: _, ...details }: Picture,
  out: string,
  theme: Theme,
  widthPx: number | undefined,
): Promise<string | Uint8Array> {
  if (/\.svg$/i.test(out)) return toSvg(scene, theme, { ...details, widthPx });
  const usualPx = Math.min(WIDTH.most, Math.round(boundsWithMargin(scene, details).width * PNG_SCALE));
  try {
    return await toPng(toSvg(scene, theme, { ...details, widthPx: widthPx ?? usualPx, letters: "outlines" }));
  } catch (error) {
    if (!(error instanceof NoPainter)) throw error;
    throw new CannotRun(
      `${error.message}; a PNG needs it: add it with “npm install @resvg/resvg-wasm”, or write an SVG`,
    );
  }
}

export const command: Command = { help, run };
