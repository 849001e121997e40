/** Gains beyond those of the three axes: limits of the steady part, and the feel of the sticks. */
import { meaning, practice } from "../sources.ts";
import type { FieldSpec, SettingSpec } from "../specs.ts";

/** The highest damping of one axis, on the scale of the gains. */
function fastDamping(name: string, what: string): FieldSpec {
  return {
    name,
    types: [
      {
        is: "quantity",
        unit: "",
        min: { at: 0, source: meaning },
        max: { at: 20, source: practice },
        usual: [{ from: 0, to: 4, source: practice }],
      },
    ],
    what,
  };
}

export const steeringGains: readonly SettingSpec[] = [
  {
    name: "i-limit",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 10, to: 100, source: practice }],
      },
    ],
    kind: "hardware",
    what: "The most of the motors' range that i, the steady part of the correction, may claim.",
    why: "Against a bent arm or a pack hung far back the steady part has to hold a real load all the time, and needs room for it. Without a limit it goes on gathering while an armed craft hangs in a net or leans on a kerb, and throws it over as it comes free. Held tight, the craft slides off to one side in a long dive.",
    related: ["gains.i-waits-on", "gains.roll"],
    words: ["integral limit", "limit of the i part", "flips when released"],
  },
  {
    name: "i-waits-on",
    types: [
      {
        is: "choice",
        choices: [{ word: "none", what: "The steady part gathers on every axis at all times." }],
      },
      {
        is: "list",
        of: {
          is: "choice",
          choices: [
            { word: "roll", what: "It waits on roll while the stick asks for a fast roll." },
            { word: "pitch", what: "It waits on pitch while the stick asks for a fast flip." },
            { word: "yaw", what: "It waits on yaw while the stick asks for a fast turn." },
          ],
        },
        fewest: 1,
        most: 3,
      },
    ],
    kind: "taste",
    what: "Axes on which i, the steady part of the correction, stops gathering while the sticks move fast.",
    why: "In a snap roll the craft is behind the stick for a moment, and the error gathered then comes out after the stop as a slow bounce back. Pausing it gives clean stops. On a craft that turns slowly the pause only loosens its hold, and on yaw it can let the nose swing in long fast sweeps.",
    related: ["gains.i-waits-above", "gains.i-limit"],
    words: ["windup guard", "anti-windup", "bounce back after a flip"],
  },
  {
    name: "i-waits-above",
    types: [
      {
        is: "quantity",
        unit: "deg/s",
        min: {
          at: 5,
          source: "common practice, no source: a resting stick trembles by less, and the hold would come and go",
        },
        max: { at: 3000, source: "common practice, no source: no stick asks for more" },
        usual: [{ from: 40, to: 600, source: practice }],
      },
    ],
    kind: "taste",
    what: "The rate asked for by the stick above which the steady part waits.",
    why: "A quick, light racer settles at once and wants a high figure, so that only the sharpest moves count; a heavy seven-inch swings for longer and wants a low one. At some tens of degrees a second the steady part waits in ordinary turns, and the craft feels loose in wind; near the end of the rates it hardly ever waits, and the bounce is back.",
    needs: [
      { setting: "gains.i-waits-on", not: "none", reason: "It says on which axes the steady part waits at all." },
    ],
    related: ["gains.i-waits-on", "rates.roll"],
    words: ["windup cut", "how quick a move counts", "slow wobble after stopping", "bounce on a heavy craft"],
  },
  {
    name: "i-throttle-lift",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 900, source: practice },
        usual: [{ from: 0, to: 400, source: practice }],
      },
    ],
    kind: "hardware",
    what: "By how much more strongly the steady part works while the throttle is changing fast: 100 % is twice.",
    why: "No craft is quite balanced, so a punch of throttle lifts its nose or drops it before a patient steady part has caught up. Strengthening it just then keeps the line. Overdone, each throttle stab is answered by a short shake, worst on a craft whose centre of mass lies far from the middle of its motors: moving the pack is the better cure.",
    related: ["gains.pitch", "gains.throttle-kick"],
    words: ["nose dips on throttle", "nose drops on throttle", "throttle punch pitch up"],
  },
  {
    name: "i-turns",
    types: [{ is: "yes-no" }],
    kind: "taste",
    what: "Whether the steady correction is carried round with the craft as it yaws.",
    why: "What holds against a side wind as roll becomes, a quarter turn later, what is needed as pitch. Carrying it over keeps fast yaw spins and turning rolls on their axis. If the load is fixed to the craft, as with a crooked pack, turning the correction away from it makes a wobble once each turn.",
    related: ["gains.yaw", "gains.i-limit"],
    words: ["integral carried round", "yaw spins wobble", "wind during yaw"],
  },
  {
    name: "d-fast",
    types: [
      {
        is: "fields",
        fields: [
          fastDamping("roll", "What damping rises to on roll."),
          fastDamping("pitch", "What damping rises to on pitch."),
          fastDamping("yaw", "What damping rises to on yaw."),
        ],
      },
    ],
    kind: "hardware",
    what: "The damping during fast movement, in place of the calm d of each axis.",
    why: "Damping is wanted when a flip is being stopped and is only noise while hovering, so it can be low at rest and rise when things move. That runs cooler than one high figure. A rise by more than about half is felt as a change of character in the middle of a move, and one below the calm figure does nothing.",
    hazard:
      "A hover does not show its heat, for it wakes in hard moves only: fly those for half a minute, land, pull the pack and touch the motors.",
    related: ["gains.roll", "gains.d-fast-gain", "filters.smooth-d"],
    words: ["damping in fast moves", "d rises in fast moves", "cooler motors"],
  },
  {
    name: "d-fast-gain",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 200, source: practice },
        usual: [{ from: 5, to: 100, source: practice }],
      },
    ],
    kind: "taste",
    what: "How readily damping rises towards its fast figure.",
    why: "High, the slightest gust already brings full damping, and the motors are as rough as if it were always on. Low, it wakes only for the hardest stops, and propeller wash in a descent is left to shake the craft. Listen in a fast descending turn: that is where it should just come in.",
    needs: [{ setting: "gains.d-fast", reason: "There has to be a fast figure to rise to." }],
    related: ["gains.d-fast"],
    words: ["how readily damping rises", "prop wash shaking", "how soon d rises"],
  },
  {
    name: "d-on-stick",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 300, source: practice },
        usual: [{ from: 0, to: 200, source: practice }],
      },
    ],
    kind: "taste",
    what: "How much of the damping also counts the movement asked for, and so pushes with the stick.",
    why: "At nothing, damping resists every rotation, the wanted ones too, and the craft feels thick and steady. As it grows, damping gives way to what the stick asks, and the answer gets snappy. Past a full share it throws the craft into a roll and needs catching at the end. Where there is a feed gain as well, the two do the same work twice.",
    related: ["gains.roll", "filters.smooth-feed"],
    words: ["damping counts the stick", "snappier sticks", "damping resists the stick"],
  },
  {
    name: "feed-limit",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 200, source: practice },
        usual: [{ from: 40, to: 150, source: practice }],
      },
    ],
    kind: "taste",
    what: "How far the feed gain's push may still reach as the command nears the end of the rates.",
    why: "When a stick is thrown to its stop its speed breaks off at once, and a push that follows it would overshoot the end rate. This eases it out beforehand. Low, full flips start lazily; high, each one begins with a kick past the rate and a dip after it.",
    related: ["filters.smooth-feed", "rates.roll", "gains.roll"],
    words: ["feedforward limit", "overshoot at full stick", "kick at the start of a flip"],
  },
  {
    name: "feed-calm",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 0, to: 80, source: practice }],
      },
    ],
    kind: "taste",
    what: "How much of the feed gain's push is held back while the stick hardly moves.",
    why: "Thumbs tremble and stick sensors flicker, and a strong push turns that into a restless hum in straight flight. Calming it leaves quick moves untouched. Too much of it, and the first touch of a correction seems to stick before it breaks loose: a racer, who lives on small quick inputs, keeps it low.",
    related: ["filters.smooth-feed", "link.packet-rate"],
    words: ["steady the small moves", "restless in straight flight", "trembling thumbs"],
  },
];
