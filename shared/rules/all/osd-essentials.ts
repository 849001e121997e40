import type { ElementSpec } from "../../catalogue/specs.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
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

/** The pages by which the craft may be flown: the first, and the second where it can be on while armed, or is alone. */
function pagesThatFly(craft: Craft, workspace: Workspace): readonly ("osd" | "osd-second")[] {
  const hasFirst = craft.osd.size > 0;
  const arms = craft.modes.has("arm");
  if (craft.osdSecond.size === 0) return hasFirst ? ["osd"] : [];
  if (!hasFirst) return ["osd-second"];
  if (!craft.modes.has("osd-second")) return ["osd"];
  const { selected, armed, sets } = boardOf(craft, workspace);
  const inFlight = arms ? sets.meet(armed, selected("osd-second")) : true;
  return inFlight === true ? ["osd", "osd-second"] : ["osd"];
}

export const rule: CraftRule = {
  code: "osd-essentials",
  severity: "hint",
  scope: "craft",
  summary:
    "The display shows elements, but no pack or cell voltage (then a warning), or fewer than two of a link figure, alerts and flight time.",
  prose:
    "Most craft that fall out of the air do so with an empty pack or out of reach, and both can be read beforehand: volts, a link figure, the time flown as a second opinion, and alerts for the moment in which nobody reads figures. Add what is missing. Each page by which one flies is looked at by itself, for what only the other shows is not there when it is needed. If you fly by another sign, a sounder or a clock on the handset, say so in a note that allows this finding.",
  examples: {
    bad: {
      "jug.fettle": 'craft "Jug"\n\nosd\n  grid pal\n  craft at centre, top+1\n  cell-volts at left+2, bottom-1\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nosd\n  grid pal\n  cell-volts at left+2, bottom-1\n  flight-time at right-2, bottom-1\n  link-quality at right-2, top+1\n  alerts at centre, bottom-4\n',
    },
  },
  looksAt: { elements: [IN_A_ROLE], modes: ["osd-second", "arm"] },
  check: (craft, workspace) =>
    pagesThatFly(craft, workspace).flatMap((page) => {
      const placed = placedOn(craft, page);
      if (placed.size === 0) return [];
      const roles = new Set([...placed.keys()].map((name) => workspace.catalogue.element(name)?.role));
      const missing = ESSENTIALS.filter(({ role }) => !roles.has(role));
      const isBlind = missing[0]?.role === "voltage";
      // Of link, alerts and time one may be left out.
      if (!isBlind && missing.length < 2) return [];
      return [
        {
          at: sectionLocation(craft, workspace, page),
          severity: isBlind ? ("warning" as const) : ("hint" as const),
          message: `In flight ${page === "osd" ? "the display" : "the second page"} shows ${joinWithAnd(missing.map(({ words }) => words))}.`,
        },
      ];
    }),
};
