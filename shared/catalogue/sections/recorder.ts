/** The flight recorder: where its figures go, which they are, and for how long they fit. */
import { meaning } from "../sources.ts";
import type { SectionSpec } from "../types.ts";
import { choice, integer, quantity, usually, yesNo } from "../value-types.ts";

export const recorder: SectionSpec = {
  name: "recorder",
  what: "The flight recorder: where it writes, what it writes, and how often.",
  why: "A shake that ears cannot place and a crash that nobody understood are both plain in the figures. It costs next to nothing to have it running, and nothing brings back the flight at which it was not.",
  words: ["flight log", "data log", "tuning log", "crash investigation"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "to",
      types: [
        choice({
          flash: "To a memory chip on the board.",
          card: "To a memory card in the board.",
          serial: "Through a serial port, to a recorder of its own.",
          off: "Nothing is recorded.",
        }),
      ],
      kind: "hardware",
      what: "Where the recorder writes.",
      why: "A chip is always there and holds a few minutes at a fast rate; a card holds a season and may stall, drop out in a crash or be left in the reader at home. A serial line is slow. Off spares the board some work, and leaves a strange flight without a witness.",
      related: ["recorder", "recorder.space", "recorder.rate", "recorder-left"],
      words: ["where are the logs", "log device", "onboard flash or sd card"],
    },
    {
      name: "rate",
      types: [
        quantity("Hz", 1, 8000, "common practice, no source: no loop is faster", usually(50, 4000)),
        quantity("kHz", 0.001, 8, "common practice, no source: no loop is faster", usually(0.05, 4)),
      ],
      kind: "taste",
      what: "How many lines a second the recorder writes.",
      why: "Vibration up to half of this can be seen in it, and what is faster is folded back and read as something slower that is not there. One or two thousand lines show all that motors of small craft do. Faster fills the store in a single pack; a few dozen are enough to see packs and sticks, and useless for tuning.",
      related: ["recorder.space", "recorder.to", "sensors.loop-rate", "filters.motor-notches"],
      words: ["log rate", "sample rate of the log", "log resolution"],
    },
    {
      name: "space",
      types: [integer(1, 4_000_000, "common practice, no source: the largest cards on sale", usually(1, 1_100_000))],
      kind: "hardware",
      what: "How much the store holds, in megabytes.",
      why: "With the rate it tells how many flights fit: at two thousand lines a second some 4 megabytes go by in a minute, so that a chip of 16 is full after one pack. Copied from a larger board it promises room that does not exist, and the recording ends in the middle of the flight.",
      needs: [{ setting: "recorder.to", not: "off", reason: "The size of a store matters only if it is written to." }],
      related: ["recorder.rate", "recorder-left", "recorder.when-full"],
      words: ["log size", "flash size", "how many minutes of log", "megabytes"],
    },
    {
      name: "starts",
      types: [
        choice({
          armed: "It runs from arming to disarming.",
          mode: "With the mode `recorder`, armed or not.",
          both: "Only while armed with the mode on.",
          powered: "As soon as the pack is in.",
        }),
      ],
      kind: "taste",
      what: "What makes the recorder run.",
      why: "With arming is right for nearly all: nothing is forgotten and the store holds flights only. A switch saves room for the one manoeuvre in question, and is forgotten when it counts. From power-up it fills while the craft waits on the ground, and is the one way to catch a fault that keeps it from arming.",
      related: ["recorder", "arm", "recorder.space"],
      words: ["start logging", "log on arming", "log with a switch"],
    },
    {
      name: "holds",
      types: [
        {
          is: "list",
          of: choice({
            gyro: "Turn rates, after the filters.",
            "gyro-raw": "Turn rates before any filter.",
            sticks: "What the pilot asked for.",
            motors: "What each motor was told.",
            rpm: "How fast each motor turned.",
            corrections: "The parts of the correction, each axis by itself.",
            accelerometer: "Accelerations along the three axes.",
            pack: "Volts and amps of the pack.",
            height: "Height and rate of climb.",
            place: "Position and speed from satellites.",
            link: "Strength and quality of the handset's signal.",
            compass: "The magnetic field along the three axes.",
          }),
          fewest: 1,
          most: 12,
        },
      ],
      kind: "taste",
      what: "Which figures go into the record.",
      why: "Tuning wants gyro before and after the filters, sticks, corrections and motors; the search for a power fault wants pack and link. All of it together makes every line long and halves the time that fits. What was left out cannot be added afterwards, so leave out only what the craft has no sensor for.",
      related: ["recorder.rate", "recorder.places-kept", "filters.smooth-gyro"],
      words: ["log fields", "what is logged", "include raw gyro"],
    },
    {
      name: "when-full",
      types: [
        choice({
          stop: "The old flights stay, new ones are not recorded.",
          overwrite: "The oldest flight makes room for the newest.",
        }),
      ],
      kind: "taste",
      what: "What happens when the store is full.",
      why: "Whoever forgets to empty the chip, and everyone does, still has the flight that ended in the tree if the oldest makes way. Stopping guards a record that is still wanted, for instance of a fault not yet understood; then show what is left on the display, or it fills up unseen.",
      related: ["recorder.space", "recorder-left", "osd.alert-on"],
      words: ["log full", "erase old logs", "circular log"],
    },
    {
      name: "after-disarm",
      types: [
        quantity("s", 0, 600, "common practice, no source: ten minutes after landing nothing moves", usually(0, 60)),
      ],
      default: "0 s",
      kind: "taste",
      what: "How long the recorder runs on after disarming.",
      why: "Volts that recover over some seconds tell the pack's resistance, and a tumble after a crash shows how it lay. More than half a minute of standing still is only noise in the next look-up, and on a chip of a few megabytes it costs the beginning of the following flight.",
      related: ["recorder.starts", "pack.cell-resistance"],
      words: ["keep logging after landing", "grace period of the log", "log after crash"],
    },
    {
      name: "places-kept",
      types: [yesNo],
      kind: "safety",
      what: "Whether the position is written into the record.",
      why: "It finds a lost craft when the chip comes from elsewhere, and lays the path over a map. A record sent to a stranger for advice on a tune then tells where one lives, and when one is not at home. Leave it out of what is shared, or out of the record unless it is needed.",
      needs: [{ port: "gps", reason: "There is no position to write without a satellite receiver." }],
      related: ["recorder.holds", "latitude", "longitude"],
      words: ["privacy of logs", "gps in the log", "share a log safely"],
    },
    {
      name: "file-per-flight",
      types: [yesNo],
      kind: "taste",
      what: "Whether each arming begins a new record.",
      why: "A flight is found at once by its number, and one damaged end does not take the others with it. Pilots who disarm after each tumble get dozens of stumps of a few seconds; a single long record of the day is easier to search there, if the store stands losing power at any moment.",
      related: ["recorder.starts", "turtle"],
      words: ["separate logs", "one log per arm", "split the log"],
    },
    {
      name: "kept-share",
      types: [quantity("%", 0, 100, meaning, usually(0, 100))],
      kind: "taste",
      what: "Share of the store set aside for flights marked by the pilot.",
      why: "A flight marked from the handset, because something felt wrong, is then not the one that makes room for the next. Nothing set aside, and a single careless evening pushes it out; all of it, and unmarked flights have nowhere to go.",
      needs: [
        {
          setting: "recorder.when-full",
          is: "overwrite",
          reason: "Only where old flights make way is there something to guard.",
        },
      ],
      related: ["recorder.when-full", "recorder.space"],
      words: ["protect a log", "keep marked flights", "do not erase"],
    },
  ],
};
