/** How the craft moves while it flies by itself, and where it must not go. */
import type { SettingSpec } from "../specs.ts";
import { choice, quantity, usually, yesNo } from "../value-types.ts";

const fast = "common practice, no source: faster than any small craft should fly by itself";

export const navigationFlight: readonly SettingSpec[] = [
  {
    name: "return-speed",
    types: [quantity("m/s", 0.5, 50, fast, usually(2, 25))],
    kind: "safety",
    what: "Speed over the ground at which the craft flies home.",
    why: "Over the ground means on top of the wind: for five against a wind of eight the craft has to do thirteen through the air, and where the steepest tilt does not reach that far it hangs in one place or is blown away backwards, with the arrow pointing home all the time. Slow, a long way home costs more charge than is left; very fast, it costs as much again and overshoots home by a field's length. About half of what the craft can do in still air leaves room on both sides.",
    needs: [{ port: "gps", reason: "Speed over the ground is measured by satellites." }],
    related: ["speed", "navigation.steepest-tilt", "time-left"],
    words: ["return speed", "speed on the way home", "blown away by the wind"],
  },
  {
    name: "climb-speed",
    types: [quantity("m/s", 0.2, 30, fast, usually(0.5, 12))],
    kind: "taste",
    what: "How fast the craft climbs when it does so by itself.",
    why: "A lively climb clears the trees before the wind has carried the craft into them. A heavy craft on a half-empty pack cannot hold one: its volts sag to the landing mark on the way, and it begins to come down among the branches it was to clear. A crawl lets it drift along at their height.",
    related: ["navigation.return-climb", "pack.land-at", "climb"],
    words: ["ascent rate", "automatic climb", "climbs too slowly"],
  },
  {
    name: "descend-speed",
    types: [quantity("m/s", 0.1, 15, fast, usually(0.3, 5))],
    kind: "taste",
    what: "How fast the craft comes down from a height when it does so by itself.",
    why: "Straight down beyond some three metres a second most small craft fall into their own stirred air, rock, and may tip over. Slower is steady but takes a minute and a half from a hundred metres, which an empty pack does not give: choose it together with the height of return.",
    related: ["navigation.landing-speed", "climb", "failsafe.descend-throttle", "navigation.return-height"],
    words: ["descent rate", "sink speed", "wobbles coming down"],
  },
  {
    name: "landing-speed",
    types: [quantity("m/s", 0.05, 5, fast, usually(0.2, 2))],
    kind: "taste",
    what: "How fast the craft sinks over the last metres.",
    why: "The barometer cannot tell the ground from half a metre above it, and the propellers' own pressure confuses it down there. Half a metre a second touches down softly and gets it over with; slower, the craft hovers and drifts in ground effect; faster, it bounces and may not notice that it has landed.",
    related: ["navigation.descend-speed", "navigation.landing-height", "sensors.range-finder"],
    words: ["touchdown speed", "soft landing", "hard landing by itself"],
  },
  {
    name: "landing-height",
    types: [
      quantity("m", 0.2, 50, "common practice, no source: higher up there is nothing to be careful of", usually(1, 20)),
    ],
    kind: "taste",
    what: "The height at which the sink slows down for the landing.",
    why: "Height drifts with the weather in the course of a flight, so the slow part has to begin some metres above where the ground ought to be. Begun very high, it uses up the last of the charge; very low, and a drift of two metres puts the craft into the ground at full sink.",
    related: ["navigation.landing-speed", "height", "ground-clearance"],
    words: ["slow down height", "flare height", "landing begins"],
  },
  {
    name: "steepest-tilt",
    types: [
      quantity("deg", 5, 80, "common practice, no source: beyond it a hovering craft only falls", usually(10, 55)),
    ],
    kind: "safety",
    what: "The steepest angle at which the craft leans while it flies by itself.",
    why: "Leaning is how it pushes against wind, so more angle holds in more of it. It takes lift away too: at sixty degrees only half of the push still carries, and a craft that needs more than half of its push to hover sinks into the trees on its way home. Below fifteen any breeze carries it off.",
    related: ["navigation.return-speed", "gains.level-tilt", "hold-place"],
    words: ["maximum bank on return", "lean on the way home", "lean limit"],
  },
  {
    name: "hold-stick",
    types: [
      choice({
        move: "The sticks set a speed; let go, and the craft brakes and stays.",
        lean: "The sticks set an angle as in level flight; let go, and the craft stays where it then is.",
      }),
    ],
    kind: "taste",
    what: "What the roll and pitch sticks mean while a place is held.",
    why: "Setting a speed is easiest for inspection and for beginners: the wind no longer matters. Setting an angle feels like flying and brakes by itself only at the end. Setting a speed is only as good as the position: near a wall, whose echo shifts the place, the craft darts off to where it thinks it belongs.",
    needs: [
      {
        port: "gps",
        or: [{ setting: "sensors.flow", is: "yes" }],
        reason: "A place can be held only by a craft that knows it.",
      },
    ],
    related: ["hold-place", "navigation.hold-speed", "level"],
    words: ["position hold sticks", "brake when I let go", "sticks while it holds its place"],
  },
  {
    name: "hold-speed",
    types: [quantity("m/s", 0.2, 40, fast, usually(0.5, 20))],
    kind: "taste",
    what: "The speed that full stick asks for while a place is held.",
    why: "Slow makes for steady looking and short braking, fast covers ground. Above ten the braking distance is longer than most people guess, and the craft, standing on its tail to stop, climbs. Indoors with a downward camera one metre a second is plenty.",
    related: ["navigation.hold-stick", "hold-place", "sensors.flow"],
    words: ["speed in position hold", "how fast it moves while it holds", "slow mode"],
  },
  {
    name: "stick-override",
    types: [yesNo],
    kind: "safety",
    what: "Whether moving the sticks far takes the craft out of a return at once.",
    why: "Instinct moves the sticks when a craft does something odd, and it should win: a return that flies at a mast must be stoppable without looking for the switch. After a lost signal it can be wrong, though, as the first packets to arrive may carry a hand that is just putting the handset down.",
    related: ["return-home", "failsafe.resume-stick", "failsafe.resume-after"],
    words: ["abort the return", "take over control", "stop the return with the sticks"],
  },
  {
    name: "fence-distance",
    types: [
      quantity("m", 10, 100_000, "common practice, no source: beyond it no small craft returns", usually(20, 10_000)),
      choice({ none: "There is no circle that the craft may not leave." }),
    ],
    kind: "safety",
    what: "The distance from home at which the fence stands, or `none`.",
    why: "It keeps a guest's or a child's flying near, and the craft where somebody can still see it, as most laws ask. A fence needs a good position: with a poor one it stands in the wrong place and acts in mid-turn. Far beyond the radio's reach it never does anything, and close in it takes over during quite ordinary flying.",
    needs: [{ port: "gps", reason: "A fence is drawn around a known position." }],
    related: ["navigation.fence-does", "osd.distance-alert", "home-distance"],
    words: ["geofence", "maximum distance", "keep it close", "distance limit"],
  },
  {
    name: "fence-does",
    types: [
      choice({
        warn: "It only shows a warning.",
        brake: "It holds the craft at the fence as long as the stick pushes outwards.",
        "return-home": "It begins a return by itself.",
      }),
    ],
    kind: "safety",
    what: "What happens at the fence.",
    why: "A warning suits those who can judge it and turn back. Braking suits level flight and learners. A return that begins by itself in the middle of an acrobatic figure takes the craft from an able hand at the worst moment, so it belongs on machines that are flown by the numbers.",
    related: ["navigation.fence-distance", "return-home", "alerts"],
    words: ["what it does at the fence", "boundary", "what happens at the limit"],
  },
];
