/** Modes that arm the craft and control its flight; the others are in modes-extra.ts. */
import { extraModes } from "./modes-extra.ts";
import type { ModeSpec } from "./specs.ts";

const noAccelerometer = "Without an accelerometer the craft cannot tell which way is down.";

export const modes: readonly ModeSpec[] = [
  {
    name: "arm",
    what: "Lets the motors run: while it is on the craft flies, when it goes off they stop.",
    why: "The first switch of every craft is the last resort in every mishap, so give it a place that the hand finds blind, the same on all your craft. A switch that must be pulled towards you is rarely knocked. Sharing it with something else, or putting it in a middle position, arms the craft on the way to that other thing; a button or a dial lets go of it in mid air.",
    hazard:
      "From this moment the blades cut. Never arm in the hand, with anybody within reach, or at the bench with the propellers on.",
    related: ["arm-permit", "safety.arm-hold", "safety.arm-throttle-limit", "safety.spin-when-armed", "turtle"],
    words: [
      "start the motors",
      "motor switch",
      "enable motors",
      "stop the motors",
      "arm switch",
      "kill switch",
      "disarm",
    ],
  },
  {
    name: "arm-permit",
    what: "Must be on as well before the craft will arm.",
    why: "Two movements of two fingers do not happen by accident in a bag or in a child's hand. It is most worth having where the tilt limit was taken out, or the propellers are large. Once in the air leave it alone. Put on the same switch as arming it guards nothing, and forgotten in its off position it is the reason why the craft will not arm today.",
    hazard:
      "Taken away in flight it stops the motors on some boards: give it a switch that stays where it is put, and find out with the propellers off.",
    needs: [{ mode: "arm", reason: "It gives leave to arm; with no arm mode there is nothing to give leave to." }],
    related: ["arm", "safety.arm-tilt-limit", "safety.arm-hold"],
    words: ["second arm switch", "permission to arm", "two-step arming", "safety switch", "switch before arming"],
  },
  {
    name: "level",
    inFlight: true,
    what: "The sticks ask for an angle, and with the sticks let go the craft levels itself.",
    why: "It is how most people learn, and how one hovers to take a picture. Flips are impossible, since the craft refuses to lean further than its limit. Flown fast it feels nailed to the horizon, and fights every line that is not level; many move on to flying by rates and keep this on a switch for landing and for the day when the picture fails. After a bump it rights itself by a sense of down that needs some seconds to come true again. A craft that creeps sideways in it wants trim, not stick.",
    needs: [{ setting: "sensors.accelerometer", is: "yes", reason: noAccelerometer }],
    related: ["level-blend", "level-now", "gains.level-stiffness", "sensors.level-trim-roll", "sensors.accelerometer"],
    words: ["angle", "angle mode", "self level", "beginner mode", "stabilised", "hover by itself"],
    attitude: true,
  },
  {
    name: "level-blend",
    inFlight: true,
    what: "Levels itself near the middle of the sticks, and flips freely at their ends.",
    why: "Between the two worlds: let go and it stands, push hard and it turns over. On a palm-sized craft indoors that is a pleasant way to fly. The price is a stick whose meaning changes along its way, which teaches the thumbs habits that neither level nor free flight rewards; and a flip broken off half way ends with the craft righting itself into the floor.",
    needs: [
      {
        setting: "sensors.accelerometer",
        is: "yes",
        reason: "The share of levelling near the middle goes by the accelerometer.",
      },
    ],
    related: ["level", "gains.level-blend-until", "sensors.accelerometer"],
    words: ["horizon", "half levelled", "level with flips", "self level in the middle", "mixed flying"],
    attitude: true,
  },
  {
    name: "lean-limit",
    what: "Flies by rates, as without any mode, but never leans further than `lean-limit` of the rates.",
    why: "Half a step from levelling to free flight: the sticks turn the craft and nothing brings it back, yet it cannot go over. A pupil learns to stop a turn by hand, high up and with a teacher near. Kept on for long it teaches a stick held against a wall that is not there in free flight. In the middle of a flip it stops the craft on its way, so switch it while level.",
    needs: [
      {
        setting: "sensors.accelerometer",
        is: "yes",
        reason: "How far the craft leans is known from its accelerometer.",
      },
      { setting: "rates.lean-limit", unsaid: "missing", reason: "How far it may lean has to be said." },
    ],
    related: ["rates.lean-limit", "level", "level-blend"],
    words: ["training", "trainer", "rates without flips", "learn without levelling", "next step after level"],
    attitude: true,
  },
  {
    name: "level-now",
    inFlight: true,
    what: "Rights the craft at once, whatever the sticks and the other modes ask for, as long as it is on.",
    why: "For the moment in which a pilot no longer knows which way is up: a dark picture, sun in the camera, a beginner in a spin. A button under the thumb suits it, since one wants it for a second and no more. It levels, it does not climb: without enough throttle the craft sinks, quite upright, into the ground. Low between trees the leap to level can be the crash itself.",
    hazard: "The craft snaps upright at full force. Try it first high over open ground, then train the thumb.",
    needs: [
      {
        setting: "sensors.accelerometer",
        is: "yes",
        reason: "It rights the craft by the accelerometer's sense of down.",
      },
    ],
    related: ["level", "return-home", "sensors.accelerometer", "gains.level-stiffness"],
    words: ["panic button", "level at once", "lost orientation", "right the craft"],
  },
  {
    name: "turtle",
    what: "Turns a craft that lies on its back over, by running some of its motors backwards.",
    why: "It saves the walk. Select it disarmed, arm, and tap the stick towards the side over which the craft should roll; then disarm, leave the mode, and arm anew to fly. Most boards look at it only in the moment of arming, so that moved in flight it does nothing; left on by mistake it turns the next start into a somersault. The usual failure is holding the stick: a propeller caught in grass stands still, and its winding burns within seconds while the pilot waits for something to happen.",
    hazard:
      "Short bursts only: blocked motors burn. Nobody near, for the craft jumps, and it may land propellers first. In a tangle of grass or twigs, walk, and disarm before you reach in.",
    needs: [
      {
        setting: "motors.reversible",
        is: "yes",
        reason: "Only motors that can run backwards lift the craft off its back.",
      },
    ],
    related: ["motors.reversible", "safety.turtle-power", "safety.turtle-stop-after", "arm", "safety.arm-tilt-limit"],
    words: [
      "flip it back after a crash",
      "flip it over",
      "upside down in the grass",
      "crashed on its back",
      "turn over",
    ],
  },
  {
    name: "grip-at-idle",
    inFlight: true,
    what: "Keeps full control of attitude while the throttle is closed.",
    why: "With it a craft floats over the top of a loop and still obeys. Without it, closing the throttle lets go of the craft until it is opened again, and it tumbles. To hold it the motors speed up by themselves, so a craft that touches down with it hops and skids until it is disarmed. Most who fly freely leave it on with the arm switch; a beginner lands better without.",
    hazard:
      "On the bench, with the throttle at zero, the motors wind up by themselves as the craft cannot turn: propellers off.",
    related: ["gains.grip-from", "motors.idle", "safety.idle-disarm-after", "safety.spin-when-armed", "arm"],
    words: [
      "air",
      "full authority at zero throttle",
      "falls out of the sky in a dive",
      "bounces on landing",
      "stable at low throttle",
    ],
  },
  {
    name: "launch-hold",
    what: "Holds the craft leaning on the start line until the throttle passes a mark.",
    why: "A race start from a hold is the same every time: nose down, weight on the feet, then everything at once. Switch it on before arming and it serves for one start. If the craft is caught in the grass or one foot gives way, it pushes harder and harder against what will not move; abort by disarming, never by reaching for it.",
    hazard: "The motors turn while the craft stands there: nobody in front of the line, and arm only when told.",
    related: ["gains.launch-tilt", "gains.launch-release", "arm"],
    words: ["race start", "start line", "starting block"],
  },
  {
    name: "hold-height",
    inFlight: true,
    what: "The middle of the throttle stick keeps the height; above and below it the craft climbs and sinks.",
    why: "It frees one thumb, for filming or for a first flight. The height comes from air pressure, so a gust, an open door or the craft's own wash moves it by a metre, and over a hillside it holds its height above the sea, not above the grass. Switching in or out with the throttle anywhere but at the hover makes the craft jump; learn the feel of it high up.",
    hazard: "Never trust it within reach of people or a ceiling: it errs by more than a hand's breadth.",
    needs: [{ setting: "sensors.barometer", is: "yes", reason: "The height that is held comes from air pressure." }],
    related: ["hold-place", "rates.throttle-hover", "sensors.barometer", "height", "climb"],
    words: ["altitude hold", "keep the height", "hover at one height"],
  },
  {
    name: "hold-place",
    inFlight: true,
    what: "Keeps the craft over one spot, and at its height, while the sticks are let go.",
    why: "With a good fix it parks the craft in the air while you look where home is. The fix wanders by metres, and so does the craft. It needs to know which way its nose points: a compass that a lead disturbs makes it circle, wider each time, until it dashes off. That is the moment to leave the mode at once; have a plain switch for it, and height below.",
    hazard: "Leave the mode the moment it begins to circle: each turn is wider and faster than the one before.",
    needs: [
      {
        port: "gps",
        or: [{ setting: "sensors.flow", is: "yes", unsaid: "missing" }],
        reason: "The place that is held comes from a satellite receiver, or from a camera that watches the ground.",
      },
      {
        setting: "sensors.accelerometer",
        is: "yes",
        reason: "It keeps its place by leaning, and leans by the accelerometer's sense of down.",
      },
    ],
    related: [
      "hold-height",
      "return-home",
      "navigation.hold-stick",
      "sensors.compass",
      "sensors.flow",
      "satellites",
      "navigation.fix-needs",
    ],
    words: ["position hold", "gps hold", "park in the air", "hover on the spot"],
  },
  {
    name: "hold-heading",
    inFlight: true,
    what: "Keeps the nose pointing one way while the yaw stick is let go.",
    why: "For a slow pan along a wall, or a craft seen from below whose nose must not wander. By gyro alone it drifts some degrees a minute; by compass it keeps true, as long as the needle is. In fast flight it gets in the way, for banked turns want a nose that follows. A yaw stick that rests off its middle turns it into a slow spin.",
    related: ["link.yaw-rest-zone", "sensors.compass", "heading"],
    words: ["heading lock", "keep the nose straight", "compass hold"],
  },
  {
    name: "heading-by-pilot",
    inFlight: true,
    what: "The sticks push the craft as seen from where its nose pointed at arming, whichever way it points now.",
    why: "A learner who loses track of the nose can still bring the craft back by pulling the stick. It hides the very thing that has to be learnt, and rests on a sense of heading that drifts: after some minutes, or a bump, back is no longer back. Flown by the picture it makes no sense at all, since the pilot sits in the nose.",
    related: ["hold-heading", "sensors.compass", "return-home"],
    words: ["headless", "heading is free", "orientation does not matter", "relative to the pilot"],
  },
  {
    name: "return-home",
    inFlight: true,
    what: "Flies the craft back to where it was armed, by satellites, without the pilot.",
    why: "For the day when picture or orientation is gone and the link still holds; the same flight serves after signal loss if so set up. It climbs first, so set a height above every tree and mast, and try it once near by before it is needed. Home is where the craft was armed with a fix: armed too early, home is somewhere else. Against more wind than its steepest lean can beat it drifts away backwards, and waiting makes it worse.",
    hazard:
      "A craft on its way home sees neither people nor branches. Watch it, and be ready to take over or to stop it.",
    needs: [
      { port: "gps", reason: "The way home comes from a satellite receiver." },
      {
        setting: "sensors.accelerometer",
        is: "yes",
        reason: "It flies by angles, which are measured from the accelerometer's sense of down.",
      },
    ],
    related: [
      "navigation.return-height",
      "navigation.obstacle-height",
      "navigation.fix-needs",
      "navigation.return-speed",
      "navigation.steepest-tilt",
      "failsafe.then",
      "safety.arm-needs-fix",
      "home-arrow",
    ],
    words: ["rth", "fly back by itself", "bring it back by satellites", "come home", "lost the picture"],
  },
  ...extraModes,
];
