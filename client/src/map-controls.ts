/** “Map Controls…” and “Use Another Handset…”: which control becomes which is shown, and changed, before anything is written. */
import { commands, type QuickPickItem, QuickPickItemKind, ThemeIcon, workspace } from "vscode";
import { type Uri as Address, asUri } from "../../shared/protocol/addresses.ts";
import {
  MAP_CONTROLS_REQUEST,
  type MapControlsParams,
  type MapControlsResult,
  type MappingRow,
} from "../../shared/protocol/map-controls.ts";
import { SCRIPTS_REQUEST, type ScriptsParams, type ScriptsResult } from "../../shared/protocol/ways.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { activeScript } from "./script-editors.ts";
import { pickOne, tellInformation } from "./shown-window.ts";
import { documentsFor, editOf, MOST_TRIES } from "./versioned-edits.ts";

type Mapping = Extract<MapControlsResult, { kind: "mapping" }>;

const NEW_HANDSET = "New Handset…";
const OTHER_HANDSET = "Use Another Handset…";

/** What is to be mapped: of which script, and for which handset if it is to be another one. */
interface Target {
  readonly uri: Address;
  readonly handset?: Address;
}

/** Maps the controls that a craft names and its handset lacks: of this script, else of the active one. */
export async function askMapControls(ask: Ask, file?: string): Promise<void> {
  const uri = scriptFor(file);
  if (!uri) return noScript();
  await mapFor(ask, { uri });
}

/** Asks for a handset of the workspace, and puts it in place of the one that a craft uses. */
export async function askOtherHandset(ask: Ask, file?: string): Promise<void> {
  const uri = scriptFor(file);
  if (!uri) return noScript();
  const params: ScriptsParams = { uri, kind: "handset" };
  const handsets = await ask<ScriptsResult>(SCRIPTS_REQUEST, params);
  type Item = QuickPickItem & { readonly uri: Address | null };
  const items = handsets.map((each): Item => ({ label: each.name, description: each.path, uri: each.uri }));
  const chosen = await pickOne<Item>([...items, { label: NEW_HANDSET, uri: null }], {
    title: "Use another handset",
    placeHolder: "Whose controls fly this craft?",
    matchOnDescription: true,
  });
  if (!chosen) return;
  if (chosen.uri === null) await commands.executeCommand("fettle.newHandset");
  else await mapFor(ask, { uri, handset: chosen.uri });
}

function scriptFor(file: string | undefined): Address | undefined {
  const script = activeScript();
  return file === undefined ? script && addressOf(script.uri) : asUri(file);
}

function noScript(): void {
  void tellInformation("Open a craft first: its controls are mapped to those of its handset.");
}

async function mapFor(ask: Ask, target: Target): Promise<void> {
  let chosen: Readonly<Record<string, string | null>> = {};
  let layers: readonly Address[] = [];
  for (;;) {
    const proposal = await request(ask, { ...target, chosen, layers });
    if (proposal.kind === "refused") return tell(proposal.message, [OTHER_HANDSET, NEW_HANDSET]);
    if (proposal.rows.length === 0 && proposal.files.length === 0 && proposal.layers.length === 0)
      return tell(`Every control that ${proposal.craft} names is on ${proposal.handset}.`, [OTHER_HANDSET]);
    // Where only the line of the handset changes, there is nothing to look at first.
    const isPlain = proposal.rows.length === 0 && proposal.layers.length === 0;
    const step: PickedStep | undefined = isPlain ? { kind: "write" } : await askStep(proposal, layers);
    if (step === undefined) return;
    if (step.kind === "write") return write(ask, { ...target, chosen, layers });
    if (step.kind === "layer") {
      const { file } = step;
      layers = layers.includes(file) ? layers.filter((each) => each !== file) : [...layers, file];
    } else {
      const to = await askCounterpart(step.row);
      if (to !== undefined) chosen = { ...chosen, [step.row.from]: to };
    }
  }
}

function request(ask: Ask, params: MapControlsParams): Promise<MapControlsResult> {
  return ask<MapControlsResult>(MAP_CONTROLS_REQUEST, params);
}

type PickedStep =
  | { readonly kind: "write" }
  | { readonly kind: "row"; readonly row: MappingRow }
  | { readonly kind: "layer"; readonly file: Address };

/** Shows the whole proposal: to be written, or a control or a layer of it to be changed. */
async function askStep(
  { craft, handset, rows, layers, files }: Mapping,
  included: readonly Address[],
): Promise<PickedStep | undefined> {
  type Item = QuickPickItem & { readonly step?: PickedStep };
  const places = files.reduce((sum, { edits }) => sum + edits.length, 0);
  const write: Item = {
    label: `Write this: ${counted(places, "place")} in ${counted(files.length, "file")}`,
    description: "one step to undo",
    iconPath: new ThemeIcon("check"),
    step: { kind: "write" },
  };
  const controls = rows.map((row): Item => {
    const changed = row.positions.filter(([from, to]) => from !== to).map(([from, to]) => `${from} → ${to}`);
    return {
      label: row.to === null ? `${row.from} stays` : `${row.from} → ${row.to}`,
      description: row.why,
      ...(changed.length > 0 && { detail: changed.join(", ") }),
      step: { kind: "row", row },
    };
  });
  const sharing = layers.map(({ file, name, lines, alsoIn }): Item => {
    const others = alsoIn.length === 0 ? "no other craft uses it" : `also used by ${alsoIn.join(", ")}`;
    const isIncluded = included.includes(file);
    return {
      label: `${isIncluded ? "Leave the layer" : "Change the layer"} ${name}${isIncluded ? " as it is" : " too"}`,
      description: `${counted(lines, "line")}; ${others}`,
      iconPath: new ThemeIcon(isIncluded ? "remove" : "add"),
      step: { kind: "layer", file },
    };
  });
  const separator = (label: string): Item => ({ label, kind: QuickPickItemKind.Separator });
  const chosen = await pickOne<Item>(
    [
      ...(places > 0 ? [write] : []),
      ...(controls.length > 0 ? [separator("controls: choose one to change it"), ...controls] : []),
      ...(sharing.length > 0 ? [separator("layers that name them"), ...sharing] : []),
    ],
    {
      title: `${craft} on ${handset}`,
      placeHolder: "Nothing is written before you say so. Try every switch with the propellers off.",
      ignoreFocusOut: true,
      matchOnDescription: true,
    },
  );
  return chosen?.step;
}

/** Asks what a control becomes; null to leave it as it is. */
async function askCounterpart({ from, to, choices }: MappingRow): Promise<string | null | undefined> {
  type Item = QuickPickItem & { readonly to: string | null };
  const items = choices.map((each): Item => {
    const taken = each.takenBy === null ? "" : ` – now for ${each.takenBy}`;
    return { label: each.to, description: `${each.what}${taken}`, to: each.to, picked: each.to === to };
  });
  const chosen = await pickOne<Item>([...items, { label: `Leave ${from} as it is`, to: null }], {
    title: `${from} becomes`,
    placeHolder: "Which control takes its place?",
    ignoreFocusOut: true,
  });
  return chosen?.to;
}

/** Writes the proposal as it was shown; the documents may have changed since, and are then asked about again. */
async function write(ask: Ask, params: MapControlsParams): Promise<void> {
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const answer = await request(ask, params);
    if (answer.kind === "refused") return tell(answer.message, []);
    const edits = { kind: "edits", files: answer.files } as const;
    if (!(await documentsFor(edits))) continue;
    if (!(await workspace.applyEdit(editOf(edits))))
      await tell("The editor did not take the change, so nothing was written: is the script read-only?", []);
    return;
  }
  await tell("The script kept changing while the change was worked out, so nothing was written: try again.", []);
}

const COMMANDS: Readonly<Record<string, string>> = {
  [OTHER_HANDSET]: "fettle.useHandset",
  [NEW_HANDSET]: "fettle.newHandset",
};

/** A sentence, with the buttons that lead on. */
async function tell(message: string, buttons: readonly string[]): Promise<void> {
  const pressed = await tellInformation(message, ...buttons);
  const command = pressed && COMMANDS[pressed];
  if (command) await commands.executeCommand(command);
}

function counted(count: number, word: string): string {
  return `${count === 1 ? "one" : count} ${word}${count === 1 ? "" : "s"}`;
}
