import type { SectionSpec, UsualBand } from "../specs.ts";
import { bySize, bySizeAndMotors, choice, integer, quantity, quotedText, usually, yesNo } from "../value-types.ts";
import { hoverThrottle } from "./hover-throttle.ts";

/** Up to a size of propeller in inches: the usual distances between motors in mm, of up to four. */
const WHEELBASES: readonly [upToIn: number | null, from: number, to: number][] = [
  [1.4, 40, 130],
  [2.2, 60, 190],
  [3.2, 90, 240],
  [4.5, 120, 320],
  [6, 160, 380],
  [8, 220, 540],
  [11, 300, 750],
  [null, 400, 1300],
];

/** The same with more motors, up to so many times as far apart. */
function ring(motors: { from: number; to?: number }, times: number): UsualBand[] {
  return bySize(...WHEELBASES.map(([upToIn, from, to]) => [upToIn, from, Math.round(to * times)] as const)).map(
    (band) => ({ ...band, when: { ...band.when, motors } }),
  );
}

export const frame: SectionSpec = {
  name: "frame",
  what: "The airframe and its propellers: how many, how large, and what it all weighs.",
  why: "Nearly every other figure is judged against the size of the craft: a motor speed, a mass or a filter that is ordinary on ten-inch propellers would be absurd on a craft that fits in the palm.",
  words: ["airframe", "size of the craft", "propellers", "weight"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "motors",
      types: [integer(1, 16, "common practice, no source: no small multirotor has more", usually(3, 8))],
      default: "4",
      kind: "hardware",
      what: "Number of motors that carry the craft.",
      why: "Four is the fewest that steer by thrust alone, with no motor to spare: lose one and the craft tumbles down. Three need a servo to hold the nose. Six or eight can limp to a landing on the rest, and bring weight and twice as many wires to get wrong. A wrong number here spoils every sum for one motor: the current that its controller must carry, and the weight that it lifts.",
      related: ["motors.spin", "frame.arm-layout"],
      words: ["how many motors", "quad", "hexa", "octo", "tri"],
    },
    {
      name: "propeller-diameter",
      types: [
        quantity("in", 0.5, 40, "common practice, no source: outside this no small multirotor flies", usually(0.9, 18)),
      ],
      kind: "hardware",
      what: "Diameter of the circle that a propeller sweeps.",
      why: "It sets the character of the craft more than any other number: large propellers carry weight quietly for a long time and answer slowly, small ones answer at once and drain the pack. What counts as usual, from motor speed to mass to filters, goes by this line. Going up a size on the same motors loads them until they overheat; going down wastes them.",
      related: ["frame.propeller-pitch", "motors.kv", "frame.mass"],
      words: ["prop size", "inches", "five inch", "how big is the craft"],
    },
    {
      name: "propeller-pitch",
      types: [
        quantity(
          "in",
          0.2,
          30,
          "common practice, no source: a propeller outside this gives no useful thrust",
          bySize(
            [1.4, 0.4, 2.5],
            [2.2, 0.7, 3.5],
            [3.2, 1, 5],
            [4.5, 1.5, 6],
            [6, 2, 6.5],
            [8, 2.5, 7.5],
            [11, 2.8, 9],
            [null, 3, 12],
          ),
        ),
      ],
      kind: "hardware",
      what: "How far the propeller would screw itself forward in one turn.",
      why: "Pitch is the gear of the craft. More of it gives top speed and costs current, heat and a mushy feel at low throttle; less of it gives grip in tight turns and long flights, and runs out of speed early. A motor that cannot bring a steep one up to speed makes heat of the difference.",
      related: ["frame.propeller-diameter", "pack.full-current"],
      words: ["prop pitch", "steep propeller", "top speed"],
    },
    {
      name: "propeller-blades",
      types: [integer(1, 16, "common practice, no source: no propeller of this trade has more", usually(2, 8))],
      kind: "hardware",
      what: "Number of blades on each propeller.",
      why: "Two blades are the most efficient and the longest in the air. A third gives more grip of the air and a steadier hover in the same diameter, at perhaps a tenth more current. Beyond that it is a way to get thrust out of a duct or a small circle: many blades are quiet and smooth, and hungry.",
      related: ["frame.propeller-diameter", "frame.ducts"],
      words: ["two-blade", "three-blade", "tri-blade", "how many blades"],
    },
    {
      name: "propeller-fixing",
      types: [
        choice({
          nut: "A locking nut on a threaded motor shaft.",
          screws: "Two small screws through the hub into the motor bell.",
          press: "Pushed onto a bare shaft and held by friction alone.",
          folding: "Blades hinged on a hub, swung out by their own turning.",
        }),
      ],
      kind: "hardware",
      what: "How the propellers are held on the motors.",
      why: "It says which tool goes into the field bag, and what to look at before each flight. An ordinary nut, tightened clockwise, works itself loose on a motor that turns clockwise; screws that are a turn too long short the windings; a pressed hub creeps up the shaft with every knock and one day leaves it at full throttle.",
      hazard:
        "A propeller that lets go is a thrown blade, and the craft falls: check the fixing before flying near anyone.",
      related: ["frame.propeller-diameter", "motors.spin"],
      words: ["prop nut", "prop screws", "push-on propeller", "folding prop"],
    },
    {
      name: "mass",
      types: [
        quantity(
          "g",
          5,
          25_000,
          "from memory: 25 kg is where the EU open category ends; common practice below",
          bySizeAndMotors(
            25_000,
            [1.4, 12, 80],
            [2.2, 20, 220],
            [3.2, 40, 850],
            [4.5, 70, 1000],
            [6, 150, 1500],
            [8, 220, 2700],
            [11, 350, 5200],
            [16, 600, 9500],
            [null, 900, 16_000],
          ),
        ),
      ],
      kind: "hardware",
      what: "Mass of the craft as it takes off: pack, camera and all.",
      why: "Put it on a scale rather than add up what the makers state. Hover throttle, flight time and how hard it hits all follow from this figure, and in many countries so does the law: a good many rules begin at 250 g. Too light a figure promises a flight time that the pack will not keep; one that has grown since you weighed it explains a craft gone lazy.",
      related: ["frame.mass-dry", "frame.hover-throttle", "pack.hover-current"],
      words: ["weight", "all-up weight", "take-off weight", "how heavy", "250 gram"],
    },
    {
      name: "mass-dry",
      types: [
        quantity(
          "g",
          3,
          24_000,
          "common practice, no source: a craft without its pack, under the same upper bound as with it",
          bySizeAndMotors(
            24_000,
            [1.4, 8, 65],
            [2.2, 14, 180],
            [3.2, 28, 680],
            [4.5, 50, 800],
            [6, 100, 1150],
            [8, 150, 1900],
            [11, 240, 3800],
            [16, 400, 7000],
            [null, 600, 12_000],
          ),
        ),
      ],
      kind: "hardware",
      what: "Mass of the craft without a pack, ready to fly otherwise.",
      why: "With this and the mass of each pack, the take-off mass of any pairing is known without a scale in the field. It also shows what the craft gains over the months in tape, glue and repairs. A figure taken without camera or straps makes every sum that follows too good.",
      related: ["frame.mass", "pack.pack-mass"],
      words: ["weight without battery", "empty weight", "bare craft"],
    },
    {
      name: "hover-throttle",
      types: hoverThrottle,
      kind: "hardware",
      what: "Throttle at which the craft hovers with its usual pack, half used.",
      why: "It is the line between climbing and sinking, and lower on a fresh pack: a blind descent after signal loss must stay well below it. Read it from a steady hover at head height, outdoors or clear of walls and floor. A low figure means power to spare and a twitchy throttle; a high one means a heavy craft, with little left to catch a fall. Re-read it after any change of pack, propeller or camera; what a pack of its own changes can stand in that pack.",
      related: [
        "pack.hover-throttle",
        "failsafe.descend-throttle",
        "frame.mass",
        "pack.hover-current",
        "rates.throttle-curve",
      ],
      words: ["where does it hover", "throttle to hover", "hover point"],
    },
    {
      name: "wheelbase",
      types: [
        quantity("mm", 20, 3000, "common practice, no source: no small multirotor lies outside this", [
          // Side by side in a ring they need room; two and two above one another they need none.
          ...ring({ from: 7 }, 2.3),
          ...ring({ from: 5, to: 6 }, 1.6),
          ...bySize(...WHEELBASES),
        ]),
      ],
      kind: "hardware",
      what: "Distance between two motors that stand corner to corner.",
      why: "It says how large a propeller has room to turn and how much leverage a motor has to tilt the craft. A short one is nimble and loses grip when one propeller flies in another's wake; a long one is steady, heavy in the arm and slow to flip. Judge propeller clearance by the neighbouring motors, which stand closer.",
      related: ["frame.propeller-diameter", "frame.arm-layout"],
      words: ["motor to motor", "frame size in millimetres", "diagonal"],
    },
    {
      name: "arm-layout",
      types: [
        choice({
          "true-x": "Four arms of one length at right angles: as quick to roll as to pitch.",
          "wide-x": "Arms spread to the sides, which keeps the front propellers out of the camera's sight.",
          "stretched-x":
            "Longer from nose to tail than across, to keep the rear propellers out of the wash of the front ones.",
          plus: "One arm forward, one back and one to each side.",
          hexagon: "Six arms, evenly spread.",
          octagon: "Eight arms, evenly spread.",
          stacked: "Two motors on each arm, one above the other.",
          tri: "Three arms, the rear motor tilted by a servo.",
          "stacked-tri": "Three arms with two motors on each, one above the other; it needs no servo.",
        }),
      ],
      kind: "hardware",
      what: "The shape in which the arms carry the motors.",
      why: "The board mixes thrust by this shape. If it believes in another, rolling also yaws or pitches a little, and gains seem right on one axis only. A wide shape wants more pitch gain than roll gain, a stretched one the other way round; stacked motors lose about a fifth of their thrust to each other.",
      related: ["frame.motors", "gains.pitch", "gains.roll"],
      words: ["frame shape", "x frame", "h frame", "coaxial", "propellers out of the picture"],
    },
    {
      name: "arm-thickness",
      types: [
        quantity(
          "mm",
          0.3,
          40,
          "common practice, no source: outside this no arm of this trade is made",
          usually(0.8, 12),
        ),
      ],
      kind: "hardware",
      what: "How thick the plate is from which the arms are cut.",
      why: "An arm rings like a tuning fork. A thin one rings low, where the gyro and the control loop still listen, and no gain can be raised past it; one millimetre more moves the ringing up, where a filter takes it out cheaply. Very thick arms only add mass far from the centre, which makes every turn slower, and break the motor instead of the arm.",
      related: ["filters.notch", "frame.mass", "board.soft-mount"],
      words: ["carbon thickness", "arm strength", "resonance of the frame"],
    },
    {
      name: "pack-side",
      types: [
        choice({
          top: "Strapped on the top plate.",
          bottom: "Slung under the frame.",
          inside: "Held between the plates or in a tray.",
        }),
      ],
      kind: "hardware",
      what: "Where on the frame the pack sits.",
      why: "On top, it is what the craft lies on after a tumble; under the frame it takes every landing, and a stone that dents a cell can set it on fire later. What matters in flight is that its weight lies level with the propellers and midway between them: off centre, two motors work harder the whole flight.",
      related: ["pack.pack-mass", "gains.pitch"],
      words: ["battery on top", "underslung", "centre of gravity", "where is the pack"],
    },
    {
      name: "ducts",
      types: [yesNo],
      kind: "hardware",
      what: "Whether rings or ducts surround the propellers.",
      why: "Rings soften a knock against a wall, a chair or a shin, and make the small craft that have them fit for a room. A finger still fits between the spokes, so they are no leave to fly at people. They catch the wind like four sails, ring at a pitch of their own, and make fast forward flight a fight. A cracked one rubs on its propeller and takes it along.",
      related: ["frame.propeller-blades", "filters.smooth-gyro", "safety.arm-tilt-limit"],
      words: ["prop guards", "whoop", "ducted", "guarded propellers"],
    },
    {
      name: "owner",
      types: [quotedText(120)],
      kind: "hardware",
      what: "Whom to call when somebody finds the craft.",
      why: "A number on a label has brought back more craft than any sounder. Keep the same words here and on the frame, so that the label is renewed when the number changes. It names a person: keep it in a layer of your own, and out of any script meant for strangers.",
      related: ["frame.registration", "finder.after-lost"],
      words: ["phone number", "contact", "lost and found", "my name"],
    },
    {
      name: "registration",
      types: [quotedText(60)],
      kind: "hardware",
      what: "The operator's or the craft's registration mark, as the law of the place asks for it.",
      why: "Many countries want it on the craft and visible. Having it in the script means the sticker can be made again after a crash. It leads to a person, so it is no business of a forum: an old mark on a craft that has changed hands makes its former owner answer for your flight.",
      related: ["frame.owner", "frame.mass", "frame.identification"],
      words: ["operator id", "licence number", "registration number"],
    },
    {
      name: "identification",
      types: [
        choice({
          none: "Nothing on the craft broadcasts who flies it.",
          board: "The board sends it, through a part on one of its ports.",
          module: "A module of its own sends it, with its own satellite receiver.",
        }),
      ],
      kind: "safety",
      what: "What on the craft broadcasts its identity and its place, where the law asks for that.",
      why: "Many countries ask craft above some mass, or outside certain places, to tell by radio who they are, where they fly and often where their pilot stands. A module works on any craft, weighs some grams and is silent when nobody has charged it; one on the board shares its position, and with that its failures. With none, fly only what and where the law excuses. Which of them counts, and from which mass on, is for local law to say.",
      hazard:
        "Whoever listens learns where the craft is, and often where you stand: mind that when you fly alone with costly things.",
      needs: [
        { port: "gps", word: "board", misleads: true, reason: "The place that is broadcast comes from satellites." },
        { port: "identification", word: "board", reason: "The part that broadcasts is connected to a port." },
      ],
      related: ["frame.identification-number", "frame.registration", "frame.mass"],
      words: ["remote id", "remote identification", "broadcast id", "electronic number plate"],
    },
    {
      name: "identification-number",
      types: [quotedText(60)],
      kind: "hardware",
      what: "The serial number that the craft broadcasts, as its maker gave it.",
      why: "Where craft are registered by it, the number in the register and the one in the air have to agree. A module that has moved to another craft takes its number along, and a number left from the last one makes both records wrong. It leads to a person, so keep it in a layer of your own.",
      needs: [{ setting: "frame.identification", not: "none", reason: "There is nothing that would broadcast it." }],
      related: ["frame.identification", "frame.registration", "frame.owner"],
      words: ["serial number", "id of the module", "number in the register"],
    },
  ],
};
