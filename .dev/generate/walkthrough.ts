/** Draws the pictures of the walkthrough from its practice craft, in the colours of the editor's theme. */
import { join } from "node:path";
import { CLASHING, PRACTICE_SCRIPT } from "../../client/src/practice-script.ts";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { palettes } from "../../shared/draw/palette.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { gogglesOf } from "../../shared/ide/panel/goggles.ts";
import { switchesOf } from "../../shared/ide/panel/switches.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";

/** The editor replaces these in a walkthrough's drawings by the colours of its theme. */
const THEMED: readonly (readonly [colour: string, name: string])[] = [
  [palettes.light.page, "editor-background"],
  [palettes.light.text, "foreground"],
  [palettes.light.quiet, "descriptionForeground"],
  [palettes.light.line, "contrastBorder, var(--vscode-editorWidget-border)"],
  [palettes.light.plate, "editorWidget-background"],
  [palettes.light.accent, "focusBorder"],
];
const WIDTH = 460;
const FILE = "practice.fettle";

/** Each picture as a file; the words of the other steps are written by hand beside them. */
export function generate(): { path: string; text: string }[] {
  const workspace = makeCore(makeCatalogue()).at(memoryFiles({ [FILE]: PRACTICE_SCRIPT }));
  const craft = workspace.craft(FILE);
  const rest = craft && switchesOf(craft, workspace, undefined);
  const clash = craft && switchesOf(craft, workspace, CLASHING);
  const goggles = craft && gogglesOf(craft, workspace, { page: "osd", scenario: "mid-flight", fit: undefined });
  if (!rest || !clash || !goggles)
    throw new Error("The practice craft cannot be drawn: is its script still understood?");
  const bare = rest.controls.map((control) => ({
    ...control,
    positions: control.positions.map((position) => ({ ...position, modes: [] })),
  }));
  const pictures = {
    handset: toSvg(drawSwitches({ ...rest, controls: bare }, { width: WIDTH, words: "none" }), "light", {
      title: "The controls of a handset",
      margin: 8,
    }),
    clash: toSvg(drawSwitches(clash, { width: WIDTH, words: "above" }), "light", {
      title: "Two modes that exclude each other are on at once",
      margin: 8,
    }),
    osd: toSvg(drawGoggles(goggles), "light", { title: "The OSD of the practice craft", widthPx: WIDTH }),
  };
  return Object.entries(pictures).map(([name, svg]) => ({
    path: join("client/walkthrough", `${name}.svg`),
    text: themed(svg),
  }));
}

function themed(svg: string): string {
  return THEMED.reduce((text, [colour, name]) => text.replaceAll(colour, `var(--vscode-${name}, ${colour})`), svg);
}
