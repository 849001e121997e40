import { practice } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";
import { choice, quantity, usually, yesNo } from "../value-types.ts";

export const failsafe: SectionSpec = {
  name: "failsafe",
  what: "What the craft does by itself once the signal is lost, and how the pilot gets it back.",
  why: "The link will go one day, and then these lines fly the craft. Choose them for the place: near people motors that stop soon do the least harm, and above people no line here makes a flight safe, so do not fly there.",
  words: ["signal lost", "signal loss", "lost link", "emergency", "radio gone"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "hold-for",
      types: [quantity("s", 0, 3600, "common practice, no source: an hour is longer than any pack", usually(0, 5))],
      kind: "safety",
      what: "How long the craft carries on after the signal is lost, before it acts.",
      why: "A breath of patience lets a link come back from behind a wall with nothing noticed. Half a second to a second is as much as a place with people allows. Each second more is a second of flight without a pilot, at whatever throttle was last held: at 20 m/s, ten of them are two hundred metres. None at all makes each flicker an end.",
      hazard: "While it holds, nobody flies the craft and the motors keep turning.",
      related: ["link.lost-after", "failsafe.hold-with", "failsafe.then"],
      words: ["grace period", "carry on after loss"],
    },
    {
      name: "hold-with",
      types: [
        choice({
          last: "The sticks stay as they were last heard.",
          centred: "Roll, pitch and yaw go to the middle; the throttle stays as it was.",
          level: "The craft levels itself by its accelerometer; the throttle stays as it was.",
        }),
      ],
      kind: "safety",
      what: "What is done with the sticks while the craft still waits for the link.",
      why: "Last values carry a racer through a gate's shadow without a twitch, and carry a craft in mid flip into the ground. Centred sticks stop a turn but keep the tilt. Levelling is the kindest to a slow craft high up, and spoils a race for the sake of three lost packets. It matters only as long as the wait lasts.",
      related: ["failsafe.hold-for", "sensors.accelerometer"],
      words: ["sticks during dropout", "what happens in a short dropout"],
    },
    {
      name: "then",
      types: [
        choice({
          stop: "The motors stop and the craft falls, carried on by the speed that it had.",
          descend: "The craft comes down at a set throttle for a set time, then stops.",
          return: "The craft flies home by satellites and lands there.",
        }),
      ],
      kind: "safety",
      what: "What the craft does when the link has not come back in time.",
      why: "Stopping is the right end indoors, at a race and wherever anyone is about, since the craft comes down near by: from a height of 20 m and at 15 m/s, within some thirty metres. A blind descent suits soft ground and calm air, and drifts with the wind. Returning can save a craft far out, and needs a fix, a compass or speed to know its nose, height above every tree on the way, and a home point that is right.",
      hazard: "A craft that flies by itself does not see people. If in doubt, let it stop.",
      related: ["failsafe.then-without-fix", "failsafe.descend-throttle", "navigation.return-height", "return-home"],
      words: ["fall or come down", "what happens on signal loss"],
    },
    {
      name: "then-without-fix",
      types: [
        choice({
          stop: "The motors stop and the craft falls.",
          descend: "The craft comes down at the set throttle.",
        }),
      ],
      kind: "safety",
      what: "What takes the place of the return when the craft does not know where it is.",
      why: "Satellites can be too few just after a cold start, under trees or beside a cliff, and a return without a fix is a guess with the motors on. Descending gives the craft a chance over open land, and drifts with the wind meanwhile. Stopping keeps it out of the next street. Left to go on returning, it would fly wherever its wrong position sends it.",
      needs: [
        {
          setting: "failsafe.then",
          is: "return",
          reason: "It is the fallback of a return; the other ends need no fix.",
        },
      ],
      related: ["failsafe.then", "navigation.fix-needs", "satellites"],
      words: ["no gps fix", "return impossible", "fallback"],
    },
    {
      name: "descend-throttle",
      types: [
        quantity("%", 0, 100, "by definition: a share of the throttle", [
          { from: 0, to: 78, source: practice, when: { throttle: "middle" } },
          { from: 0, to: 55, source: practice, when: { cells: { to: 2 } } },
          { from: 0, to: 50, source: practice },
        ]),
        quantity("us", 800, 2200, "common practice, no source: the span of a control pulse with room at both ends", [
          { from: 1000, to: 1780, source: practice, when: { throttle: "middle" } },
          { from: 1000, to: 1550, source: practice },
        ]),
      ],
      kind: "safety",
      what: "How far the throttle stays open while the craft comes down with nobody flying it.",
      why: "It has to lie below hover on a pack fresh from the charger, which takes less throttle than on a half-used one, and the loss may come in the first minute. Try it by hand: hold that throttle at head height over grass, and the craft must sink. Far too low, it drops like a stone with its motors running. A change of mass, propellers or cells asks for a new trial.",
      hazard: "At or above hover the craft climbs out of reach until the time is up.",
      needs: [
        {
          setting: "failsafe.then",
          is: "descend",
          or: [{ setting: "failsafe.then-without-fix", is: "descend" }],
          reason: "Only a blind descent flies at this throttle.",
        },
      ],
      related: ["frame.hover-throttle", "failsafe.descend-for", "motors.idle"],
      words: ["landing throttle", "emergency descent", "failsafe throttle"],
    },
    {
      name: "descend-for",
      types: [quantity("s", 0, 3600, "common practice, no source: an hour is longer than any pack", usually(1, 60))],
      kind: "safety",
      what: "How long a blind descent lasts before the motors stop.",
      why: "Long enough to come down from where you usually fly, and no longer: the motors also run on the ground, in grass and in whoever picks the craft up, until this is over. At two metres a second, twenty seconds are forty metres. Cut short, it drops the craft from half way up; at zero nothing ends it but the pack.",
      hazard: "Motors keep turning after touchdown until this time has passed.",
      needs: [
        {
          setting: "failsafe.then",
          is: "descend",
          or: [{ setting: "failsafe.then-without-fix", is: "descend" }],
          reason: "The time runs only while the craft descends.",
        },
      ],
      related: ["failsafe.descend-throttle", "failsafe.then"],
      words: ["landing time", "when do the motors stop"],
    },
    {
      name: "descend-level",
      types: [yesNo],
      kind: "safety",
      what: "Whether the craft levels itself for a blind descent.",
      why: "Level, the throttle holds it up evenly and it comes down where it is. Without, it keeps whatever turn or tilt it had, and a tilt at hover throttle is a dash sideways into something. It needs an accelerometer that knows level; one that was trimmed on a slope makes the craft slide off all the way down.",
      needs: [
        {
          setting: "failsafe.then",
          is: "descend",
          or: [{ setting: "failsafe.then-without-fix", is: "descend" }],
          reason: "The other ends leave nothing to level: one drops the craft, the other flies by satellites.",
        },
        {
          setting: "sensors.accelerometer",
          is: "yes",
          misleads: true,
          reason: "Without an accelerometer the craft cannot tell which way is down.",
        },
      ],
      related: ["failsafe.descend-throttle", "sensors.level-trim-pitch"],
      words: ["level on signal loss", "flat landing", "self-level in failsafe"],
    },
    {
      name: "stop-if-idle-for",
      types: [
        quantity(
          "s",
          0,
          600,
          "common practice, no source: ten minutes at idle is a craft on the ground by any measure",
          usually(0, 30),
        ),
      ],
      kind: "safety",
      what: "If the throttle was at its bottom this long before the loss, the motors simply stop.",
      why: "A handset switched off by someone who forgot to disarm must not send a craft in the grass into a descent or a return. A few seconds at idle tell a landed craft from a flying one. Too short, and a long dive with the throttle closed counts as landed; too long, and a craft that was just put down gets up again to fly home.",
      hazard: "Disarm before switching the handset off, whatever stands here.",
      related: ["safety.idle-disarm-after", "failsafe.then"],
      words: ["handset switched off on the ground", "landed craft takes off"],
    },
    {
      name: "resume-after",
      types: [
        quantity(
          "s",
          0,
          600,
          "common practice, no source: by then the flight is over one way or the other",
          usually(0, 10),
        ),
      ],
      kind: "safety",
      what: "How long the link must be good again before the pilot gets the craft back.",
      why: "At the edge of range the link flickers, and a craft handed over at the first packet would be tossed to and fro between the pilot and these lines. A second or so of good packets is proof enough. Ask for ten, and you stand there with a live link watching your craft descend into the pond; ask for none, and it jerks with every packet.",
      related: ["failsafe.resume-stick", "failsafe.rearm-needs-off", "link-quality"],
      words: ["link recovery", "get control back", "link is back"],
    },
    {
      name: "resume-stick",
      types: [
        quantity("%", 0, 100, "by definition: a share of the stick's travel", usually(0, 60)),
        quantity("deg", 0, 90, "common practice, no source: no more can be asked of a levelled craft", usually(0, 45)),
      ],
      kind: "safety",
      what: "How far roll or pitch must be moved before the pilot has the craft back from a return.",
      why: "A craft on its way home should not drop its plan just because the link is back while the handset hangs on its strap. A clear push says that somebody is flying. At a few per cent a trembling thumb takes over unawares; near the stop, a frightened pilot pushes gently, several times, and nothing happens.",
      related: ["failsafe.resume-after", "return-home"],
      words: ["take over from a return", "stick override", "cancel the return"],
    },
    {
      name: "rearm-needs-off",
      types: [yesNo],
      kind: "safety",
      what: "Whether the arm switch must go to off once before a craft that stopped can arm again.",
      why: "After a stop the arm switch is still on. Without this, the motors start again by themselves the moment the link is back, perhaps in the hands of the friend who went to fetch the craft. With it, the pilot has to mean it. It does not bring back a craft that stopped in the air: by the time the switch has gone off and on, that one is down.",
      hazard: "Without it a craft lying in the grass, or in a hand, can spin up when the link returns.",
      related: ["arm", "failsafe.then", "safety.arm-hold"],
      words: ["motors start again by themselves", "arm switch still on", "link comes back"],
    },
    {
      name: "pack-empty-then",
      types: [
        choice({
          warn: "The craft only warns: landing is the pilot's business.",
          descend: "The craft begins a descent that the pilot may steer.",
          return: "The craft turns for home by satellites while it still can.",
        }),
      ],
      kind: "safety",
      what: "What the craft does by itself when the pack reaches its landing voltage.",
      why: "Warning alone leaves the pilot free to clear the trees first, and is what nearly all small craft do. Acting by itself can save a long-range craft whose pilot looks at the view. It is only as wise as the voltage it goes by: one deep sag in a climb, and it heads down, or home, from the middle of a gap.",
      related: ["pack.land-at", "pack.warn-delay", "failsafe.then"],
      words: ["low battery action", "automatic landing", "empty pack"],
    },
  ],
};
