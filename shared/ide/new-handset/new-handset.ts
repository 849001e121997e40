/** Makes a handset from the answers to a few questions: a first script, without findings of its own. */
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { fileFindings } from "../../rules/engine/engine.ts";
import { printPlace } from "../../syntax/print-value.ts";
import { quote } from "../../syntax/scanner.ts";
import { withFile } from "../context/trial.ts";
import { fileNameFor } from "../new-craft/new-craft.ts";
import { entry, noteLines, placeholder, type ScriptLine, sectionText } from "../new-craft/script-text.ts";
import type { HandsetControl, HandsetDraft } from "./draft.ts";
import { otherHandset } from "./other-handset.ts";

export interface NewHandset {
  readonly text: string;
  /** What is to be done next, in sentences. */
  readonly next: readonly string[];
}

/** The path for a handset of that name, as in `handsets/wheel.fettle`. */
export function handsetPathFor(name: string): string {
  return `handsets/${fileNameFor(name) || "my-handset"}.fettle`;
}

/** The script of a new handset at `file` (an absolute path, which may exist), and what is to be done next. */
export function newHandset(draft: HandsetDraft, workspace: Workspace, file: string): NewHandset {
  const text = accepted(scriptText(draft, workspace, file), workspace, file);
  const { order } = draft;
  return {
    text,
    next: [
      ...(order === null
        ? []
        : [
            `In each craft, or in a layer that they share, the section “link” says the order of the sticks: order ${order}.`,
          ]),
      "Move each control with the propellers off, and see that it does what the script says.",
    ],
  };
}

/** A figure that is only unusual is the pilot's own: a note accepts it, so that nothing is found in a new file. */
function accepted(text: string, workspace: Workspace, file: string): string {
  const script = withFile(workspace, file, text).script(file)!;
  const unusual = fileFindings(withFile(workspace, file, text), script).filter(({ code }) => code === "unusual-value");
  const lines = new Set(unusual.map(({ range }) => range.start.line));
  return text
    .split("\n")
    .flatMap((line, i) => (lines.has(i) ? ["  # allow unusual-value: this is what it sends", line] : [line]))
    .join("\n");
}

function scriptText(draft: HandsetDraft, workspace: Workspace, file: string): string {
  const { name, other, controls } = draft;
  const use = other?.how === "use" ? [`use ${quote(pathBetween(file, other.found.file))}`] : [];
  const intro = "Made from a few questions: try every control on the bench before you trust this. Propellers off.";
  const transmitter = transmitterLines(
    draft,
    other?.how === "use" ? otherHandset(workspace, other.found.file).transmitter : null,
  );
  const parts = [
    [...noteLines(intro, ""), `handset ${quote(name)}`].join("\n"),
    ...use,
    ...(transmitter.length > 0 ? [sectionText({ name: "transmitter", note: null, lines: transmitter })] : []),
    ...(controls.length > 0 ? [controlsText(draft)] : []),
  ];
  return `${parts.join("\n\n")}\n`;
}

/** Entries of `transmitter`; of a handset that uses another only what differs. */
function transmitterLines(draft: HandsetDraft, below: ReadonlyMap<string, string> | null): ScriptLine[] {
  const known = [
    ["band", draft.band, null],
    ["power", draft.power, "how much may be sent is a matter of local law"],
    ["stick-mode", draft.stickMode, null],
    ["travel", draft.travel, null],
  ] as const;
  const entries = known.flatMap(([name, value, note]) =>
    value === null || below?.get(name) === value ? [] : [entry(name, value, note)],
  );
  const open = [
    ...(draft.band === null ? [placeholder("band", "2.4 GHz")] : []),
    ...(draft.power === null ? [placeholder("power", "100 mW")] : []),
  ].filter(({ name }) => !below?.has(name));
  const [first, ...rest] = open;
  return [...entries, ...(first ? [{ ...first, note: "As printed on the module, without the #:" }, ...rest] : [])];
}

/** The section “controls”, its kinds and channels in columns. */
function controlsText({ controls, order }: HandsetDraft): string {
  const width = (cell: (control: HandsetControl) => string) => Math.max(...controls.map((each) => cell(each).length));
  const [name, kind, channel] = [
    width((each) => each.name),
    width((each) => each.kind),
    width((each) => `ch${each.channel}`),
  ];
  const rows = controls.flatMap((each) => [
    ...(each.note === null ? [] : noteLines(each.note, "  ")),
    `  ${each.name.padEnd(name)}  ${each.kind.padEnd(kind)}  ${`ch${each.channel}`.padEnd(channel)}  ${reachText(each)}`,
  ]);
  const sticks = `Channels 1 to 4 carry the sticks: ${order}. A craft says so in its link.`;
  return [...(order === null ? [] : noteLines(sticks, "")), "controls", ...rows].join("\n");
}

function reachText({ positions, rest, fromUs, toUs, lies }: HandsetControl): string {
  const reach =
    positions.length === 0
      ? `${fromUs} us to ${toUs} us`
      : positions.map(({ name, pulseUs }) => `${name} ${pulseUs} us`).join("  ");
  const rests = rest === null || rest === positions[0]?.name ? "" : `  rests ${rest}`;
  return `${reach}${rests}${lies ? `  ${printPlace(lies)}` : ""}`;
}
