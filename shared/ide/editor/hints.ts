/** Inlay hints, at most one for each line: a figure that follows from the line on its craft. */
import type { Craft } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Position, Range } from "../../syntax/span.ts";
import { consequencesOf } from "../consequences/consequences.ts";
import { craftFor } from "../context/cursor-context.ts";
import { lineCounts } from "../context/effective-entry.ts";

/** What a hint tells: what follows from a value, or what pulses the positions of a condition send. */
export type HintKind = "consequence" | "pulses";

export interface InlayHint {
  readonly kind: HintKind;
  /** The hint is shown after this position. */
  readonly at: Position;
  /** It begins with “=” or “→”, so that it never reads as part of the value before it. */
  readonly label: string;
  readonly tooltip: string;
}

/** The hints of a range's lines, for the file's craft. A line whose value is not effective has none. */
export function hintsOf(workspace: Workspace, file: string, range: Range): InlayHint[] {
  const script = workspace.script(file);
  const craft = script && craftFor(workspace, file);
  if (!script || !craft) return [];
  return script.entries
    .filter((entry) => entry.line >= range.start.line && entry.line <= range.end.line)
    .flatMap((entry) => hintOf(workspace, craft, script, entry) ?? []);
}

function hintOf(workspace: Workspace, craft: Craft, script: Script, entry: Entry): InlayHint | null {
  if (entry.kind === "mode" || entry.kind === "output") return pulsesHint(craft, script, entry);
  if (!entry.value || !lineCounts(craft, script.file, entry)) return null;
  const { kind, section, name, line } = entry;
  const sentences = consequencesOf(craft, workspace.catalogue, { kind, section, name, file: script.file, line });
  const shown = sentences.find(({ brief }) => brief !== undefined);
  return shown
    ? {
        kind: "consequence",
        at: { line, character: entry.value.end },
        label: setOff(shown.brief!),
        tooltip: shown.text,
      }
    : null;
}

/** The pulses of the positions in a condition, after the last of them. */
function pulsesHint(craft: Craft, script: Script, entry: Entry): InlayHint | null {
  const { text } = script.tree.lines[entry.line]!;
  const found = entry.pieces.flatMap((piece) => {
    if (piece.kind !== "position" || piece.of === undefined) return [];
    const word = text.slice(piece.start, piece.end);
    const control = craft.controls.get(piece.of)?.value;
    const position = control?.positions.find(({ name }) => name === word);
    return position && control ? { piece, of: piece.of, word, us: position.pulseUs, channel: control.channel } : [];
  });
  const last = found.at(-1);
  if (!last) return null;
  return {
    kind: "pulses",
    at: { line: entry.line, character: last.piece.end },
    label: setOff(`= ${found.map(({ us }) => us).join(", ")} us`),
    tooltip: found.map(({ of, word, us, channel }) => `${of} at “${word}” sends ${us} us on ch${channel}`).join("\n"),
  };
}

/** A figure as it stands beside a value: one that is the same in other words has its “=” already, one that follows has not. */
function setOff(figure: string): string {
  return figure.startsWith("= ") ? figure : `→ ${figure}`;
}
