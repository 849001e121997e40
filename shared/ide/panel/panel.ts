/** What the panel draws for one document: the picture in the goggles, the switches, and the numbers. */
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchPicture } from "../../protocol/bench.ts";
import type { PanelModel, ViewName } from "../../protocol/panel.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { missingParts } from "../context/missing-parts.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { beginningsOf } from "../edits/osd-beginnings.ts";
import { againstOf } from "./against.ts";
import { withFaults } from "./element-faults.ts";
import { type GogglesQuery, gogglesOf, whyNoGoggles } from "./goggles.ts";
import { NO_NUMBERS, numbersOf, waysToNumbers } from "./numbers.ts";
import type { Other } from "./other-craft.ts";
import { withWorstFindings } from "./pack-findings.ts";
import { signalPictureOf } from "./signal.ts";
import { switchesOf, whyNoSwitches } from "./switches.ts";
import { gapsInSwitches, waysFromEmpty, waysToGoggles, waysToSwitches } from "./ways.ts";

export interface PanelQuery extends GogglesQuery {
  /** Of several craft that use the file, the one to draw. */
  readonly craft?: string | undefined;
  /** The open view; the numbers and the bench list are computed for their own views only. */
  readonly view?: ViewName | undefined;
  /** Another view that is open besides. */
  readonly besides?: ViewName | undefined;
  /** Makes the bench list of what is drawn; only then is it made. */
  readonly benchOf?: ((craft: Craft) => BenchPicture) | undefined;
  readonly positions?: Readonly<Record<string, string | number>> | undefined;
  /** Another craft that is shown with this one; given what is drawn, as only then it need be read. */
  readonly against?: ((craft: Craft) => Other) | undefined;
}

/**
 * The panel's model; `version`, that of the document, is passed through so that the client can discard outdated models.
 */
export function panelOf(workspace: Workspace, file: string, version: number, query: PanelQuery = {}): PanelModel {
  const script = workspace.script(file);
  // Only for a layer or a handset must the other craft be found.
  const users = script?.kind === "craft" ? [] : workspace.craftFilesWith(file);
  const craft = pickedCraft(workspace, file, query.craft);
  const alsoIn = users
    .filter((each) => each !== craft?.file)
    .map((each) => ({ file: each, name: workspace.script(each)!.name }));
  const base = { file, version, alsoIn };
  if (!script || !craft || script.tree.newer) {
    return {
      ...base,
      craft: "",
      missing: [],
      empty: whyEmpty(script),
      emptyWays: waysFromEmpty(script, workspace),
      goggles: null,
      noGoggles: null,
      gogglesWays: [],
      begin: null,
      switches: null,
      noSwitches: null,
      switchesWays: [],
      switchesGaps: [],
      numbers: null,
      noNumbers: null,
      numbersWays: [],
      findings: [],
    };
  }
  const goggles = gogglesOf(craft, workspace, query);
  const findings = findingsOf(workspace, craft.file);
  const begin = beginningsOf(craft, workspace, query.page ?? goggles?.page ?? "osd");
  const switches = switchesOf(craft, workspace, query.positions);
  const signal = query.scenario === "signal-lost" ? signalPictureOf(craft, workspace, query.signal) : null;
  const shows = (name: ViewName) => query.view === name || query.besides === name;
  const isLookedAt = shows("numbers");
  const found = isLookedAt ? numbersOf(craft, workspace) : null;
  const numbers = found && withWorstFindings(found, craft, findings);
  const { view, against } = query;
  const other = against && againstOf({ craft, workspace, goggles, switches, view }, against(craft), query);
  return {
    ...base,
    craft: craft.name,
    missing: missingParts(craft).map(({ file, line, message, where }) => ({
      why: message,
      ways: [{ label: `Show ${where}`, action: { name: "go", at: { file, line } } }],
    })),
    empty: null,
    emptyWays: [],
    goggles: goggles && { ...goggles, elements: withFaults(goggles.elements, findings, craft, workspace) },
    noGoggles: goggles ? null : begin ? LACKING[begin.lacks] : whyNoGoggles(craft),
    gogglesWays: goggles ? [] : waysToGoggles(craft, workspace),
    begin,
    switches,
    noSwitches: switches ? null : whyNoSwitches(craft),
    switchesWays: switches ? [] : waysToSwitches(craft, workspace),
    switchesGaps: switches ? gapsInSwitches(craft) : [],
    ...(shows("bench") && query.benchOf && { bench: query.benchOf(craft) }),
    ...(signal && { signal }),
    ...(other && { against: other }),
    numbers,
    noNumbers: isLookedAt && !numbers ? NO_NUMBERS : null,
    numbersWays: isLookedAt && !numbers ? waysToNumbers(craft, workspace) : [],
    findings: findings.map(({ code, severity, message, file: at, range, witness }) => ({
      code,
      severity,
      message,
      file: at,
      range,
      witness: witness ?? null,
    })),
  };
}

/** Short, since the buttons below say how to go on. */
const LACKING = {
  page: "Nothing is placed on the OSD yet.",
  grid: "The OSD has no grid yet, so nothing that is placed has its cell.",
} as const;

function whyEmpty(script: Script | null): string {
  if (!script) return "Open a script to see its drawings.";
  if (script.tree.newer)
    return "This script is written in a newer edition of the language: update the tool to see it drawn.";
  if (script.kind === "craft") return "This craft could not be read.";
  if (script.kind === "dialect")
    return "A dialect is no craft, so there is nothing to draw of it: it says what the text of a board means.";
  if (script.tree.header === null)
    return 'This file has no header, so it belongs to nothing yet: its first line says what it is, as in “craft "Jug"”.';
  return `No craft of this workspace uses this ${script.kind}: open a craft, or name this file in one with “use”.`;
}
