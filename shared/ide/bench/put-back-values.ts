/** What a script says that a board is to hold, in words, stage by stage. */
import { wantedOf } from "../../dialect/write/wanted.ts";
import type { Craft, Source } from "../../model/craft.ts";
import { settingIn } from "../../numbers/values.ts";
import { printValue } from "../../syntax/print-value.ts";
import type { BenchView } from "./bench-view.ts";
import { isOfBoard, stageOf } from "./put-back-stages.ts";

/** One line of the effective craft. */
export interface Said {
  /** `SECTION NAME`, as a report of a written text names it. */
  readonly what: string;
  readonly section: string;
  readonly stage: string;
  /** The name with its value, such as `port1 receiver`; of something private that the script has it. */
  readonly words: string;
  /** Of a value with fields each with its value, by name. */
  readonly fields: ReadonlyMap<string, string>;
  readonly from: readonly Source[];
}

/** All that the craft says and a board may hold, in the order of the catalogue; lines with a fault go to the unknowns. */
export function saidForBoard(view: BenchView): readonly Said[] {
  const { whole, workspace, catalogue } = view;
  const { wants, unclear } = wantedOf(whole, workspace);
  for (const { what, why } of unclear) {
    const [section = "", name = ""] = what.split(" ");
    const path = `${section}.${name}`;
    // What a missing file may say is told of once, for the file.
    if (isOfBoard(section, name) && entryOf(whole, section, name)?.text !== "")
      view.unknown(`What is to be put back of ${path} is not known, as ${why}.`);
  }
  return wants.flatMap(({ what, section, name, rest, content, spec, setting }): Said[] => {
    if (!isOfBoard(section, name)) return [];
    const entry = entryOf(whole, section, name);
    const isPrivate = setting?.private !== undefined || catalogue.setting(spec.name, name)?.private !== undefined;
    const value = content.kind === "condition" ? `when ${entry?.text ?? ""}` : rest;
    const fields =
      content.kind === "value" && content.value.kind === "fields"
        ? content.value.fields.map((each) => [each.name, printValue(each.value)] as const)
        : [];
    return [
      {
        what,
        section,
        stage: stageOf(section),
        // The columns of a script are none in a sentence.
        words: isPrivate ? `${name} as the script has it` : `${name} ${value}`.replaceAll(/ {2,}/g, " "),
        fields: new Map(fields),
        from: entry?.from ?? [],
      },
    ];
  });
}

function entryOf(craft: Craft, section: string, name: string): { text: string; from: readonly Source[] } | null {
  const ofLines = (section === "modes" ? craft.modes : section === "outputs" ? craft.outputs : null)?.get(name);
  if (ofLines) return { text: ofLines.text, from: ofLines.lines.map(({ source }) => source) };
  const places = section === "osd" ? craft.osd : section === "osd-second" ? craft.osdSecond : null;
  const one = places?.get(name) ?? (section === "adjust" ? craft.adjust.get(name) : settingIn(craft, section, name));
  return one ? { text: one.text, from: [one.source] } : null;
}

/** Several of them in a sentence's end, of several sections each with its name; values hold commas. */
export function inWords(said: readonly Pick<Said, "words" | "section">[]): string {
  const sections = new Map<string, string[]>();
  for (const { section, words } of said) sections.set(section, [...(sections.get(section) ?? []), words]);
  if (sections.size <= 1) return said.map(({ words }) => words).join("; ");
  return [...sections].map(([section, words]) => `${section}: ${words.join("; ")}`).join(". ");
}

/** Whether the craft says something of a name, whatever it is. */
export function isSaidBy({ whole }: BenchView, section: string, name: string): boolean {
  switch (section) {
    case "modes":
      return whole.modes.has(name);
    case "outputs":
      return whole.outputs.has(name);
    case "adjust":
      return whole.adjust.has(name);
    default:
      return (
        whole.settings.get(section)?.has(name) === true ||
        (section === "osd" ? whole.osd : section === "osd-second" ? whole.osdSecond : null)?.has(name) === true
      );
  }
}
