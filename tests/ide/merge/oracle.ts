/** What a script says, by the model alone: the effective craft of the file by itself. */
import { isSameSetting } from "../../../shared/ide/compare/meaning.ts";
import type { Setting } from "../../../shared/model/craft.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { catalogue } from "../compare/made-lines.ts";

const core = makeCore(catalogue);

/** Of each name what it comes to, as something to be compared. */
export type Says = ReadonlyMap<string, Setting | string>;

export function saysOf(text: string): Says {
  const says = new Map<string, Setting | string>();
  const workspace = core.at(memoryFiles({ "/jug.fettle": text }));
  const script = workspace.script("/jug.fettle")!;
  const craft = workspace.craftLike("/jug.fettle")!;
  for (const [section, table] of craft.settings)
    for (const [name, setting] of table) says.set(`${section}.${name}`, setting);
  for (const [kind, modes] of Object.entries({ modes: craft.modes, outputs: craft.outputs })) {
    for (const [name, { lines }] of modes) {
      const texts = lines.map(({ source }) => script.entries.find(({ line }) => line === source.line)!.text);
      says.set(
        `${kind}.${name}`,
        [...new Set(texts.map((each) => each.trim().replace(/\s+/g, " ")))].sort().join(" OR "),
      );
    }
  }
  for (const [kind, table] of Object.entries({
    controls: craft.controls,
    osd: craft.osd,
    "osd-second": craft.osdSecond,
    adjust: craft.adjust,
  }))
    for (const [name, { text: said, value }] of table)
      says.set(`${kind}.${name}`, { name, section: kind, value, text: said, items: null } as unknown as Setting);
  for (const { dialect, text: kept } of craft.kept)
    says.set(`verbatim.${dialect}`, `${says.get(`verbatim.${dialect}`) ?? ""}${kept}\n`);
  for (const { section, all, names } of script.drops) {
    if (all) says.set(`${section} drop all`, "dropped");
    for (const { text: name } of names) {
      const said = says.get(`${section}.${name}`);
      // What the file itself says whole does not depend on what earlier files said.
      const isWhole = said !== undefined && (typeof said === "string" || said.value?.kind !== "fields");
      if (!isWhole) says.set(`${section} drop ${name}`, "dropped");
    }
  }
  says.set("header", `${script.kind} ${script.name}`);
  says.set("use", script.uses.map(({ path }) => path).join(", "));
  return says;
}

export function isSameSaying(a: Setting | string | undefined, b: Setting | string | undefined): boolean {
  if (a === undefined || b === undefined || typeof a === "string" || typeof b === "string") return a === b;
  if (a.value === null || b.value === null)
    return a.text.trim().replace(/\s+/g, " ") === b.text.trim().replace(/\s+/g, " ");
  return isSameSetting(a, b);
}
