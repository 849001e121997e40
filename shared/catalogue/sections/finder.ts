import type { SectionSpec } from "../specs.ts";
import { choice, quantity, usually, yesNo } from "../value-types.ts";

export const finder: SectionSpec = {
  name: "finder",
  what: "How a lost craft makes itself heard, and when it begins to by itself.",
  why: "Tall grass swallows a craft within two steps. A sound set up at home costs nothing; a craft without one costs an evening on one's knees.",
  words: ["beeper", "buzzer", "lost craft", "find in the grass", "beacon"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "motors",
      types: [yesNo],
      kind: "taste",
      what: "Whether the motors' own windings make the sound.",
      why: "No part to solder, as long as the speed controllers take the command for it, which comes with a digital motor signal. It is quieter than a real sounder, needs the pack still plugged in, and warms motors that stand still. For a craft that throws its pack in every crash it is silent exactly when it is needed; for one in a tree with its pack in, it may sing until the pack is spoilt.",
      hazard:
        "A motor that sounds may twitch: keep fingers off the propellers. Still windings heat up, so only in short bursts, disarmed.",
      related: ["finder", "finder.tone", "finder.volume", "motors.esc-signal"],
      words: ["motor beeps", "beep with the motors", "singing motors"],
    },
    {
      name: "tone",
      types: [
        choice({
          low: "A low tone, which carries through leaves and is easy to point at.",
          middle: "A tone where hearing is keenest, heard far off and hard to place.",
          high: "A high tone, which stands out near by.",
          sweep: "A tone that slides up and down: the easiest to place, and to tell from birds.",
        }),
        quantity(
          "Hz",
          50,
          20_000,
          "common practice, no source: outside this few people hear anything",
          usually(200, 8000),
        ),
      ],
      kind: "taste",
      what: "How high the sound is.",
      why: "Hearing is keenest at about 3 kHz, but a steady tone there is the hardest to tell the direction of; deeper ones and much higher ones are easier, and a slide through many is easiest. High ones are the first that grass swallows and older ears lose, so try it with whoever comes along to search. A sounder has one pitch at which it is loud, and is a whisper at any other.",
      related: ["finder.motors", "finder.volume"],
      words: ["beep pitch", "frequency of the beeper", "cannot hear the beeper"],
    },
    {
      name: "volume",
      types: [quantity("%", 0, 100, "by definition: a share of the most", usually(1, 100))],
      kind: "taste",
      what: "How strongly the motors are driven to sound.",
      why: "It is current through windings that do not turn, so loudness is paid for in heat. Small motors sing well at little; large ones need more to be heard at all. Full strength for minutes can soften the glue of the magnets in the smallest motors; too faint, and the wind covers it.",
      hazard: "Motors driven to sound get hot without any air: let them rest before you pick the craft up by its arms.",
      needs: [
        {
          setting: "finder.motors",
          is: "yes",
          reason: "It is the strength of the motors' sound; a sounder has only one.",
        },
      ],
      related: ["finder.motors", "esc-heat"],
      words: ["louder beeps", "beacon strength", "beep too quiet"],
    },
    {
      name: "sounder",
      types: [
        choice({
          none: "There is no separate sounder.",
          board: "A sounder fed by the board: silent when the pack is off.",
          "own-cell": "A sounder with a small cell of its own: it goes on when the pack has been thrown.",
        }),
      ],
      kind: "hardware",
      what: "Which separate sounder the craft carries.",
      why: "One with its own cell weighs a few grams and is the only kind that still calls after a crash has thrown the pack. Its button has to be held to silence it when the flying day is over, or it screams in the bag all the way home. Tape it down well: it is small, it hangs on a thin lead, and nobody misses it before the day on which it should call.",
      related: ["finder.motors", "finder.sounder-active"],
      words: ["buzzer", "self-powered beeper", "alarm with its own battery"],
    },
    {
      name: "sounder-active",
      types: [
        choice({
          high: "The sounder sounds while the board raises its pin.",
          low: "The sounder sounds while the board pulls its pin down.",
        }),
      ],
      kind: "hardware",
      what: "Which level of the board's pin makes the sounder sound.",
      why: "Nearly every board pulls the pin down through a transistor. With the two mixed up the sounder screams from the moment the pack goes in and falls silent when it should call, which at least is found on the first day. It belongs to the board, not to the sounder, so look again after changing the board.",
      needs: [
        { setting: "finder.sounder", not: "none", reason: "There is no pin to speak of without a separate sounder." },
      ],
      related: ["finder.sounder", "board.model"],
      words: ["beeper always on", "inverted beeper", "beeper wired to ground"],
    },
    {
      name: "after-lost",
      types: [
        quantity("s", 0, 3600, "common practice, no source: an hour later the pack is empty", usually(0, 300)),
        choice({ never: "A lost signal alone does not start the sound." }),
      ],
      kind: "taste",
      what: "How long after the signal is lost the craft begins to call by itself.",
      why: "The switch on the handset cannot reach a craft out of radio, which is just the one to be found, so it must start on its own. Half a minute lets a short loss pass in silence. Pull the pack before you switch the handset off, and it never sounds at a normal landing; set to a second or two, it sounds at every drop of the link as well; set to minutes, you may be walking in the wrong direction by then.",
      related: ["finder", "link.lost-after", "finder.after-idle"],
      words: ["beep when signal is lost", "lost model alarm", "handset off beeping"],
    },
    {
      name: "after-idle",
      types: [
        quantity("min", 0, 120, "common practice, no source: two hours later the pack is empty", usually(0.2, 30)),
        choice({ never: "A craft that nobody touches stays quiet." }),
      ],
      kind: "taste",
      what: "How long a plugged-in craft may lie untouched before it begins to call.",
      why: "It finds the craft whose pilot crashed, took off the goggles and cannot say where; and it reminds one of a pack left plugged in, which would be drained to death by morning. A few minutes are right for most. Shorter nags during work on the bench; longer, and a small pack is nearly flat when the search begins.",
      related: ["finder.after-lost", "recorder.to"],
      words: ["inactivity alarm", "forgotten pack", "craft left plugged in"],
    },
    {
      name: "sounds",
      types: [
        {
          is: "list",
          of: choice({
            "power-up": "When the board has started.",
            armed: "When the motors are armed.",
            disarmed: "When the motors are disarmed.",
            "pack-low": "When the pack reaches its warning.",
            "pack-empty": "When the pack reaches its landing voltage.",
            "link-lost": "When the signal is lost.",
            fix: "When the satellites give a position.",
            refused: "When arming is asked for and refused.",
            crash: "When the craft notices that it has hit something.",
          }),
          fewest: 1,
          most: 9,
        },
      ],
      kind: "taste",
      what: "Events that the craft marks with a sound.",
      why: "A few signs told apart by ear are worth more than eyes that are in goggles: refused arming above all, and the pack. With every event given its chirp, a meeting of six pilots is a henhouse and nobody listens. Leave out the pack only if the picture or the handset tells of it.",
      related: ["finder.tone", "alerts", "pack.warn-at", "gains.after-crash"],
      words: ["which beeps", "silence the beeper", "beep on arming"],
    },
    {
      name: "flash-lights",
      types: [yesNo],
      kind: "taste",
      what: "Whether the lights flash while the craft calls.",
      why: "At dusk or in a barn a flash is seen from much further than a chirp is heard, and shows the direction at once. By day it adds nothing. A long strip at full brightness empties the last of the pack within the hour, and the sound with it.",
      needs: [{ section: "lights", reason: "There have to be lights that can flash." }],
      related: ["lights.brightness", "lights.pattern", "finder"],
      words: ["strobe to find the craft", "blink when lost", "search at night"],
    },
  ],
};
