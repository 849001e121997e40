/** Further checks on the bench, by the day on which they were made last. */
import type { SettingSpec } from "../specs.ts";
import { date } from "../value-types.ts";

export const benchDays: readonly SettingSpec[] = [
  {
    name: "ends-checked",
    types: [date],
    kind: "hardware",
    what: "Day on which the ends and the middle of each stick were read last.",
    why: "The readings themselves stand in lines of their own; this day says how old they are. A gimbal wears, a handset is calibrated anew, a model is copied with its trims: the figures of two winters ago say little. Read all four sticks in one go and write one day for them. Without it nobody knows whether the readings are older than the handset that they were taken with.",
    related: ["bench.roll", "bench.centres", "link.endpoints", "transmitter.travel"],
    words: ["end point check", "stick calibration day", "travel check"],
  },
  {
    name: "switches-checked",
    types: [date],
    kind: "safety",
    what: "When every position of every switch was last seen to turn on what the script says.",
    why: "Put each control through all of its positions and watch the board's list of modes. A range that begins a few microseconds too late, or a position that the link loses, shows at once and costs a minute; in the air it is the return that never comes on, or a turtle where level was meant. Any change of a condition, of an output or of a dial voids the day, and so does new software on the board.",
    hazard:
      "Propellers off: to see every mode is to put the arm switch on as well, and the craft does not know that it was only a trial.",
    related: ["bench.arming-checked", "link.two-level", "link.channels"],
    words: ["mode check", "switch test", "aux channel check"],
  },
  {
    name: "arming-checked",
    types: [date],
    kind: "safety",
    what: "Day of the last trial in which the craft refused to arm wherever it must, and then armed once.",
    why: "Try each way in which it has to be refused by itself: tilted, with the throttle open, without the permission, without a fix. A limit that was never seen to hold is a line of text. Then arm once and disarm again, so that one knows that the refusals were not a craft that never arms. After a change of any limit, or of the conditions of arm, the day counts no more.",
    hazard: "Propellers off, craft tied down: a refusal that does not come is a craft that arms in the hand.",
    related: ["safety.arm-tilt-limit", "safety.arm-throttle-limit", "safety.arm-needs-fix", "bench.switches-checked"],
    words: ["arming test", "arm refusal", "safety interlock check"],
  },
  {
    name: "meters-checked",
    types: [date],
    kind: "hardware",
    what: "Day on which the shown volts, and the counted charge, were held against a meter and a charger.",
    why: "Parts of a divider drift little, but boards are swapped and scales are typed in wrongly. Volts take a minute with a meter at the leads; charge takes one whole pack and a look at the charger. A new board, another resistor or a corrected scale makes the day old, for a correction that nobody tried is a guess.",
    hazard: "Propellers off: for the volts a pack is in while both hands hold the tips of the meter.",
    related: ["bench.pack-volts-read", "bench.charge-put-back", "pack.divider-top", "pack.shunt"],
    words: ["voltage calibration day", "current calibration day", "multimeter check"],
  },
  {
    name: "helpers-checked",
    types: [date],
    kind: "taste",
    what: "When lights, recorder and camera mount were last seen to do their work.",
    why: "A recorder that was never read back is found to be empty on the one day when its record is wanted, and a camera mount that turns the wrong way is found by the film. Switch each on, look, and switch it off; read one record back. A light that is wired to another pin, a full store or a new servo make the day worth nothing.",
    related: ["recorder.to", "lights.count", "camera.tilt", "bench.finder-checked"],
    words: ["accessory check", "led test", "log readback"],
  },
  {
    name: "picture-checked",
    types: [date],
    kind: "taste",
    what: "Day on which the picture in the goggles was held against the drawing of it.",
    why: "A grid that is not that of the viewer moves every figure, or drops a row; some viewers hide what is too near to the edge. Put the drawing beside the goggles, go through the elements, and let a warning come once. What is missing is noticed on the bench in a minute, and in the air when the pack is empty. Any element that is moved, and any other grid, voids the day.",
    related: ["osd.grid", "video.viewer-grid", "osd.alert-on", "alerts"],
    words: ["osd check", "goggles check", "on-screen layout test"],
  },
  {
    name: "home-checked",
    types: [date],
    kind: "safety",
    what: "Day on which the craft last flew home by itself, in sight and over open ground.",
    why: "Of all checks it comes last, as it needs all of the others. Fly out a little beyond the distance at which a return begins, switch it on, and keep the thumbs at the sticks: it has to climb to its height, turn its nose towards home, and come. A craft that turns away has a compass that is wrong. Take it back by the same switch. Done for the first time with the signal really lost, it is no check but a hope.",
    hazard:
      "In flight, propellers on: nobody below the way home, and a finger at the switch that gives the craft back.",
    related: ["navigation.return-height", "navigation.start-distance", "failsafe.then", "sensors.compass"],
    words: ["return test", "way home trial", "rescue flight test"],
  },
];
