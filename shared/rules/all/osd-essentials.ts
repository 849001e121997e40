import type { ElementSpec } from "../../catalogue/specs.ts";
import { placedOn } from "../../osd/layout.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, NameGroup } from "../engine/rule.ts";
import { sectionLocation } from "../lib/locations.ts";

type Role = NonNullable<ElementSpec["role"]>;

const ESSENTIALS: readonly { readonly role: Role; readonly words: string }[] = [
  { role: "voltage", words: "no voltage (pack-volts or cell-volts)" },
  { role: "link", words: "no link figure (link-quality or signal)" },
  { role: "alerts", words: "no alerts" },
  { role: "flight-time", words: "no flight-time" },
];

/** Those that show volts, the link, alerts or the time in flight. */
const IN_A_ROLE: NameGroup = {
  words: "every element that shows volts, the link, alerts or the time in flight",
  names: ({ elements }) => elements.filter(({ role }) => role).map(({ name }) => name),
};

export const rule: CraftRule = {
  code: "osd-essentials",
  severity: "hint",
  scope: "craft",
  summary:
    "The display shows elements, but no pack or cell voltage (then a warning), no link figure, no alerts or no flight time.",
  prose:
    "Most craft that fall out of the air do so with an empty pack or out of reach, and both can be read beforehand: volts, a link figure, the time flown as a second opinion, and alerts for the moment in which nobody reads figures. Add what is missing; what only the second page shows is not there when it is needed. If you fly by another sign, a sounder or a clock on the handset, say so in a note that allows this finding.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nosd\n  grid pal\n  craft at centre, top+1\n  cell-volts at left+2, bottom-1\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nosd\n  grid pal\n  cell-volts at left+2, bottom-1\n  flight-time at right-2, bottom-1\n  link-quality at right-2, top+1\n  alerts at centre, bottom-4\n',
    },
  },
  looksAt: { elements: [IN_A_ROLE] },
  check: (craft, workspace) => {
    // The pilot flies by the second page only if there is no first.
    const page = craft.osd.size > 0 ? "osd" : "osd-second";
    const placed = placedOn(craft, page);
    if (placed.size === 0) return [];
    const roles = new Set([...placed.keys()].map((name) => workspace.catalogue.element(name)?.role));
    const missing = ESSENTIALS.filter(({ role }) => !roles.has(role));
    if (missing.length === 0) return [];
    return [
      {
        at: sectionLocation(craft, workspace, page),
        severity: missing[0]!.role === "voltage" ? "warning" : "hint",
        message: `In flight the display shows ${joinWithAnd(missing.map(({ words }) => words))}.`,
      },
    ];
  },
};
