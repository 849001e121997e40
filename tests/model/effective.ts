/** The effective craft of some files, line by line, as `SECTION.NAME  value  <- file:line`. */
import type { Craft, Source } from "../../shared/model/craft.ts";
import { workspaceOf } from "../rules/check.ts";

/** The craft of the first file. */
export function craftOf(files: Readonly<Record<string, string>>, handset?: string): Craft {
  const craft = workspaceOf(files).craft(Object.keys(files)[0]!, handset);
  if (!craft) throw new Error("the first file is no craft");
  return craft;
}

/** Every value that counts, its canonical spelling, and the line (from 1) that it comes from; `?` where it has a fault. */
export function effectiveLines(craft: Craft): string[] {
  const line = (name: string, known: boolean, text: string, sources: readonly Source[]) =>
    `${name}: ${known ? "" : "? "}${text} <- ${sources.map(({ file, line: at }) => `${file}:${at + 1}`).join(" ")}`;
  const settings = [...craft.settings].flatMap(([section, table]) =>
    [...table.values()].map(({ name, value, text, source, fieldSources, items }) => {
      const sources = items
        ? items.map((item) => item.source)
        : fieldSources.size > 0
          ? [...fieldSources.values()]
          : [source];
      return line(`${section}.${name}`, value !== null, text, sources);
    }),
  );
  const conditions = [
    ...[...craft.modes.values()].map((mode) => ({ ...mode, name: `modes.${mode.name}` })),
    ...[...craft.outputs.values()].map((mode) => ({ ...mode, name: `outputs.${mode.name}` })),
  ].map(({ name, condition, text, lines }) =>
    line(
      name,
      condition !== null,
      text,
      lines.map(({ source }) => source),
    ),
  );
  const others = [
    ...[...craft.controls.values()].map((each) => ({ ...each, section: "controls" })),
    ...[...craft.osd.values()].map((each) => ({ ...each, section: "osd" })),
    ...[...craft.osdSecond.values()].map((each) => ({ ...each, section: "osd-second" })),
    ...[...craft.adjust.values()].map((each) => ({ ...each, section: "adjust" })),
  ].map(({ section, name, value, text, source }) => line(`${section}.${name}`, value !== null, text, [source]));
  const kept = craft.kept.map(({ dialect, text, source }) => line(`verbatim ${dialect}`, true, text, [source]));
  return [...settings, ...conditions, ...others, ...kept];
}
