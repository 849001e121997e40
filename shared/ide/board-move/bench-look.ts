/** What to look at on the bench once a board's text was carried to another one, in the order that is safe. */
import type { Catalogue } from "../../catalogue/catalogue.ts";

/** One thing to look at, and the names because of which. */
export interface BenchLook {
  readonly what: string;
  /** `SECTION NAME` each; empty for what is always looked at. */
  readonly because: readonly string[];
}

interface Check {
  readonly what: string;
  /** New firmware may change it whatever the text says. */
  readonly always?: true;
  /** By section, or by `SECTION NAME`. */
  readonly of: RegExp;
}

/** Common practice, no source: what holds the craft back comes first, what spins later, the picture last. */
const CHECKS: readonly Check[] = [
  {
    what: "Switch the handset off, and see what the craft does: receiver and failsafe.",
    always: true,
    of: /^(failsafe|link|navigation) /,
  },
  { what: "Look at each port: receiver, goggles and the rest are where they are soldered.", of: /^ports / },
  { what: "Move each stick: its own channel, its direction, both ends and the middle.", always: true, of: /^link / },
  {
    what: "Arm, disarm, and try each way in which arming must be refused.",
    always: true,
    of: /^(modes arm(-permit)?|safety .*) /,
  },
  {
    what: "Move every switch through all of its positions, and watch which modes come on.",
    of: /^(modes|outputs|adjust) /,
  },
  { what: "Turn one motor at a time: its corner and its direction.", always: true, of: /^(motors|frame) / },
  { what: "Tilt the craft by hand, and watch the horizon go the same way.", of: /^sensors / },
  { what: "Hold a voltmeter to the pack, and compare; then see at which voltage it warns.", of: /^pack(\/.*)? / },
  {
    what: "Hover low: feel for roughness and listen to the motors before you fly on.",
    of: /^(gains|rates|filters)(-second)? /,
  },
  { what: "Look at the picture in the goggles: every element at its place.", of: /^osd(-second)? / },
  {
    what: "Check channel and power of the transmitter before you switch it on near others; local law decides what is allowed.",
    of: /^(video|transmitter) /,
  },
  { what: "Try the finder, the lights and the recorder.", of: /^(finder|lights|recorder|camera) / },
];

/** What to look at for these names, each check once; what stands for safety in the catalogue has a check of its own. */
export function benchLooks(names: readonly string[], catalogue: Catalogue): readonly BenchLook[] {
  const open = new Set(names);
  const looks: BenchLook[] = [
    {
      what: "Take the propellers off before anything on the bench that can arm the craft or spin a motor.",
      because: [],
    },
  ];
  for (const { what, always, of } of CHECKS) {
    const because = names.filter((name) => of.test(`${name} `));
    for (const name of because) open.delete(name);
    if (because.length > 0 || always) looks.push({ what, because });
  }
  const safety = [...open].filter((name) => {
    const [section = "", setting = ""] = name.split(" ");
    return catalogue.setting(section.replace(/\/.*/, ""), setting)?.kind === "safety";
  });
  if (safety.length > 0) looks.push({ what: "Try what keeps people whole, one by one.", because: safety });
  return looks;
}
