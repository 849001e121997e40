import type { SectionSpec } from "../specs.ts";
import { choice, integer, quantity, quotedText, usually, yesNo } from "../value-types.ts";
import { linkSticks } from "./link-sticks.ts";

export const link: SectionSpec = {
  name: "link",
  what: "The radio between handset and craft: its band, its channels and their pulses, and what it does when it breaks.",
  why: "Everything the craft does depends on this link. What stands here says how finely it carries the sticks, and how the craft will know that it has gone.",
  words: ["radio", "receiver", "control link", "receiver not found", "channels", "range"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "band",
      types: [
        quantity(
          "GHz",
          0.026,
          6,
          "common practice, no source: radio-control links lie between the 27 MHz and the 5.8 GHz bands",
        ),
      ],
      kind: "hardware",
      what: "Radio band on which the receiver listens.",
      why: "Receiver and handset on different bands never bind, however often the button is pressed. A low band bends round trees and goes far with a long antenna; a high one has short antennas and quick packets, and wet leaves stop it. Where the law leaves the low bands little power or air time, the high one is the better long-range link after all.",
      hazard: "Transmit only in a band and at a power that the law of the place leaves free to you.",
      related: ["transmitter.band", "transmitter.power", "link.packet-rate"],
      words: ["frequency of the receiver", "868 or 915", "2.4", "will not bind"],
    },
    {
      name: "region",
      types: [
        choice({
          europe: "Licence-free use in Europe: at 2.4 GHz 100 mW e.i.r.p. (ETSI EN 300 328).",
          usa: "Licence-free use in the United States: up to 1 W at 915 MHz and 2.4 GHz (47 CFR 15.247).",
          amateur: "A licensed amateur, under what the licence allows.",
          other: "Other rules, which are not known here.",
        }),
      ],
      kind: "safety",
      what: "The rules that the link's radio follows, in handset and receiver alike.",
      why: "The same module is sold with different software for different regions, and handset and receiver must have the same one, or they never bind. Which bands are free, how strongly and for what share of the time one may send, changes at a border: the bands near 868 MHz are European, those near 915 MHz American. Claiming a region that one does not stand in only silences the check.",
      hazard:
        "Sending by another region's rules can disturb alarms and emergency services; local rules have the last word.",
      related: ["link.band", "transmitter.power", "link.receiver-power", "video.region"],
      words: ["regulatory domain", "868 or 915 rules", "region of the radio", "which country"],
    },
    {
      name: "receiver",
      types: [quotedText(80)],
      kind: "hardware",
      what: "Name and revision of the receiver in the craft.",
      why: "A link works only among parts that speak the same language, and after a season nobody remembers which of three look-alikes sits under the tape. It also says which spare will bind. After a swap, change this line too, or the spare that you buy for the next crash is one that will not bind.",
      related: ["link.band", "ports.port1"],
      words: ["which receiver", "receiver model", "spare receiver"],
    },
    {
      name: "pair-secret",
      types: [quotedText(80)],
      kind: "hardware",
      what: "The secret that makes this receiver and one handset belong together.",
      why: "Whoever knows it can build a handset that your craft obeys, so it belongs in a private layer that you use and never post: take that line out of whatever you show to others. One secret for all your craft spares binding each anew, and lets two of them listen at the same time.",
      hazard:
        "With one secret on several craft, the one still lying in the box with its pack in obeys the sticks as well.",
      related: ["link.receiver", "transmitter.module"],
      words: ["bind", "pairing", "secret", "binding name"],
    },
    {
      name: "wiring",
      types: [
        choice({
          serial: "One serial wire carries all channels as numbers.",
          "pulse-train": "One wire carries all channels as pulses, one after another.",
          "pulse-each": "One wire for each channel, as for a servo.",
        }),
      ],
      kind: "hardware",
      what: "How the receiver hands its channels to the board.",
      why: "A serial wire is quick, carries many channels and can say that the signal is lost. A train of pulses takes some twenty milliseconds to go round, holds eight channels or so, and can signal loss only by falling silent. A wire for each channel is an old receiver on an old board. The board listens to one kind only: on the wrong one it hears nothing.",
      related: ["link.serial-inverted", "link.channels", "ports.port1"],
      words: ["receiver protocol", "serial receiver", "pulse position", "no stick movement"],
    },
    {
      name: "serial-inverted",
      types: [yesNo],
      kind: "hardware",
      what: "Whether the receiver's serial wire idles low instead of high.",
      why: "Some receivers send their serial signal upside down, a habit older than these boards. If the board expects the other way up, every byte is garbage and the craft behaves as if no receiver were there. Try this before buying a new one; some boards can turn only certain ports over, and then the wire has to move.",
      needs: [
        {
          setting: "link.wiring",
          is: "serial",
          reason: "Only a serial signal can be turned over; pulses have one polarity.",
        },
      ],
      related: ["link.wiring", "ports.port1"],
      words: ["inverted signal", "receiver not detected", "inverter"],
    },
    {
      name: "channels",
      types: [
        integer(
          4,
          64,
          "common practice, no source: four sticks are the least, and no link of the trade carries more",
          usually(4, 32),
        ),
      ],
      kind: "hardware",
      what: "Number of channels that reach the craft.",
      why: "The first four are the sticks; every switch takes one more. A condition on a channel beyond this number watches something that never moves, so the mode is either always off or, worse, always on. Some links slow down or coarsen the switches as channels are added, so the most is not the best.",
      related: ["link.two-level", "link.packet-rate"],
      words: ["channel count", "how many channels", "aux channels"],
    },
    {
      name: "two-level",
      types: [
        {
          is: "list",
          of: integer(1, 64, "common practice, no source: as many as a link has channels"),
          fewest: 1,
          most: 64,
        },
      ],
      kind: "hardware",
      what: "Channels that the link carries as on or off only.",
      why: "To save air time some links send certain switches as a single bit. A three-position switch on such a channel loses its middle without a word: the mode that lives there never comes on. Put arming on one of these, where a single bit is quickest and surest, and the switches with a middle on the others.",
      related: ["link.channels", "link.packet-rate", "arm"],
      words: ["middle position missing", "three-position switch does not work", "on-off channels"],
    },
    {
      name: "packet-rate",
      types: [
        quantity("Hz", 1, 10_000, "common practice, no source: outside this no control link runs", usually(10, 1000)),
      ],
      kind: "taste",
      what: "How many times a second the handset sends the sticks.",
      why: "A high rate feels direct: at 500 Hz the newest stick is at most two milliseconds old, at 50 Hz twenty. Range pays for it, since a short packet carries less energy for each bit: each doubling costs about three decibels, some thirty per cent of the distance in free air. A racer wants the top, a long-ranger the bottom; on a lively craft fifty a second are felt as steps.",
      related: ["filters.smooth-sticks", "link.telemetry-every", "link.lost-after", "link-quality"],
      words: ["refresh rate", "latency", "range against speed", "packets per second"],
    },
    {
      name: "antennas",
      types: [integer(1, 8, "common practice, no source: no receiver of a small craft has more", usually(1, 4))],
      kind: "hardware",
      what: "Number of antennas on the receiver.",
      why: "Two at right angles leave no attitude in which the craft is deaf. A single one points its blind ends at you twice in every roll; tucked along carbon it is half deaf all the time. Laid side by side, or with one of them torn off under its tape, two do no more than one.",
      related: ["signal", "link-quality", "bench.range-checked"],
      words: ["diversity", "second antenna", "where to put the antenna"],
    },
    {
      name: "telemetry",
      types: [yesNo],
      kind: "taste",
      what: "Whether the craft talks back to the handset.",
      why: "With it the handset can speak the pack's voltage and warn of a fading link, which helps whoever flies without goggles. It costs some of the air time, and a transmitter beside the craft's other antennas. Without it the handset cannot know the craft's state, and its alarms stay silent even though they are set up.",
      related: ["link.telemetry-every", "link.receiver-power"],
      words: ["back channel", "downlink", "voice alarms on the handset"],
    },
    {
      name: "telemetry-every",
      types: [
        integer(
          1,
          1000,
          "common practice, no source: rarer than one packet in a thousand tells nothing in time",
          usually(1, 256),
        ),
      ],
      kind: "taste",
      what: "One packet in how many is given to the craft to talk back.",
      why: "A small number brings figures quickly and takes that share of packets from the sticks: one in two halves the stick rate. A large number leaves the sticks alone and tells of a low pack seconds late. One in thirty or so suits a pack alarm at usual rates; take rarer ones for racing, denser ones while settings are sent through the link.",
      needs: [
        {
          setting: "link.telemetry",
          is: "yes",
          reason: "Nothing is sent back while the craft does not talk back at all.",
        },
      ],
      related: ["link.packet-rate", "link.telemetry"],
      words: ["share of telemetry", "how often telemetry", "slow telemetry"],
    },
    {
      name: "receiver-power",
      types: [
        quantity("mW", 0.01, 5000, "common practice, no source: outside this no receiver talks back", usually(1, 500)),
      ],
      kind: "taste",
      what: "Power with which the receiver talks back.",
      why: "The way back is usually the weaker one: the handset shouts, the craft whispers. If telemetry drops out while control is still solid, this is why, and no cause for worry. More of it reaches further, warms a small receiver that has no air, and can deafen a GPS or a camera link mounted beside it.",
      hazard: "Transmit power and bands are the law of the place; a receiver that talks back is a transmitter too.",
      needs: [
        { setting: "link.telemetry", is: "yes", reason: "A receiver that does not talk back does not transmit." },
      ],
      related: ["link.telemetry", "transmitter.power"],
      words: ["telemetry power", "telemetry lost", "receiver gets hot"],
    },
    {
      name: "lost-after",
      types: [
        quantity(
          "ms",
          5,
          20_000,
          "common practice, no source: sooner is one late packet, later the craft has hit something",
          usually(20, 1000),
        ),
      ],
      kind: "safety",
      what: "How long the board waits without a good packet before it calls the signal lost.",
      why: "Behind a gate or a tree a link misses a few packets and comes back; a pilot would rather not fall out of the sky for that. A third of a second covers it, and `failsafe.hold-for` counts on top of it. Down at a few packets every shadow is a loss; at two seconds a craft at full throttle has flown the length of a street by itself before the waiting even ends.",
      related: ["failsafe.hold-for", "link.on-loss", "link.packet-rate"],
      words: ["signal loss time", "when is the link lost", "when is the signal lost", "dropouts"],
    },
    {
      name: "on-loss",
      types: [
        choice({
          silent: "The receiver stops sending, so the board knows at once.",
          hold: "The receiver goes on sending the last sticks it heard, so the board never learns of the loss.",
          preset: "The receiver sends channel values chosen beforehand.",
        }),
      ],
      kind: "safety",
      what: "What the receiver gives the board when it no longer hears the handset.",
      why: "Silence is best: the board then acts on the loss by its own rules. Held values are a craft that flies on with the last stick, away from you, until the pack is empty. To most boards presets look like a live link, and then nothing in `failsafe` begins: they work only if they put the arm channel off or ask for the right mode, and must be tried again whenever a switch moves to another channel.",
      hazard:
        "A receiver that holds its last values turns a lost signal into a craft that nobody flies. Try it on the bench with the propellers off.",
      related: ["link.lost-after", "link.preset-channels", "failsafe.then", "bench.failsafe-checked"],
      words: ["receiver failsafe", "no pulses", "hold last values", "signal loss behaviour"],
    },
    {
      name: "preset-channels",
      types: [
        {
          is: "list",
          of: quantity(
            "us",
            500,
            2500,
            "common practice, no source: beyond this no receiver sends a pulse",
            usually(800, 2250),
          ),
          fewest: 1,
          most: 64,
        },
      ],
      kind: "safety",
      what: "Pulses that the receiver sends after a loss, from channel 1 upwards.",
      why: "Sticks in the middle, throttle at its bottom and the arm channel off is the usual choice. The list follows the channels' own order, so changing `link.order` changes what it means: a preset for throttle that lands on yaw leaves the motors running and the craft turning. Channels that the list does not reach hold whatever the receiver makes of them.",
      hazard: "Presets are kept in the receiver, not on the board: after any change, try them with the propellers off.",
      needs: [
        {
          setting: "link.on-loss",
          is: "preset",
          reason: "The receiver sends these only if it is told to send presets.",
        },
      ],
      related: ["link.on-loss", "link.order", "arm"],
      words: ["failsafe positions", "failsafe channel values", "receiver preset"],
    },
    ...linkSticks,
  ],
};
