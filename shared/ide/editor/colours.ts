/** Colours of a script: their ranges, and how a colour is written. */
import colourNames from "color-name";
import type { Workspace } from "../../model/workspace.ts";
import { type Range, rangeOf, spanAt } from "../../syntax/span.ts";
import type { Value, ValueOf } from "../../syntax/value.ts";

/** Components from 0 to 255. */
export type Rgb = readonly [red: number, green: number, blue: number];

export interface ColourAt {
  readonly rgb: Rgb;
  readonly range: Range;
}

/** Every colour in a script, in order of position. */
export function coloursOf(workspace: Workspace, file: string): ColourAt[] {
  return (workspace.script(file)?.entries ?? []).flatMap(({ line, value }) =>
    (value ? coloursIn(value) : []).flatMap((each) => {
      const rgb = rgbOf(each.colour);
      return rgb ? { rgb, range: rangeOf(spanAt(line, each)) } : [];
    }),
  );
}

function coloursIn(value: Value): ValueOf<"colour">[] {
  if (value.kind === "colour") return [value];
  if (value.kind === "list") return value.items.flatMap(coloursIn);
  return value.kind === "fields" ? value.fields.flatMap((field) => coloursIn(field.value)) : [];
}

/** The components of a colour that is a CSS name or `#rrggbb`; null for other text. */
export function rgbOf(colour: string): Rgb | null {
  if (Object.hasOwn(colourNames, colour)) return colourNames[colour as keyof typeof colourNames];
  const digits = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour)?.slice(1);
  if (!digits) return null;
  const [red = 0, green = 0, blue = 0] = digits.map((each) => Number.parseInt(each, 16));
  return [red, green, blue];
}

/** The name of each colour. Where there are two, the spelling with “grey” is used, else the alphabetically first. */
const namesByHex = new Map<string, string>();
for (const [name, rgb] of Object.entries(colourNames)) {
  const hex = hexOf(rgb);
  const known = namesByHex.get(hex);
  if (known === undefined || name.includes("grey") || (!known.includes("grey") && name < known))
    namesByHex.set(hex, name);
}

/** The spellings of a colour, the best first: its CSS name where it has one, and `"#rrggbb"`. */
export function spellingsOf(rgb: Rgb): string[] {
  const hex = hexOf(rgb);
  const name = namesByHex.get(hex);
  return [...(name === undefined ? [] : [name]), `"${hex}"`];
}

function hexOf(rgb: Rgb): string {
  return `#${rgb.map((part) => part.toString(16).padStart(2, "0")).join("")}`;
}
