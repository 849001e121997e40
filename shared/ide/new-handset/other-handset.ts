/** What another handset of the workspace has: its controls with their notes, and what its transmitter says. */
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { withFile } from "../context/trial.ts";
import type { HandsetControl } from "./draft.ts";

export interface OtherHandset {
  readonly controls: readonly HandsetControl[];
  /** Canonical text of each setting of `transmitter`, by its name. */
  readonly transmitter: ReadonlyMap<string, string>;
}

/** The handset in a file, with all that it uses; controls whose line has a fault are left out. */
export function otherHandset(workspace: Workspace, file: string): OtherHandset {
  const trial = `${file.slice(0, file.lastIndexOf("/") + 1)}.trial.fettle`;
  const text = `craft "Trial"\n\nuse ${quote(pathBetween(trial, file))}\n`;
  const tried = withFile(workspace, trial, text);
  const craft = tried.craft(trial);
  const controls = [...(craft?.controls.values() ?? [])].flatMap(({ name, value, source }): HandsetControl[] => {
    if (!value) return [];
    const { control: kind, channel, positions, rest, fromUs, toUs, lies } = value;
    const note = tried.script(source.file)?.noteOf(source.line).text ?? "";
    const named = positions.map((each) => ({ name: each.name, pulseUs: each.pulseUs }));
    return [{ name, kind, channel, positions: named, rest, fromUs, toUs, lies, note: note === "" ? null : note }];
  });
  const settings = [...(craft?.settings.get("transmitter")?.values() ?? [])];
  return { controls, transmitter: new Map(settings.map((setting) => [setting.name, setting.text])) };
}
