import type { Craft } from "../../model/craft.ts";
import type { FlownCraft } from "../../model/flown.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type FlightMove, flightOf, patienceOf } from "../../numbers/flight.ts";
import type { Fix } from "../../syntax/span.ts";
import type { CraftRule, Location } from "../engine/rule.ts";
import { craftInWords, disturbanceInWords, mhzText, moveTitle, planInWords } from "../lib/flight-words.ts";
import { flownCraft } from "../lib/flown.ts";
import { valueLocation } from "../lib/locations.ts";

const FREQUENCY = "video.frequency";
const IN_ITS_OWN_FILE = "Write it into the craft's own file, as others may use the one that says it now.";

/** All that fly together, this craft as it is now. Null where it is not one of them. */
function flightWith(craft: Craft, workspace: Workspace): { craft: readonly FlownCraft[]; own: number } | null {
  const together = workspace.view.together?.() ?? [];
  const own = together.findIndex(({ file }) => file === craft.file);
  if (own < 0 || together.length < 2) return null;
  return { craft: together.with(own, flownCraft(craft, workspace)), own };
}

/** Only a line of the craft's own file: others use a layer as well. */
function repair(move: FlightMove, at: Location, craft: Craft): Fix[] {
  if (at.source.file !== craft.file) return [];
  const place = (character: number) => ({ line: at.source.line, character });
  const range = { start: place(at.start), end: place(at.end) };
  return [{ title: moveTitle(move), edits: [{ range, text: `${mhzText(move.toMhz)} MHz` }] }];
}

export const rule: CraftRule = {
  code: "fleet-video",
  severity: "warning",
  scope: "craft",
  summary: "The analogue pictures of craft that are flown together disturb one another.",
  prose:
    "Two analogue pictures less than 18 MHz apart break each other up, as that is about how wide a signal is. Where three or more fly, their carriers also mix in transmitters and in viewers that stand near: 2a − b and a + b − c of any of them are carriers that nobody sends, and one that falls within 9 MHz of another craft's is seen in its picture. Channels at even distances, such as 5732, 5769 and 5806 MHz, always do that. It is looked for only among craft that you name to be flown together: “--together” on the command line, the setting “fettle.together” in an editor. The page “channels-together” has the method. Take the channels that the finding proposes, which change as few craft as can be, and look at the bands with a viewer before anybody arms: antennas that are near, and real receivers, differ from any plan. What may be sent where is for local rules.",
  examples: {
    together: ["jug.fettle", "saucer.fettle"],
    bad: {
      "jug.fettle": 'craft "Jug"\n\nvideo\n  signal analogue\n  frequency 5806 MHz\n',
      "saucer.fettle": 'craft "Saucer"\n\nvideo\n  signal analogue\n  frequency 5800 MHz\n',
    },
    good: {
      "jug.fettle": 'craft "Jug"\n\nvideo\n  signal analogue\n  frequency 5806 MHz\n',
      "saucer.fettle": 'craft "Saucer"\n\nvideo\n  signal analogue\n  frequency 5769 MHz\n',
    },
  },
  restsOnMore: true,
  looksAt: {
    settings: [
      FREQUENCY,
      "video.signal",
      "video.standard",
      "video.signal-width",
      "video.power",
      "video.region",
      "video.spare-frequency",
    ],
  },
  restsOn: (craft, workspace) => {
    const together = workspace.view.together?.() ?? [];
    return together.some(({ file }) => file === craft.file) ? together : null;
  },
  check(craft, workspace) {
    const found = flightWith(craft, workspace);
    const setting = settingOf(craft, FREQUENCY);
    if (!found || !setting) return [];
    const flight = flightOf(found.craft, patienceOf(workspace.view));
    const [first] = flight.disturbances[found.own]!;
    if (!first) return [];
    const at = valueLocation(workspace, setting.source);
    const move = flight.plan?.find((each) => each.craft === found.own);
    const by = first.kind === "overlap" ? [first.of] : first.from;
    return [
      {
        at,
        message: [
          disturbanceInWords(found.own, flight, found.craft),
          planInWords(found.own, flight, found.craft),
          ...(move && at.source.file !== craft.file ? [IN_ITS_OWN_FILE] : []),
        ].join(" "),
        related: by.flatMap((i) => {
          const other = found.craft[i]!;
          if (!other.at) return [];
          const { file, line, start, end } = other.at;
          return {
            message: `${craftInWords(other, found.craft)} sends here`,
            at: { source: { file, line }, start, end },
          };
        }),
        fixes: move ? repair(move, at, craft) : [],
      },
    ];
  },
};
