/** Navigation by satellites: the quality that a position must have, and the return home. */
import { openCategory, practice } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";
import { choice, integer, quantity, usually, yesNo } from "../value-types.ts";
import { navigationFlight } from "./navigation-flight.ts";

const far = "common practice, no source: beyond what a small pack can fly";
const heights = `${practice} below: houses and trees; ${openCategory} above`;

export const navigation: SectionSpec = {
  name: "navigation",
  what: "How far the craft trusts its satellites, and how it comes home by itself.",
  why: "A return that was set up with care brings a craft back that would have been lost; one that was never tried flies it into the nearest tree at a height that suited another field. Try it over open ground with nobody about, in sight, beyond the start distance and with a thumb on the switch.",
  words: ["gps", "return to home", "come back by itself", "autopilot"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "fix-needs",
      types: [
        integer(
          3,
          40,
          "by definition three satellites give a place on the ground, four one in space; more than forty is no demand to make, common practice",
          usually(6, 20),
        ),
      ],
      kind: "safety",
      what: "How many satellites make a position good enough to fly by.",
      why: "Home is where the craft stood when it armed with a good position, and every metre of error then is a metre beside the field later on. Eight or more with a view all round are good to some metres. Four or five do make a position, one that a wall's echo can shift by the width of a street; ask for very many, and in a valley one waits for ever, and in the end flies without.",
      hazard: "A home set from a poor position may lie beyond an obstacle, or over people.",
      needs: [{ port: "gps", reason: "Satellites are counted by their receiver." }],
      related: ["satellites", "safety.arm-needs-fix", "navigation.worst-spread", "return-home"],
      words: ["minimum satellites", "gps lock", "how many sats", "will not arm without gps"],
    },
    {
      name: "worst-spread",
      types: [
        quantity(
          "",
          1,
          50,
          "by definition 1 is the ideal of a dilution of precision; at 50 a position says nothing, common practice",
          usually(1.2, 3),
        ),
      ],
      kind: "safety",
      what: "The largest dilution of the horizontal position that still counts as good.",
      why: "Many satellites in one strip of sky, between houses, give a position that slides along that strip. This figure sees it where the count does not. At 2 and below the position is firm; above 3 it is too soft to be flown home by, and above 4 a hover wanders visibly. Very strict, a good sky in the woods is refused.",
      related: ["fix-spread", "navigation.fix-needs", "hold-place"],
      words: ["hdop limit", "gps precision", "position wanders"],
    },
    {
      name: "systems",
      types: [
        {
          is: "list",
          of: choice({
            gps: "The satellites of the United States.",
            glonass: "The Russian satellites.",
            galileo: "The European satellites.",
            beidou: "The Chinese satellites.",
            correction: "Geostationary satellites that broadcast corrections for their region.",
          }),
          fewest: 1,
          most: 5,
        },
      ],
      kind: "hardware",
      what: "Which families of satellites the receiver listens to.",
      why: "More of them means a position sooner, and one that holds in a bank when half the sky is behind carbon. Old receivers cope with two families at a time and slow down with more. Corrections help where their region covers one; elsewhere the search for them only delays the first position.",
      related: ["navigation.update-rate", "satellites"],
      words: ["constellations", "galileo", "gnss", "slow gps lock"],
    },
    {
      name: "update-rate",
      types: [quantity("Hz", 0.2, 50, "common practice, no source: no small receiver is faster", usually(1, 25))],
      kind: "hardware",
      what: "How many positions a second the receiver gives.",
      why: "Holding a place in gusts wants five or ten, and so does a speed that follows the craft. Faster than a cheap receiver can compute, it drops families of satellites or mixes stale positions in, which is worse than one good one a second. A slow serial line chokes on it as well.",
      related: ["navigation.systems", "hold-place", "speed"],
      words: ["gps rate", "gps refresh", "position updates"],
    },
    {
      name: "home-set",
      types: [
        choice({
          kept: "The place of the first arming after power-up stays home.",
          renewed: "Every arming sets home anew.",
        }),
      ],
      kind: "safety",
      what: "At which arming home is remembered.",
      why: "Setting it anew each time is right for those who walk and take off elsewhere. After a crash in the woods and a short hop from there, though, the craft would return to the woods; the first of the day keeps the field. Whichever it is, look at the distance home on the display before flying off.",
      related: ["home-distance", "arm", "navigation.fix-needs"],
      words: ["home point", "set home", "wrong home position"],
    },
    {
      name: "return-height",
      types: [quantity("m", 1, 1000, far, [{ from: 10, to: 120, source: heights }])],
      kind: "safety",
      what: "The height over the starting place at which the craft flies home.",
      why: "It has to clear the tallest thing on the way, measured from where one stood and not from where the craft is, with ten metres to spare for a barometer that drifted. Too low ends in the first row of trees; too high wastes charge on the climb, meets stronger wind, and breaks the legal ceiling.",
      hazard: "Over rising ground the height above the starting place is not height above the ground.",
      needs: [{ port: "gps", reason: "The way home is found by satellites." }],
      related: ["navigation.obstacle-height", "navigation.return-climb", "return-home", "height"],
      words: [
        "return altitude",
        "rth altitude",
        "come home height",
        "how high to fly home",
        "flew into a tree on the way home",
      ],
    },
    {
      name: "obstacle-height",
      types: [quantity("m", 0, 900, "common practice, no source: taller than any mast", usually(0, 110))],
      kind: "safety",
      what: "How tall the tallest obstacle about the flying site is, over the starting place.",
      why: "The craft cannot see it; writing it down makes the return height a thing that can be checked before take-off. Trees of a park reach thirty metres, power lines sixty, a hill counts with all that grows on it. Left from another site it gives false ease, so go over it wherever a new place is flown.",
      related: ["navigation.return-height", "return-home"],
      words: ["tree height", "highest obstacle", "power lines", "what is in the way"],
    },
    {
      name: "return-climb",
      types: [
        choice({
          first: "It climbs on the spot and flies home only then.",
          "on-the-way": "It climbs while it flies home.",
          "keep-if-higher": "It climbs on the spot if it is too low, and stays where it is if it is higher.",
        }),
      ],
      kind: "safety",
      what: "How the craft comes to the height at which it returns.",
      why: "Climbing on the spot is safest among trees, as there was room where one came from. On the way saves charge over open fields, and hits whatever stands close by. A craft that is above already had better not sink first: the wind up there costs less than a descent into unknown ground.",
      related: ["navigation.return-height", "navigation.climb-speed"],
      words: ["climb before returning", "height on the way home", "climb on the way home"],
    },
    {
      name: "start-distance",
      types: [quantity("m", 0, 1000, far, usually(3, 100))],
      kind: "safety",
      what: "The distance from home below which a return does not fly, but lands or stops as the failsafe says.",
      why: "Close to its pilot a craft that turns round and climbs by itself is more of a danger than one that comes down: the direction home cannot be told well from a few steps. Ten to thirty metres are common. At zero it turns round overhead, at head height and among everybody; set very far, a link lost just short of it drops a craft that could have come back.",
      hazard: "Inside this circle the craft may drop: know what the failsafe does there.",
      related: ["failsafe.then", "navigation.home-radius", "return-home"],
      words: ["minimum distance for return", "too close to home", "return refused"],
    },
    {
      name: "home-radius",
      types: [quantity("m", 0.5, 500, far, usually(1, 30))],
      kind: "safety",
      what: "How near to home counts as being there.",
      why: "Satellites know a place to some metres, so a circle smaller than that is searched for ever, to and fro, until the pack is empty. A wide one makes the craft begin to land where it meets the circle, perhaps over the car park. Three to ten metres suit an open field. Keep it well inside the start distance, or a return begun just outside is over before it has begun.",
      related: ["navigation.arrival", "navigation.start-distance", "home-distance"],
      words: ["arrival circle", "close enough to home", "landing circle"],
    },
    {
      name: "arrival",
      types: [
        choice({
          land: "It comes down and disarms.",
          wait: "It stays over home until the pilot takes over, or the pack is at its landing volts; then it lands.",
          stop: "The motors stop as soon as it is there.",
        }),
      ],
      kind: "safety",
      what: "What the craft does when it has come home.",
      why: "Waiting gives time to take over, at the price of charge; landing is sure, on ground that nobody has looked at. Stopping is for what glides, and for no multirotor above head height: from the return height it is a fall on whatever is below.",
      hazard: "Move away from the starting place, you too: a craft that comes down there does not see people.",
      related: ["navigation.landing-speed", "failsafe.pack-empty-then", "navigation.home-radius"],
      words: ["land at home", "hover over home", "what happens after the return"],
    },
    {
      name: "home-needs-heading",
      types: [yesNo],
      kind: "safety",
      what: "Whether a return is refused while the craft does not know which way it points.",
      why: "Without a compass the nose's direction is learned from flying straight for a while; a return begun before that flies off in any direction. Refusing it then leaves the failsafe to bring the craft down where it is. Not refusing is for pilots who always fly a straight stretch first.",
      needs: [{ port: "gps", reason: "Direction of flight comes from a moving position." }],
      related: ["sensors.compass", "heading", "failsafe.then-without-fix", "return-home"],
      words: ["return without compass", "flew away on return", "heading unknown"],
    },
    ...navigationFlight,
  ],
};
