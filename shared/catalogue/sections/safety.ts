import { practice } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";
import { choice, quantity, usually, yesNo } from "../value-types.ts";

const circle = "by definition of the angle: upside down is 180 deg";

export const safety: SectionSpec = {
  name: "safety",
  what: "What has to be so before the motors may turn, and what stops them by itself.",
  why: "These lines stand between a switch that got caught in a bag and four blades. Each may be loosened for a good reason; write the reason beside it.",
  words: ["arming", "motors will not start", "protection", "disarm"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "arm-tilt-limit",
      types: [
        quantity("deg", 0, 180, circle, usually(5, 180)),
        choice({ any: "The craft arms in whatever attitude it lies." }),
      ],
      kind: "safety",
      what: "Largest tilt at which the craft will arm.",
      why: "A limit keeps a craft that is carried, or lies on its back, from starting when the switch is touched. Pilots of small craft often take it out, since a rock or a slope is easily 25 deg and a craft stuck there would need a walk. Tight, it refuses on every meadow; open, it arms in the hand as readily as on the ground, and a second switch for permission is then worth having.",
      hazard: "Open, a craft with larger propellers can start in somebody's hand: carry it with the pack out.",
      related: ["arm-permit", "sensors.accelerometer", "turtle"],
      words: ["arm on a slope", "will not arm tilted", "arming angle", "angle check", "arm upside down"],
    },
    {
      name: "arm-throttle-limit",
      types: [
        quantity(
          "us",
          800,
          1600,
          "common practice, no source: servo pulses run from 1000 to 2000 us; well above the middle it would be no limit",
          [
            { from: 1000, to: 1560, source: practice, when: { throttle: "middle" } },
            { from: 1000, to: 1150, source: practice },
          ],
        ),
      ],
      kind: "safety",
      what: "Pulse below which the throttle must be for the craft to arm.",
      why: "Arming must never mean an instant leap. The limit has to lie a little above the lowest pulse that the handset really sends: below that the craft never arms, and nothing shows why. Far above, one can arm with the stick already raised, and a strong craft leaps to head height with it. With `arm-throttle middle` it belongs a little above the middle.",
      related: ["bench.throttle", "link.endpoints", "arm"],
      words: ["throttle too high to arm", "low throttle", "will not arm"],
    },
    {
      name: "arm-throttle",
      types: [
        choice({
          low: "The throttle must be at its low end.",
          middle: "The throttle must be about its middle, where it springs to or where the motors stand still.",
        }),
      ],
      kind: "safety",
      what: "Where the throttle stick must be for the craft to arm.",
      why: "Motors that push both ways stand still in the middle, and a sprung throttle that holds a height rests there: such craft arm in the middle. All others arm at the low end. With `middle` on motors that only push upwards the craft arms at half power; with `low` on ones that push both ways, it arms at full power downwards.",
      hazard:
        "The wrong place is a leap, or a slam into the ground, in the moment of arming: try it with the propellers off.",
      needs: [
        {
          word: "middle",
          setting: "motors.reversible",
          is: "yes",
          or: [{ mode: "hold-height" }, { mode: "hold-place" }],
          misleads: true,
          reason:
            "Motors that only push upwards run at half power with the stick in its middle, so the craft leaps as it arms.",
        },
      ],
      related: ["safety.arm-throttle-limit", "motors.reverse-band", "hold-height", "link.centre"],
      words: ["arm with the throttle in the middle", "neutral throttle arming", "sprung throttle", "centred throttle"],
    },
    {
      name: "arm-hold",
      types: [
        quantity(
          "ms",
          0,
          10_000,
          "common practice, no source: nobody keeps a switch pressed for longer than ten seconds",
          usually(0, 3000),
        ),
      ],
      kind: "safety",
      what: "How long the arm condition must hold before the motors start.",
      why: "A switch brushed by a sleeve springs back within a few tenths of a second, and one pulse garbled by the radio is over sooner still. A short hold sees neither. A racer on the start line wants none, because half a second is several places; a long one tempts to flip the switch again and again, and then it never fills.",
      related: ["arm", "arm-permit", "safety.disarm-hold"],
      words: ["arm delay", "press and hold to arm", "accidental arming"],
    },
    {
      name: "arm-needs-fix",
      types: [yesNo],
      kind: "safety",
      what: "Whether the craft refuses to arm until it has a good position.",
      why: "Home is where it armed: without a fix then, a return flies to nowhere. On a craft that relies on returning it is worth the wait of a cold start. On a craft that also flies indoors or under trees it is a nuisance that gets switched off in anger and forgotten, just before the one long flight.",
      needs: [
        { port: "gps", reason: "Without a satellite receiver there is never a fix, so the craft would never arm." },
      ],
      related: ["navigation.fix-needs", "return-home", "satellites"],
      words: ["gps before arming", "wait for satellites", "home point"],
    },
    {
      name: "arm-needs-still",
      types: [yesNo],
      kind: "safety",
      what: "Whether the craft must lie still, so that its gyro can find zero, before it arms.",
      why: "A gyro that takes its zero while being carried believes for the whole flight that it is turning, and the craft creeps round one axis. Waiting for stillness costs a second. On a boat or in long grass in a gale it may never come, and there an older zero is the better one. It never comes in a hand either, and a hand is no place to arm from.",
      related: ["sensors.still-limit", "safety.arm-tilt-limit"],
      words: ["gyro calibration", "craft drifts after moving", "keep still at power-up"],
    },
    {
      name: "arm-needs-cell-volts",
      types: [
        quantity(
          "V/cell",
          2.5,
          4.35,
          "ACT2804 datasheet: 4.35 V is a full high-voltage cell; cell makers' summaries: 2.75 V is empty, with a little room below",
          usually(3.5, 4.25),
        ),
      ],
      kind: "safety",
      what: "Lowest voltage of one resting cell at which the craft will arm.",
      why: "The pack that was flown yesterday and put back with the full ones is the classic way to lose a craft a minute after the start. About 4.0 V lets only charged packs fly; at 3.8 V, at rest, half of a lipo is gone already, and below 3.6 V hardly anything is refused. Close to full, it also refuses a pack that has rested for a week or stood in the cold.",
      related: ["pack.full-at", "pack.warn-at", "cell-volts"],
      words: ["used pack plugged in by mistake", "refuse a half-empty battery", "full pack check"],
    },
    {
      name: "arm-on-cable",
      types: [yesNo],
      kind: "safety",
      what: "Whether the craft may arm while a bench cable is plugged in.",
      why: "A cable and a pack together are a live craft on a table, with a screen that draws all attention. Refusing is right for everybody who does not develop software. Allowed, it lets one watch from the screen what arming does; left on afterwards, it turns a knocked switch into a hand injury.",
      hazard: "With `yes` the propellers come off before the cable goes in, every time.",
      related: ["bench.motors-checked", "arm"],
      words: ["arm with usb", "cable plugged in", "test on the desk"],
    },
    {
      name: "stick-arming",
      types: [yesNo],
      kind: "safety",
      what: "Whether the craft can also be armed by holding the sticks in a corner.",
      why: "It is for handsets without a free switch. With a switch set up, a second way to arm is only a second way to do it by mistake: the corner is where the thumb rests when yawing hard with the throttle closed, so in some set-ups the same gesture also disarms in a dive. Without it and without an `arm` mode, the craft stays on the ground.",
      related: ["arm", "safety.arm-hold"],
      words: ["arm with the sticks", "no arm switch", "stick gesture"],
    },
    {
      name: "disarm-hold",
      types: [
        quantity(
          "ms",
          0,
          5000,
          "common practice, no source: five seconds of unwanted motors is already an accident",
          usually(0, 300),
        ),
      ],
      kind: "safety",
      what: "How long the arm condition must be gone before the motors stop.",
      why: "A moment's hold keeps one bad radio packet from dropping the craft. A tenth of a second does that. Any longer is felt just when it must not be: with the craft in a tree, in hair or in a hand, the motors should stop at the click.",
      hazard: "Every millisecond here is one in which the blades still turn after the pilot has said stop.",
      related: ["safety.arm-hold", "arm"],
      words: ["disarm delay", "motors stop late", "glitch disarms the craft"],
    },
    {
      name: "idle-disarm-after",
      types: [
        quantity("s", 0, 3600, "common practice, no source: an hour at idle is longer than any pack", usually(3, 60)),
        choice({ never: "The craft stays armed until the pilot disarms it." }),
      ],
      kind: "safety",
      what: "How long the armed craft may sit with its throttle closed before it disarms itself.",
      why: "A landed craft whose pilot looks for the strap is a trap for whoever reaches in. Five to thirty seconds disarm it without a thought. Too few, and a long float with the throttle closed ends as a fall; craft flown with `grip-at-idle` do exactly that, so their boards must tell flight from lying still, or take `never`.",
      related: ["safety.spin-when-armed", "grip-at-idle", "failsafe.stop-if-idle-for"],
      words: ["auto disarm", "forgot to disarm", "disarm on landing", "disarms in a dive"],
    },
    {
      name: "spin-when-armed",
      types: [yesNo],
      kind: "safety",
      what: "Whether the motors turn as soon as the craft is armed.",
      why: "Turning blades are the one sign of danger that everyone understands. With motors that stand still while armed, a nudge of the stick starts a craft that looked asleep; a few pilots of large craft want that, to save wear on the wait. Motors that idle also keep control at zero throttle, which those that stand still cannot.",
      hazard: "An armed craft with still propellers looks safe and is not.",
      related: ["motors.idle", "safety.idle-disarm-after", "grip-at-idle"],
      words: ["motor stop", "idle while armed", "propellers stand still when armed"],
    },
    {
      name: "tumble-stop",
      types: [yesNo],
      kind: "safety",
      what: "Whether the craft disarms if, just after arming, it turns ever faster against what is asked.",
      why: "A motor in the wrong corner, a propeller on upside down or a board turned by a quarter all end alike: the craft flips itself across the field at full power within a second of the first throttle. This cuts it short. It can also cut in on a craft held by tall grass: then carry the craft, disarmed, to a clear spot, and leave the net where it is for the next rebuild.",
      hazard: "It is a net, not a check: try motor order and direction with the propellers off first.",
      related: ["bench.motors-checked", "sensors.mount-yaw", "motors.spin"],
      words: ["flips on take-off", "spins out at arming", "runaway start"],
    },
    {
      name: "turtle-power",
      types: [
        quantity("%", 1, 100, "by definition: a share of full power, and zero would do nothing", usually(10, 100)),
      ],
      kind: "taste",
      what: "Most power that the motors may use to turn the craft over.",
      why: "Two motors must lift the whole craft over its edge, from grass that holds on. Too little and they stand there heating without moving it; too much and it somersaults, breaks a propeller or digs itself in. Take what just does it on a lawn, and use the stick in short taps.",
      hazard: "A blocked motor at power burns within seconds: tap, look, tap again, with nobody near.",
      needs: [{ setting: "motors.reversible", is: "yes", reason: "Turning over works by running motors backwards." }],
      related: ["turtle", "safety.turtle-stop-after", "motors.reversible"],
      words: ["flip the craft back over", "turn over strength", "stuck upside down"],
    },
    {
      name: "turtle-stop-after",
      types: [
        quantity(
          "s",
          0.05,
          60,
          "common practice, no source: a blocked motor has burnt long before a minute",
          usually(0.2, 3),
        ),
      ],
      kind: "safety",
      what: "Longest time for which the motors push without a pause while turning the craft over.",
      why: "A pilot in goggles cannot see that a twig holds the propeller and goes on pushing; a limit saves the winding. Around a second is enough to turn any craft that is free to turn. Very short, and a heavy craft only rocks; a long one is no limit at all, for a stalled winding has gone by then.",
      needs: [
        { setting: "motors.reversible", is: "yes", reason: "Motors that never run backwards never turn it over." },
      ],
      related: ["turtle", "safety.turtle-power", "esc-heat"],
      words: ["blocked motor", "motor burnt while flipping over", "stall protection"],
    },
  ],
};
