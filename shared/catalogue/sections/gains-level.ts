/** How the craft levels itself, and what a launch holds. */
import { meaning, practice } from "../sources.ts";
import type { SettingSpec } from "../specs.ts";

export const levelGains: readonly SettingSpec[] = [
  {
    name: "level-stiffness",
    types: [
      {
        is: "quantity",
        unit: "",
        min: { at: 0.1, source: practice },
        max: { at: 50, source: practice },
        usual: [{ from: 1, to: 20, source: practice }],
      },
    ],
    kind: "taste",
    what: "How fast self-levelling turns the craft back: degrees a second for each degree it is off.",
    why: "It gives self-levelling its character. Soft, the craft leans into a gust and takes its time to come back, which films well and teaches patience; stiff, it snaps upright when the stick is let go and holds its angle in a draught. Beyond what the gains can follow it overshoots level and rocks to and fro.",
    needs: [{ setting: "sensors.accelerometer", is: "yes", reason: "Without it the craft does not know level." }],
    related: ["level", "level-blend", "gains.level-tilt", "sensors.level-trim-roll"],
    words: ["how hard it levels", "self-level too soft", "level gain", "rocks in level mode"],
  },
  {
    name: "level-tilt",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: 5, source: practice },
        max: { at: 90, source: "by definition: beyond 90 deg level is no longer the way up" },
        usual: [{ from: 15, to: 85, source: practice }],
      },
    ],
    kind: "taste",
    what: "How far the craft leans in level flight with the stick at its end.",
    why: "Lean is speed: 25 deg is a stroll for a beginner, 60 deg a run. A wide angle makes the middle of the stick touchy, since the same travel then covers more, and it takes so much of the thrust sideways that a heavy craft sinks. A narrow one may be too little to make way against the wind and come home.",
    needs: [
      { setting: "sensors.accelerometer", is: "yes", reason: "A lean can only be limited where it is measured." },
    ],
    related: ["level", "gains.level-stiffness", "gains.level-bend"],
    words: ["maximum angle", "angle limit", "tilt limit in level mode", "too slow in level"],
  },
  {
    name: "level-bend",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 0, to: 90, source: practice }],
      },
    ],
    kind: "taste",
    what: "How much the response in level flight is softened about the middle of the stick.",
    why: "It buys calm hands near the centre without giving up the lean at the end, useful with a wide angle or short sticks. With a great deal of it nothing seems to happen for half the travel and then everything does, which beginners answer with ever larger movements.",
    related: ["gains.level-tilt", "rates.roll"],
    words: ["expo in level mode", "softer centre", "too twitchy in level"],
  },
  {
    name: "level-feed",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 300, source: practice },
        usual: [{ from: 0, to: 120, source: practice }],
      },
    ],
    kind: "taste",
    what: "How much of the speed at which the stick asks for lean is turned at once in level flight; levelling does the rest.",
    why: "Levelling alone waits for the lean to be wrong before it acts, so it feels a moment behind the stick. This pushes at once and fades as the stick stands still. Too much of it throws the craft past the angle asked for; none at all suits filming, where nobody wants promptness.",
    related: ["gains.level-stiffness", "filters.smooth-feed"],
    words: ["level mode lags", "feedforward in level", "more direct self-level"],
  },
  {
    name: "level-blend-until",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 1, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 20, to: 100, source: practice }],
      },
    ],
    kind: "taste",
    what: "The stick travel at which blended levelling has faded out and only rates are left.",
    why: "Near the centre `level-blend` levels, towards the end it lets the craft flip. A small figure frees the craft early, so that a firm push already rolls it over by accident; a large one keeps levelling alive to the very end, and flips stall half-way round, upside down, for as long as the thumb hesitates.",
    needs: [{ mode: "level-blend", reason: "It says where that mode changes over." }],
    related: ["level-blend", "gains.level-stiffness"],
    words: ["level near the middle transition", "flips in self-level", "stick travel for flips"],
  },
  {
    name: "launch-tilt",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: 0, source: meaning },
        max: { at: 85, source: practice },
        usual: [{ from: 0, to: 75, source: practice }],
      },
    ],
    kind: "taste",
    what: "How far forwards the craft leans while it waits on its rear motors for a launch.",
    why: "A race is decided before the first gate by who is already pointing at it. Steep, the first push goes all into speed and a weak pack drags the tail along the ground; flat, the craft jumps up and has to be pushed over. It leans on its rear feet, so it wants ground that does not give.",
    hazard:
      "The rear propellers turn fast on the ground, and the craft shoots off the way it leans: nobody in front of the row or beside it.",
    needs: [{ mode: "launch-hold", reason: "The angle is held in that mode." }],
    related: ["launch-hold", "gains.launch-release"],
    words: ["race start angle", "start on the back motors", "launch angle"],
  },
  {
    name: "launch-release",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0, source: meaning },
        max: { at: 100, source: meaning },
        usual: [{ from: 5, to: 90, source: practice }],
      },
    ],
    kind: "taste",
    what: "The throttle at which a held launch lets go.",
    why: "A racer rests with some throttle already in and punches through this figure at the tone. Set where a nervous thumb may wander it goes off early; set near the end the craft sits there for the first tenth of a second with everyone else gone.",
    needs: [{ mode: "launch-hold", reason: "The throttle ends that mode." }],
    related: ["launch-hold", "gains.launch-tilt"],
    words: ["launch throttle", "throttle that starts the race", "false start"],
  },
];
