import type { Catalogue } from "../../catalogue/catalogue.ts";
import { linkOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Expected } from "../../numbers/thrust.ts";
import { hoverKey, hoverWithPack } from "../../numbers/thrust-of.ts";
import type { CraftRule, SettingName } from "../engine/rule.ts";
import { decimalText } from "../lib/figures.ts";
import { heldCurrent, heldThrottle } from "../lib/hover-doubt.ts";
import { type CheckedPack, type PackReport, packReports } from "../lib/packs.ts";

/** What the estimate rests on, the most usual slips first. */
const RESTS_ON: readonly SettingName[] = [
  "frame.mass",
  "motors.kv",
  "frame.propeller-diameter",
  "frame.propeller-pitch",
  "frame.propeller-blades",
  "frame.motors",
];

function doubts(pack: CheckedPack, _key: string | null): PackReport[] {
  const { craft, catalogue } = pack;
  const expected = hoverWithPack(craft, catalogue, pack);
  if (!expected) return [];
  const [throttle, current] = [heldThrottle(craft, pack.section, expected), heldCurrent(craft, pack, expected)];
  const doubtful = [
    ...(throttle?.isFar
      ? [
          {
            setting: throttle.setting,
            text: `${decimalText(throttle.said, 0)} % of the throttle, where ${rangeText(throttle.expected, "%", 0)} is to be expected`,
          },
        ]
      : []),
    ...(current?.isFar
      ? [
          {
            setting: current.setting,
            text: `${decimalText(current.said, 2)} A, where ${rangeText(current.expected, "A", 1)} is to be expected`,
          },
        ]
      : []),
  ];
  if (doubtful.length === 0) return [];
  const rests = RESTS_ON.map((name) => settingOf(craft, name));
  return [
    {
      of: [...doubtful.map(({ setting }) => setting), ...rests, pack.setting("cells"), pack.setting("chemistry")],
      message: `The craft is said to hover at ${doubtful.map(({ text }) => text).join(", and at ")}: so says a rough estimate from ${inputsText(craft, expected.massG, expected.volts)}. One of these figures is likely to be a slip; look at mass, kv, cells and propeller first.`,
    },
  ];
}

/** Equal where nothing has changed but the packs. */
function outsidePack(craft: Craft, catalogue: Catalogue): string | null {
  const key = hoverKey(craft, catalogue);
  const { fromUs, toUs } = linkOf(craft).endpointsUs;
  return key === null ? null : `${key} ${settingOf(craft, "frame.hover-throttle")?.text} ${fromUs} ${toUs}`;
}

function rangeText({ from, to }: Expected, unit: string, decimals: number): string {
  return `${decimalText(from, decimals)} to ${decimalText(to, decimals)} ${unit}`;
}

function inputsText(craft: Craft, massG: number, volts: number): string {
  const text = (name: string) => settingOf(craft, name)?.text;
  const kv = text("motors.kv");
  return [
    `${decimalText(massG, 0)} g`,
    `${text("frame.motors") ?? "the"} propellers of ${text("frame.propeller-diameter")} with a pitch of ${text("frame.propeller-pitch")}`,
    ...(kv === undefined ? [] : [kv]),
    `${decimalText(volts, 1)} V`,
  ].join(", ");
}

export const rule: CraftRule = {
  code: "hover-doubtful",
  severity: "hint",
  scope: "craft",
  summary:
    "The throttle or the current said of the hover is far from what mass, propellers, motors and pack make likely.",
  prose:
    "How fast the propellers must turn to carry the craft follows from its mass and their size, by thrust coefficients published for multirotors; what power that takes follows from momentum theory; and kv and volts turn the one into throttle and the other into current. All of that is rough: blades of one size differ by a quarter in thrust, and small motors in what they waste. So a range is expected, and only a figure that lies more than half again beyond its ends is told of: then one of the figures in the script is likely to be a slip, of a factor, a unit or a digit. It matters, since the way down without a pilot, the time in the air and the throttle limits lean on the hover. Of craft whose throttle rests in its middle the current alone is judged. Craft with rings round their propellers or with propellers above one another are left out, as no published figure holds for them. Weigh the craft, look at what is printed on the motors, and read throttle and current in a calm hover.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  motors 4\n  propeller-diameter 5.1 in\n  propeller-pitch 3.6 in\n  propeller-blades 3\n  mass 64 g\n  hover-throttle 24 %\n\npack\n  chemistry lipo\n  cells 6\n\nmotors\n  kv 1750 rpm/V\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  motors 4\n  propeller-diameter 5.1 in\n  propeller-pitch 3.6 in\n  propeller-blades 3\n  mass 640 g\n  hover-throttle 1240 us\n\npack\n  chemistry lipo\n  cells 6\n\nmotors\n  kv 1750 rpm/V\n',
    },
  },
  looksAt: {
    settings: [
      ...RESTS_ON,
      "frame.mass-dry",
      "frame.ducts",
      "frame.arm-layout",
      "frame.hover-throttle",
      "pack.hover-throttle",
      "pack.hover-current",
      "pack.pack-mass",
      "pack.cells",
      "pack.chemistry",
      "bench.rest-current",
      "motors.reverse-band",
      "safety.arm-throttle",
      "link.endpoints",
    ],
  },
  check: (craft, workspace) => packReports(craft, workspace, doubts, outsidePack(craft, workspace.catalogue)),
};
