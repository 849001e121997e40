/** Controls of craft, and what is told of them: a title, the handset, the craft, positions, and below `=>` the words. */
import { readdirSync, readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import { toldOfControl } from "../../../shared/draw/control-words.ts";
import { stateInWords } from "../../../shared/draw/words.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { atCursor } from "../cursor.ts";

const FOLDER = "tests/fixtures/controls";

interface ToldCase {
  readonly title: string;
  readonly files: Record<string, string>;
  readonly craft: string;
  readonly at: Record<string, string | number>;
  readonly words: string;
}

/** Every case of the folder; the handset has TL besides, which arms when it is down. */
export function toldCases(): ToldCase[] {
  return readdirSync(inProject(FOLDER))
    .sort()
    .flatMap((name) => readFileSync(inProject(FOLDER, name), "utf8").split(/^=== /m).slice(1))
    .map(caseOf);
}

function caseOf(text: string): ToldCase {
  const [head = "", words = ""] = text.split("\n=>\n");
  const title = head.split("\n")[0]!;
  const part = (pattern: RegExp) => pattern.exec(head)?.[1] ?? "";
  const controls = part(/\ncontrols\n((?: {2}.*\n?)+)/);
  const [, layer, layerText] = /\nfile (\S+)\n([\s\S]*?)\nend\b/.exec(head) ?? [];
  const sections = part(/\ncraft\n([\s\S]*?)(?=\nat |$)/);
  const at = part(/\nat (.*)$/)
    .split(" ")
    .filter(Boolean)
    .map((each) => each.split("=") as [string, string]);
  return {
    title,
    craft: `craft "Jug"\n\nuse "own.fettle"\n${layer ? `use "${layer}"\n` : ""}\nmodes\n  arm when TL is down\n\n${sections}\n`,
    files: {
      "own.fettle": `handset "Own"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n${controls}\n`,
      ...(layer && layerText && { [layer]: `${layerText}\n` }),
    },
    at: Object.fromEntries(at.map(([name, place]) => [name, /^\d+$/.test(place) ? Number(place) : place])),
    words: words.trim(),
  };
}

/** What the panel tells: the state, then each control but TL, a line each. */
export function told({ craft, files, at }: ToldCase): string {
  const { workspace, file } = atCursor(craft, files);
  const { switches } = panelOf(workspace, file, 1, { positions: at, view: "switches" });
  if (!switches) throw new Error("This craft has no control.");
  const own = switches.controls.filter(({ name }) => name !== "TL");
  return [
    stateInWords(switches.state),
    ...own.flatMap((control) => toldOfControl(control, switches.state).map((line) => `${control.name}  ${line}`)),
  ].join("\n");
}
