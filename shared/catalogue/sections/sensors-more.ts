/** Trims, the compass's own mount, and the sensors that look down. */
import { meaning, practice, turns } from "../sources.ts";
import type { SettingSpec } from "../specs.ts";

export const otherSensors: readonly SettingSpec[] = [
  {
    name: "level-trim-roll",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: -45, source: practice },
        max: { at: 45, source: practice },
        usual: [{ from: -10, to: 10, source: practice }],
      },
    ],
    default: "0 deg",
    kind: "hardware",
    what: "How far level flight is leaned to the right, so that the craft does not slide to the left.",
    why: "No table is level and no board sits quite true, so a levelled craft creeps sideways in still air; a degree or two cancels that. If it takes more than a handful, look for the bent arm, the crooked board or the pack hung to one side instead: a trim hides them from level flight only, and flown by rates the craft still pulls.",
    related: ["level", "sensors.accelerometer", "sensors.mount-roll"],
    words: ["drifts sideways in level mode", "accelerometer trim", "trim roll", "level trim"],
  },
  {
    name: "level-trim-pitch",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: -45, source: practice },
        max: { at: 45, source: practice },
        usual: [{ from: -10, to: 10, source: practice }],
      },
    ],
    default: "0 deg",
    kind: "hardware",
    what: "How far level flight is leaned nose down, so that the craft does not slide backwards.",
    why: "It is for a board or a frame that is not quite straight: a degree or two end the creeping. It is no way to tilt the camera. Trimmed until a lens that looks up looks ahead, the craft flies off with the stick let go, and one that levels after a lost signal travels towards whatever is in front of it. A camera on a wedge is `camera.uptilt`, a board on one `sensors.mount-pitch`.",
    related: ["level", "camera.uptilt", "sensors.mount-pitch", "sensors.level-trim-roll"],
    words: ["drifts forward in level mode", "trim pitch", "creeps backwards"],
  },
  {
    name: "accelerometer-cut",
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 0.5, source: practice },
        max: { at: 1000, source: practice },
        usual: [{ from: 3, to: 120, source: practice }],
      },
    ],
    kind: "hardware",
    what: "The frequency above which the accelerometer's readings are smoothed away.",
    why: "Gravity does not change, so everything fast in this signal is vibration or manoeuvre, and the craft's sense of level should not chase it. A low figure gives a calm horizon on a rough frame; too low, and after a hard braking the horizon stays tilted for a breath and the craft levels to the wrong angle.",
    related: ["sensors.accelerometer", "gains.level-stiffness"],
    words: ["accelerometer filter", "smooth the accelerometer", "horizon wobbles"],
  },
  {
    name: "compass-yaw",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: -180, source: meaning },
        max: { at: 360, source: turns },
      },
    ],
    kind: "hardware",
    what: "How far the compass is turned on its mount, clockwise from above.",
    why: "A compass in a mast with the satellite receiver is mounted however its cable falls. Get it wrong and the heading is out by the same angle everywhere, and a craft told to fly home sets off with great confidence in another direction. Point the nose north by a hand compass and compare; then east, since a compass that lies upside down still agrees at north and south.",
    needs: [{ setting: "sensors.compass", is: "yes", reason: "Without a compass in use there is no mount to turn." }],
    related: ["sensors.compass", "sensors.compass-flipped", "heading"],
    words: ["compass orientation", "compass turned", "heading off by 90"],
  },
  {
    name: "compass-flipped",
    types: [{ is: "yes-no" }],
    kind: "hardware",
    what: "Whether the compass lies with its parts facing the ground.",
    why: "Many masts carry the compass on the underside of the receiver, so that its chip looks down. Missed, east and west trade places: headings run backwards as the craft is turned, and the controller that tries to hold a heading pushes further away from it.",
    needs: [{ setting: "sensors.compass", is: "yes", reason: "It says how the compass lies, so there has to be one." }],
    related: ["sensors.compass-yaw", "heading"],
    words: ["compass upside down", "heading turns the wrong way", "east and west swapped"],
  },
  {
    name: "declination",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: -180, source: meaning },
        max: { at: 180, source: meaning },
        usual: [{ from: -35, to: 35, source: "from memory: the world magnetic model, inhabited regions" }],
      },
    ],
    kind: "hardware",
    what: "The angle from true north to where a compass points at this place, east positive.",
    why: "Maps and satellites measure from true north, a needle does not, and the difference changes from place to place and slowly over the years. In much of western Europe it is so small that nobody notices; elsewhere a craft that ignores it flies home along a curve, or circles its aim. Look it up for the field, and again for a journey.",
    needs: [{ setting: "sensors.compass", is: "yes", reason: "It corrects the compass." }],
    related: ["sensors.compass", "heading", "return-home"],
    words: ["magnetic declination", "variation", "true north", "flies home in a curve"],
  },
  {
    name: "range-finder",
    types: [{ is: "yes-no" }],
    kind: "hardware",
    what: "Whether a sensor that measures the distance to the ground is fitted and in use.",
    why: "Within its few metres of reach it knows the height above what is really below, table edges and stairs included, where a barometer only guesses. That suits hovering indoors and landing softly. Sound or light that finds no clear echo, over grass or bright floors, gives jumps, and flying across a ledge makes the craft step up or down by that much.",
    related: ["sensors.barometer", "hold-height", "sensors.flow"],
    words: ["lidar", "sonar", "distance to the ground", "downward sensor"],
  },
  {
    name: "flow",
    types: [{ is: "yes-no" }],
    kind: "hardware",
    what: "Whether a camera that watches the ground slide by is fitted and in use.",
    why: "With it a craft can stand still where no satellite reaches, in a hall or under trees. It needs light, a floor with a pattern, and to know the height, since the same movement looks slower from higher up. Over water, snow or a plain carpet it sees nothing move while the craft drifts into the wall.",
    needs: [
      {
        setting: "sensors.range-finder",
        is: "yes",
        misleads: true,
        reason: "Movement over ground follows only from height.",
      },
    ],
    related: ["sensors.range-finder", "hold-place"],
    words: ["optical flow", "hold position indoors", "ground camera"],
  },
];
