import type { SectionSpec, SettingSpec } from "../specs.ts";
import { choice, quantity, usually, yesNo } from "../value-types.ts";

const uses = choice({
  receiver: "The radio receiver, with its channels and its telemetry.",
  video: "The video transmitter: its channel and power, or the text of a digital picture.",
  gps: "The satellite receiver.",
  "esc-data": "What the speed controllers report: turns, volts, amperes and heat.",
  recorder: "A recorder outside the board.",
  telemetry: "A separate transmitter for telemetry.",
  camera: "A camera that takes commands.",
  rangefinder: "A sensor that measures the distance to the ground or to obstacles.",
  identification: "A part that broadcasts who flies, where the law asks for it.",
  bench: "A cable or wireless module for working on the board.",
  spare: "Nothing: the port is free for use.",
});

/** One serial port; `explanation` is the explanation for ports with that number. */
function port(
  number: number,
  explanation: Pick<SettingSpec, "what" | "why" | "words" | "hazard" | "related">,
): SettingSpec {
  return { name: `port${number}`, types: [uses], kind: "hardware", ...explanation };
}

export const ports: SectionSpec = {
  name: "ports",
  what: "What is soldered to each serial port of the board.",
  why: "A port serves one thing. Writing down all of them, the free ones too, finds a place for the next part and shows why a part is silent.",
  words: ["serial ports", "uart", "wiring", "pads", "what is connected where", "where is the gps plugged in"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    port(1, {
      what: "The part on the first serial port, which is most often the receiver.",
      why: "A port is two pads, one that sends and one that listens, and the part's sending wire goes to the board's listening pad. The other way round nothing works, and as a rule nothing is harmed. The first port is the fastest on many boards and often the one broken out to a plug, so the receiver usually gets it; with two uses claimed for it, neither is heard.",
      related: ["link.wiring", "ports.receiver-one-wire"],
      words: ["uart 1", "first port", "t1 and r1", "where does the receiver go"],
    }),
    port(2, {
      what: "The part on the second serial port, whose listening pad some boards turn upside down.",
      why: "The receiver comes first when ports are handed out, then whatever must never stutter. On some boards this port's listening pad has an inverter in front of it, meant for receivers whose signal is upside down; anything else connected there reads as noise. Look for that mark on the board's drawing before blaming the part.",
      related: ["link.serial-inverted"],
      words: ["uart 2", "second port", "t2 and r2", "inverted pad"],
    }),
    port(3, {
      what: "The part on the third serial port, unless sensors have its pins.",
      why: "Many boards let the third port share its pins with the wires to a compass or a height sensor. Used as a port, those sensors vanish; used for the sensors, the port is dead although it is listed. If a compass disappears on the day when a GPS is soldered in, look here.",
      related: ["sensors.compass", "sensors.barometer"],
      words: ["uart 3", "third port", "t3 and r3", "compass vanished"],
    }),
    port(4, {
      what: "The part on the fourth serial port, of which often only one pad is wanted.",
      why: "Speed controllers only talk and never listen on their data wire, so they need just the listening pad of a port, and are the natural tenant of one whose sending pad is missing or torn off. A sending pad left free this way can still command a camera on some boards. Two parts that both talk on one wire garble each other.",
      related: ["filters.motor-notches", "pack.current-from"],
      words: ["uart 4", "fourth port", "t4 and r4", "esc telemetry wire"],
    }),
    port(5, {
      what: "The part on the fifth serial port, where the board has one at all.",
      why: "From here on boards differ: this port may exist as a listening pad only. That does for speed controllers, and for a receiver without telemetry, but a GPS on it can never be told its rate and stays at its slow default. If a part works and yet ignores every setting, its listening wire is the one to look at.",
      related: ["ports.gps-speed", "link.telemetry"],
      words: ["uart 5", "fifth port", "r5 pad", "gps stays slow"],
    }),
    port(6, {
      what: "The part on the sixth serial port: with a digital picture often the video unit's plug.",
      why: "A digital video unit often comes with one plug that carries power, picture text and a receiver wire together, wired to this port or its neighbour. Handy, as long as the receiver built into the goggles' system is not wanted: the unused wire may still chatter into the port. The plug's order differs from maker to maker, so check it against both drawings.",
      hazard:
        "A plug with its wires in another order puts pack voltage on a data pin: compare the drawings before the pack goes in.",
      related: ["video.signal", "video.viewer-grid"],
      words: ["uart 6", "sixth port", "t6 and r6", "digital video plug"],
    }),
    port(7, {
      what: "The part on the seventh serial port, which may be one built into the board.",
      why: "Only larger processors have a seventh port, and makers like to use it for a wireless module built into the board. It is then taken, although no pad shows it. That module is for the bench: leave it switched off in flight, since it transmits next to the receiver's own antenna.",
      related: ["ports.bench-speed", "link.antennas"],
      words: ["uart 7", "seventh port", "built-in wireless", "wireless bench module"],
    }),
    port(8, {
      what: "The part on the eighth serial port, the first to be a slow makeshift.",
      why: "Where an eighth port is listed on a small board it may be one made by the processor counting bits on an ordinary pin. Such a port is slow, costs processor time, and drops bytes when the loop is busy: good enough for a light or a slow command to a transmitter, never for the receiver.",
      related: ["board.processor-load", "video.set-by"],
      words: ["uart 8", "eighth port", "software serial", "port on another pin"],
    }),
    {
      name: "receiver-one-wire",
      types: [yesNo],
      kind: "hardware",
      what: "Whether the receiver sends channels and hears telemetry over one and the same wire.",
      why: "Some receivers take turns on a single wire to save a pad. The board must then switch its pad between talking and listening; set so when two wires are fitted, it hears its own voice, and left untold with one, telemetry never leaves. The sign of a mistake here is sticks that work with no telemetry at all.",
      related: ["link.telemetry", "ports.port1"],
      words: ["half duplex", "single wire receiver", "no telemetry"],
    },
    {
      name: "gps-speed",
      types: [
        quantity(
          "kbit/s",
          1.2,
          4000,
          "common practice, no source: serial lines of such boards run between 1.2 kbit/s and a few Mbit/s",
          usually(9.6, 921.6),
        ),
      ],
      kind: "hardware",
      what: "Speed of the serial line to the satellite receiver.",
      why: "Many receivers wake at 9.6 kbit/s, which carries one full position a second and no more; ten positions want at least six times that. Board and receiver must agree, and one that lost its memory cell falls back to its slow default overnight. Far too fast on a long unshielded wire shows as a fix that comes and goes.",
      related: ["ports.port3", "satellites", "navigation.fix-needs"],
      words: ["gps baud rate", "gps not detected", "speed of the gps port"],
    },
    {
      name: "recorder-speed",
      types: [
        quantity(
          "kbit/s",
          9.6,
          12_000,
          "common practice, no source: slower loses nearly every frame, faster no board sends",
          usually(100, 4000),
        ),
      ],
      kind: "hardware",
      what: "Speed of the serial line to a recorder outside the board.",
      why: "A frame of flight data is some fifty bytes, so a thousand of them a second want about half a megabit before any margin. Too slow, and frames are dropped, most of all in the wild moments worth reading; too fast for the recorder's card, and it loses whole stretches instead.",
      needs: [{ setting: "recorder.to", is: "serial", reason: "Only a recorder outside the board has a line to it." }],
      related: ["recorder.rate", "recorder.to"],
      words: ["logger baud rate", "external recorder", "gaps in the recording"],
    },
    {
      name: "bench-speed",
      types: [
        quantity(
          "kbit/s",
          1.2,
          4000,
          "common practice, no source: serial lines of such boards run between 1.2 kbit/s and a few Mbit/s",
          usually(9.6, 2000),
        ),
      ],
      kind: "hardware",
      what: "Speed of a serial line that is used for work on the board.",
      why: "Over a real cable to the processor this figure hardly matters, because the cable ignores it. Over a pair of pads or a wireless module it must equal the module's own, usually 115.2 kbit/s. Wrong, the board seems dead; write it here once it works, for the module will not tell.",
      related: ["ports.port7"],
      words: ["baud rate for the bench", "wireless module speed", "cannot connect over serial"],
    },
    {
      name: "cable-powers",
      types: [
        {
          is: "list",
          of: choice({
            receiver: "The receiver of the handset wakes.",
            gps: "The satellite receiver wakes.",
            video: "The video transmitter wakes, and transmits.",
            camera: "The flying camera wakes.",
            lights: "The strip of lights comes on.",
            recorder: "The flight recorder wakes.",
          }),
          fewest: 1,
          most: 6,
        },
      ],
      kind: "hardware",
      what: "Parts that wake when only the bench cable is plugged in.",
      why: "A receiver that wakes from the cable allows the whole check of sticks and switches without a pack: with the propellers off as well, the safest bench there is. A transmitter that wakes from it runs hot without air, and needs its antenna on. Parts that stay dark on the cable are not broken, and knowing that saves an evening.",
      hazard: "Never let a video transmitter wake without its antenna: it can destroy itself.",
      related: ["safety.arm-on-cable", "video.power-disarmed", "bench.order-checked"],
      words: ["usb power", "receiver without battery", "works on the cable alone"],
    },
  ],
};
