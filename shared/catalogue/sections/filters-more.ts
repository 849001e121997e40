/** More filters: those with a moving frequency, and those on other signals. */
import { meaning, practice } from "../sources.ts";
import type { FieldSpec, SettingSpec } from "../specs.ts";

/** A cut-off frequency as a field of a filter that moves. */
function cutField(name: string, what: string, from: number, to: number): FieldSpec {
  return {
    name,
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 1, source: practice },
        max: { at: 4000, source: practice },
        usual: [{ from, to, source: practice }],
      },
    ],
    what,
  };
}

export const otherFilters: readonly SettingSpec[] = [
  {
    name: "motor-notch-depths",
    types: [
      {
        is: "list",
        of: { is: "quantity", unit: "%", min: { at: 0, source: meaning }, max: { at: 100, source: meaning } },
        fewest: 1,
        most: 8,
      },
    ],
    kind: "hardware",
    what: "How fully each harmonic of the motors is cut, beginning with the turning itself.",
    why: "A recording may show that the second harmonic of three-bladed propellers is hardly there: fading its notch gives back the delay it cost. Lowering the one for the turning itself is seldom right, since a nick in a blade shows up exactly there and tomorrow's nick is not on today's recording.",
    needs: [{ setting: "filters.motor-notches", reason: "There have to be motor notches to weaken." }],
    related: ["filters.motor-notches", "frame.propeller-blades"],
    words: ["how deep each notch cuts", "which harmonics", "weaken a notch"],
  },
  {
    name: "tracking-notches",
    types: [
      {
        is: "fields",
        fields: [
          {
            name: "count",
            types: [
              {
                is: "integer",
                min: { at: 1, source: meaning },
                max: { at: 12, source: practice },
                usual: [{ from: 1, to: 6, source: practice }],
              },
            ],
            what: "How many peaks on each axis are followed at once.",
          },
          cutField("floor", "The lowest frequency a notch may go to.", 30, 250),
          cutField("ceiling", "The highest frequency a notch may go to.", 200, 1200),
          cutField("width", "How wide each notch is, between the frequencies at which half the power passes.", 3, 300),
        ],
      },
    ],
    kind: "hardware",
    what: "Notches that listen to the gyro, find the loudest peaks and follow them.",
    why: "They need to know nothing about motors or frame, so they serve craft without speed reports, and catch a loosening screw that nobody planned for. Finding a peak takes time, so in a burst of throttle they arrive late. Beside motor notches one or two are enough; many, with a low floor, start to eat the craft's own movement in a hard bounce.",
    related: ["filters.motor-notches", "filters.notch"],
    words: ["notch that follows the noise", "adaptive filter", "searches for noise peaks"],
  },
  {
    name: "moving-cut",
    types: [
      {
        is: "fields",
        fields: [
          cutField("idle", "The gyro's cut with the throttle closed.", 20, 600),
          cutField("full", "The gyro's cut with the throttle wide open.", 50, 1500),
        ],
      },
    ],
    kind: "hardware",
    what: "A low-pass over the gyro whose cut rises with the throttle.",
    why: "Slow motors shake slowly, fast ones fast, and so a cut that rises along with them removes the same vibration with less delay at full speed, just when the craft is tossed about most. A low idle figure makes descents through one's own wake wobbly; a high one lets motors hum at hover that are calm in a climb. A fixed low-pass behind it adds its own delay to both.",
    related: ["filters.smooth-gyro", "filters.moving-cut-d"],
    words: ["low-pass that moves", "filter follows throttle", "throttle dependent filter"],
  },
  {
    name: "moving-cut-d",
    types: [
      {
        is: "fields",
        fields: [
          cutField("idle", "The damping's cut with the throttle closed.", 15, 300),
          cutField("full", "The damping's cut with the throttle wide open.", 30, 600),
        ],
      },
    ],
    kind: "hardware",
    what: "A low-pass over the damping alone whose cut rises with the throttle.",
    why: "At hover, noise in the damping is heard as a rough motor sound and wanted least; in a full-throttle corner its lateness is felt most. A steep rise suits racers, a flat one craft that cruise. Opened to a gyro's figures it brings back the hot motors that a separate cut was made to prevent.",
    related: ["filters.smooth-d", "filters.moving-cut"],
    words: ["moving damping filter", "damping filter follows throttle"],
  },
  {
    name: "smooth-yaw",
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 1, source: practice },
        max: { at: 4000, source: practice },
        usual: [{ from: 20, to: 600, source: practice }],
      },
    ],
    kind: "hardware",
    what: "How far the yaw part of the motor commands is smoothed by itself, beside what the gyro's filters do.",
    why: "Yaw works through the drag of the propellers, which is slow, so quick commands to it only stir the motors without turning the craft. Smoothing them makes the motors sound cleaner at no loss; far down, yaw swings past its mark after a sharp turn and comes back.",
    related: ["gains.yaw", "filters.smooth-gyro"],
    words: ["yaw low-pass", "yaw twitch", "rough motor sound"],
  },
  {
    name: "smooth-sticks",
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 1, source: practice },
        max: { at: 1000, source: practice },
        usual: [{ from: 4, to: 400, source: practice }],
      },
    ],
    kind: "taste",
    what: "How far roll, pitch and yaw are smoothed as they come from the sticks: quicker movement is weakened.",
    why: "The link delivers stick positions in steps, and unsmoothed each step is a small kick to the motors. Camera pilots go far down and get movements like a crane's, with a noticeable lag; racers go no lower than it takes to hide the steps, about a third of the packet rate. Without any, a slow link turns gentle curves into staircases that a microphone can hear.",
    related: ["link.packet-rate", "filters.smooth-feed", "filters.smooth-throttle"],
    words: ["smooth the sticks", "stick filter", "cinematic movement", "steppy sticks"],
  },
  {
    name: "smooth-throttle",
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 1, source: practice },
        max: { at: 1000, source: practice },
        usual: [{ from: 4, to: 300, source: practice }],
      },
    ],
    kind: "taste",
    what: "Up to which quickness the throttle stick is followed; what is quicker is smoothed.",
    why: "Calm throttle makes a calm height, and jitter of a worn stick is heard in all motors at once. It costs timing: cut at 4 Hz, the push that should catch a dive comes 40 ms late, and at 20 m/s that is most of a metre. Keep it well open for anything close to the ground.",
    related: ["filters.smooth-sticks", "rates.throttle-curve"],
    words: ["throttle smoothing", "jerky throttle", "throttle jitter"],
  },
  {
    name: "smooth-feed",
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 1, source: practice },
        max: { at: 1000, source: practice },
        usual: [{ from: 4, to: 400, source: practice }],
      },
    ],
    kind: "taste",
    what: "How far the stick's speed is smoothed before the feed gain makes a push of it.",
    why: "The speed of a stick that arrives in steps is all spikes, and they go straight to the motors. Lower it until the clicking is gone from the motor sound on quick stick work. Below that, the push that should start a roll arrives when the roll has begun, and lifts it past its mark at the end.",
    related: ["gains.feed-limit", "filters.smooth-sticks", "link.packet-rate"],
    words: ["smooth the feedforward", "motor clicks on stick moves", "stick speed filter"],
  },
];
