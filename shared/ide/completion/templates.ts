/** Several lines at once, to be filled in: each is offered only where it can stand. */
import type { SectionSpec } from "../../catalogue/specs.ts";
import { freeChannel } from "../../model/free-channel.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import { controlGaps, type GapBehind } from "./columns.ts";
import type { Offer } from "./completion-item.ts";

/** A section with its usual first lines, under a name of its own beside that of the bare section. */
interface Template {
  readonly section: string;
  readonly label: string;
  readonly detail: string;
  readonly body: readonly string[];
  /** True where it stands beside a section of the same name; else only where that is not written yet. */
  readonly isFurther?: true;
}

const SECTIONS: readonly Template[] = [
  {
    section: "pack",
    label: "pack, with its thresholds",
    detail: "what it is, and when to warn and to land",
    body: [
      "pack",
      `  chemistry  \${1|lipo,lihv,li-ion|}`,
      `  cells      \${2:6}`,
      `  capacity   \${3:1100} mAh`,
      `  warn-at    \${4:3.5} V/cell`,
      `  land-at    \${5:3.3} V/cell`,
      "$0",
    ],
  },
  {
    section: "pack",
    label: "pack, named",
    detail: "another pack, which lies over the plain one",
    body: [`pack "\${1:long}"`, `  capacity  \${2:1500} mAh`, "  $0"],
    isFurther: true,
  },
  {
    section: "modes",
    label: "modes, from arm on",
    detail: "what the switches do",
    body: [
      "modes",
      `  # \${1:arm is always the left shoulder switch, pulled down}`,
      `  arm    when \${2:TL} is \${3:down}`,
      `  level  when \${4:TR} is \${5:mid}`,
      "  $0",
    ],
  },
  {
    section: "osd",
    label: "osd, with its first elements",
    detail: "the grid, and what no flight should lack",
    body: [
      "osd",
      `  grid          \${1:53 x 20}`,
      `  pack-volts    at left+\${2:3}, bottom-2`,
      "  flight-time   at left+3, bottom-1",
      `  link-quality  at right-\${3:3}, top+2`,
      "  alerts        at centre, bottom-4",
      "  $0",
    ],
  },
];

/** Sections with their first lines, of those that the file may hold and does not have yet. */
export function sectionTemplates(sections: readonly SectionSpec[], written: ReadonlySet<string>): Offer[] {
  const allowed = new Set(sections.map(({ name }) => name));
  return SECTIONS.filter(
    ({ section, isFurther }) => allowed.has(section) && written.has(section) === (isFurther === true),
  ).map(
    ({ section, label, detail, body }): Offer => ({
      label,
      doc: { of: "section", name: section },
      kind: "snippet",
      detail,
      text: body.join("\n"),
      snippet: true,
      group: 3,
    }),
  );
}

/** Whole lines of controls, each with a name that is not taken and on the next free channel. */
export function controlTemplates(cursor: CursorContext, gapBehind: GapBehind): Offer[] {
  const { script } = cursor;
  const taken = new Set(script.entries.filter(({ kind }) => kind === "control").map(({ name }) => name));
  const free = freeChannel(script);
  const kinds: readonly (readonly [label: string, detail: string, name: string, rest: string])[] = [
    ["switch", "2 positions", "TL", "up 1000 us  down 2000 us"],
    ["switch, three positions", "with a middle", "TR", "up 1000 us  mid 1500 us  down 2000 us"],
    ["selector", "2 to 16 positions", "SX", SIX_POSITIONS],
    ["button", "springs back", "PB", "rest 1000 us  held 2000 us"],
    ["dial", "any pulse of its range", "KN", "1000 us to 2000 us"],
  ];
  return kinds.map(([label, detail, name, rest]): Offer => {
    const kind = label.replace(/,.*/, "");
    const own = freeName(name, taken);
    const [behindKind, behindChannel] = controlGaps(kind, `ch${free}`, cursor);
    const text = `\${1:${own}}${gapBehind(own)}${kind}${behindKind}ch\${2:${free}}${behindChannel}${rest}`;
    return { label, kind: "snippet", detail, text, snippet: true, group: 1 };
  });
}

const SIX_POSITIONS = "one 1000 us  two 1200 us  three 1400 us  four 1600 us  five 1800 us  six 2000 us";

/** The name, with the first number that makes it another than those taken. */
function freeName(name: string, taken: ReadonlySet<string>): string {
  let free = name;
  for (let n = 2; taken.has(free); n++) free = `${name}${n}`;
  return free;
}

/** The comment that accepts a finding of the line below. */
export const allowOffer: Offer = {
  label: "allow",
  kind: "keyword",
  detail: "accept a finding of the line below, with the reason",
  text: "# allow ",
  group: 9,
  doc: {
    of: "text",
    text: "`# allow CODE: reason` accepts a finding of the entry, the section or the file above whose line it stands.",
  },
  retrigger: true,
};
