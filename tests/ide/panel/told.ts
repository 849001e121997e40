/** What the panel tells of a craft's controls, as text: the state, then what each control does, a line each. */
import { toldOfControl } from "../../../shared/draw/control-words.ts";
import { stateInWords } from "../../../shared/draw/words.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import type { ControlsAt } from "../../../shared/protocol/panel.ts";
import { atCursor } from "../cursor.ts";

/** A craft in a few lines: the handset's controls, further sections, and where the controls stand. */
export interface Told {
  readonly controls: string;
  readonly sections: string;
  readonly at?: ControlsAt;
  /** Further files by name, such as layers that the sections use. */
  readonly more?: Readonly<Record<string, string>>;
}

/** The lines of a case; `TL` is always there, up, and arms when it is down. */
export function told({ controls, sections, at = {}, more = {} }: Told): string {
  const handset = `handset "Own"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n${indented(controls)}`;
  const uses = Object.keys(more).map((name) => `use "${name}"\n`);
  const text = `craft "Jug"\n\nuse "own.fettle"\n${uses.join("")}\nmodes\n  arm when TL is down\n\n${sections}\n`;
  const { workspace, file } = atCursor(text, { "own.fettle": handset, ...more });
  const { switches } = panelOf(workspace, file, 1, { positions: at, view: "switches" });
  if (!switches) throw new Error("This craft has no control.");
  const own = switches.controls.filter(({ name }) => name !== "TL");
  return [
    stateInWords(switches.state),
    ...own.flatMap((control) => toldOfControl(control, switches.state).map((line) => `${control.name}  ${line}`)),
  ].join("\n");
}

function indented(lines: string): string {
  return lines
    .trim()
    .split("\n")
    .map((line) => `  ${line.trim()}\n`)
    .join("");
}
