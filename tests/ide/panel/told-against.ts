/**
 * Two craft as the panel shows them together: a title, here, `---`, there, `at` positions, and below `=>` all that is
 * told. Without a handset of their own both use the one of the test.
 */
import { readdirSync, readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import { gogglesAgainstInWords, statesInWords, switchesAgainstInWords } from "../../../shared/draw/against-words.ts";
import { otherCraftOf } from "../../../shared/ide/panel/other-craft.ts";
import { type PanelQuery, panelOf } from "../../../shared/ide/panel/panel.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { OsdPage } from "../../../shared/protocol/osd.ts";
import type { PanelModel } from "../../../shared/protocol/panel.ts";
import { atCursor } from "../cursor.ts";

const FOLDER = "tests/fixtures/against";

/** Another handset: TR elsewhere, a button in place of the dial. */
const YOKE = `handset "Yoke"

controls
  TL switch ch5 up 1000 us down 2000 us rests down
  TR switch ch7 up 1000 us mid 1600 us down 2000 us lies right shoulder
  PB button ch8 rest 1000 us held 2000 us
`;

interface AgainstCase {
  readonly title: string;
  readonly here: string;
  readonly there: string;
  readonly at: Readonly<Record<string, string | number>>;
  readonly page: OsdPage;
  readonly words: string;
}

export function againstCases(): AgainstCase[] {
  return readdirSync(inProject(FOLDER))
    .sort()
    .flatMap((name) => readFileSync(inProject(FOLDER, name), "utf8").split(/^=== /m).slice(1))
    .map(caseOf);
}

function caseOf(text: string): AgainstCase {
  const [head = "", words = ""] = text.split("\n=>\n");
  const title = head.slice(0, head.indexOf("\n"));
  const [here = "", rest = ""] = head.slice(title.length + 1).split(/^---\n/m);
  const asked = /\n?^at (.*)$/m.exec(rest)?.[1]?.split(" ") ?? [];
  const at = asked.filter((each) => each.includes("=")).map((each) => each.split("=") as [string, string]);
  return {
    title,
    here,
    there: rest.replace(/^at .*$/m, ""),
    at: Object.fromEntries(at.map(([name, place]) => [name, /^\d+$/.test(place) ? Number(place) : place])),
    page: asked.includes("second") ? "osd-second" : "osd",
    words: words.trim(),
  };
}

function scriptOf(body: string, name: string): string {
  if (/^(craft|layer|handset) "/m.test(body)) return body;
  return `craft "${name}"\n${body.includes("use ") ? "" : 'use "wheel.fettle"\n'}${body}`;
}

/** The model of the one with the other. */
export function modelAgainst({ here, there, at, page }: Omit<AgainstCase, "title" | "words">): PanelModel {
  const { workspace, file } = atCursor(scriptOf(here, "Jug"), {
    "saucer.fettle": scriptOf(there, "Saucer"),
    "yoke.fettle": YOKE,
  });
  const against = withFile(workspace, "/shed/saucer.fettle");
  return panelOf(workspace, file, 1, { positions: at, page, against });
}

/** The other side, by its file. */
export function withFile(workspace: Workspace, file: string): NonNullable<PanelQuery["against"]> {
  const name = workspace.script(file)?.name ?? "";
  return (craft) => otherCraftOf({ workspace, file, name: `“${name}”` }, name, craft, workspace);
}

/** The states, what differs of the picture, and what differs of the switches, a line each. */
export function toldAgainst(each: AgainstCase): string {
  const { against, goggles, switches } = modelAgainst(each);
  if (against?.kind !== "pictures") return against?.message ?? "nothing";
  return [
    ...(against.name === "Saucer" ? [] : [`with: ${against.name}`]),
    ...against.notes,
    ...(switches && against.switches
      ? [statesInWords(switches.state, against.switches.state).join(" "), ...switchesAgainstInWords(against.switches)]
      : []),
    ...(against.noSwitches ? [against.noSwitches] : []),
    ...(goggles && against.goggles ? gogglesAgainstInWords(goggles, against.goggles) : []),
    ...(against.noGoggles ? [against.noGoggles] : []),
  ].join("\n");
}
