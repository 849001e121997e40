/** Draws the pictures of the walkthrough from its practice craft, for light and for dark themes. */
import { join } from "node:path";
import { CLASHING, PRACTICE_SCRIPT } from "../../client/src/practice-script.ts";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import type { Theme } from "../../shared/draw/palette.ts";
import { toSvg } from "../../shared/draw/svg.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import { gogglesOf } from "../../shared/ide/panel/goggles.ts";
import { switchesOf } from "../../shared/ide/panel/switches.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import type { SwitchesPicture } from "../../shared/protocol/panel.ts";

const THEMES: readonly Theme[] = ["light", "dark"];
const TITLES = {
  handset: "The controls of a handset",
  clash: "Two modes that exclude each other are on at once",
  osd: "The OSD of the practice craft",
};
const WIDTH = 460;
const MARGIN = 8;
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
  const drawings = {
    handset: {
      scene: drawSwitches(handsetOf(rest), { width: WIDTH, words: "none", uses: "left out" }),
      margin: MARGIN,
    },
    clash: { scene: drawSwitches(clash, { width: WIDTH, words: "above" }), margin: MARGIN },
    osd: { scene: drawGoggles(goggles), margin: 0 },
  };
  return Object.entries(drawings).flatMap(([name, { scene, margin }]) =>
    THEMES.map((theme) => ({
      path: join("client/walkthrough", `${name}-${theme}.svg`),
      text: toSvg(scene, theme, { title: TITLES[name as keyof typeof drawings], margin }),
    })),
  );
}

/** The controls by themselves, with the pulse of each position, as a handset says them. */
function handsetOf({ state, controls, ...rest }: SwitchesPicture): SwitchesPicture {
  const pulses = new Map(
    controls.flatMap(({ name, positions }) => positions.map((each) => [`${name} ${each.name}`, each.pulseUs])),
  );
  const named = (control: string, position: string) => `${position} ${pulses.get(`${control} ${position}`)} us`;
  const positions = Object.entries(state.positions).map(([control, at]) => [control, named(control, String(at))]);
  return {
    ...rest,
    state: { ...state, positions: Object.fromEntries(positions) },
    controls: controls.map((control) => ({
      ...control,
      rest: control.rest && named(control.name, control.rest),
      positions: control.positions.map((each) => ({ ...each, name: named(control.name, each.name), modes: [] })),
    })),
  };
}
