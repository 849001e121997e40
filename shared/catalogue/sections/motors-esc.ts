/** The electronic speed controllers: their signal, and what they control themselves. */
import { meaning, practice } from "../sources.ts";
import type { SettingSpec } from "../specs.ts";
import { bySize } from "../value-types.ts";

export const motorControllers: readonly SettingSpec[] = [
  {
    name: "esc-signal",
    types: [
      {
        is: "choice",
        choices: [
          {
            word: "pulse",
            what: "The width of a pulse says how fast: it needs the controllers calibrated to its ends.",
          },
          { word: "digital", what: "A coded number with a checksum: no calibration, and room for commands." },
        ],
      },
    ],
    kind: "hardware",
    what: "How the board tells the controllers what each motor should do.",
    why: "A pulse is measured by a clock that drifts with heat, so motors may start unevenly and idle differs between them; a number arrives exactly or is thrown away. Finding a craft by its motors and reports of revolutions need the digital kind, and so, with few exceptions, does running backwards. A controller that does not know it stays silent, or twitches at every power-up.",
    related: ["motors.esc-rate", "motors.pulse-range", "motors.reversible", "finder.motors"],
    words: ["esc protocol", "pulse or digital", "motor signal", "calibrate the escs"],
  },
  {
    name: "esc-rate",
    types: [
      {
        is: "quantity",
        unit: "kbit/s",
        min: { at: 10, source: practice },
        max: { at: 10000, source: practice },
        usual: [{ from: 150, to: 1200, source: practice }],
      },
    ],
    kind: "hardware",
    what: "How fast the bits of a digital motor signal follow each other.",
    why: "One command is sixteen bits long, and all of them have to be through before the next round of the control loop; with `rpm-feedback` so has the answer on the same wire, which takes twenty bits more and some 25 us in between. Too slow for the loop, commands are dropped or late; faster than needed, every bit is shorter and a long wire beside the motor leads turns some of them over, which is felt as a twitch. Pick the slowest that the loop leaves room for.",
    needs: [{ setting: "motors.esc-signal", is: "digital", reason: "Only a digital signal has bits." }],
    related: ["sensors.loop-rate", "motors.esc-pause", "motors.rpm-feedback"],
    words: ["esc baud rate", "motor signal speed", "motors twitch"],
  },
  {
    name: "esc-pause",
    types: [
      {
        is: "quantity",
        unit: "us",
        min: { at: 0, source: meaning },
        max: { at: 2000, source: practice },
        usual: [{ from: 0, to: 100, source: practice }],
      },
    ],
    default: "2 us",
    kind: "hardware",
    what: "The silence a controller wants between two digital commands.",
    why: "It marks where a command ends. Without enough of it a controller takes two for one and throws both away; and the time counts against each round of the loop. Controllers that answer on the same wire do so before it, and need some 25 us and twenty bits for that.",
    needs: [{ setting: "motors.esc-signal", is: "digital", reason: "Pulses are spaced by how often they are sent." }],
    related: ["motors.esc-rate", "motors.rpm-feedback", "sensors.loop-rate"],
    words: ["gap between frames", "esc frame pause", "dead time of the signal"],
  },
  {
    name: "pulse-rate",
    types: [
      {
        is: "quantity",
        unit: "Hz",
        min: { at: 20, source: practice },
        max: { at: 64000, source: practice },
        usual: [{ from: 50, to: 32000, source: practice }],
      },
    ],
    kind: "hardware",
    what: "How often a pulse is sent to each controller.",
    why: "Classic pulses of up to two milliseconds leave room for some 400 a second, shortened ones for thousands. Faster commands let a tune answer sooner; faster than the controller can measure, pulses run into one another and the motors jerk. The tiny brushed motors of the simplest whoops have no controller to measure anything: the board chops their current itself, tens of thousands of times a second. A slow servo-style controller on a nervous frame feels like flying on a rubber band.",
    needs: [
      { setting: "motors.esc-signal", is: "pulse", reason: "A digital signal is timed by its bit rate instead." },
    ],
    related: ["motors.pulse-range", "sensors.loop-rate"],
    words: ["esc refresh rate", "motor update rate", "servo rate", "brushed motors"],
  },
  {
    name: "pulse-range",
    types: [
      {
        is: "range",
        of: {
          is: "quantity",
          unit: "us",
          min: { at: 1, source: practice },
          max: { at: 2500, source: practice },
          usual: [{ from: 5, to: 2100, source: practice }],
        },
      },
    ],
    kind: "hardware",
    what: "The pulse that means standing still, and the one that means full speed.",
    why: "Each controller learns these two ends when it is calibrated, and all of them have to learn the same. If one starts later than the others the craft leans into it on take-off; if the upper end was never reached, full throttle is not full.",
    hazard: "Calibrating sends full throttle on purpose: propellers off, every time.",
    needs: [{ setting: "motors.esc-signal", is: "pulse", reason: "Digital commands need no calibration." }],
    related: ["motors.idle", "motors.esc-signal"],
    words: ["esc calibration", "throttle range of the esc", "one motor starts late"],
  },
  {
    name: "esc-rating",
    types: [
      {
        is: "quantity",
        unit: "A",
        min: { at: 0.5, source: practice },
        max: { at: 500, source: practice },
        usual: bySize([1.4, 2, 30], [2.6, 3, 60], [4.6, 5, 80], [null, 10, 150]),
      },
    ],
    kind: "hardware",
    what: "The current one controller can carry for long.",
    why: "Times the number of motors, this figure should lie above the full current of the craft with something in hand, because a hard turn loads two motors more than the others. Printed ratings suppose a good heat sink and moving air; in a closed stack much less is true. Overloaded, a controller fails shorted and takes its motor, sometimes the pack lead, along.",
    related: ["pack.full-current", "esc-heat", "motors.esc-heat-limit"],
    words: ["esc amps", "current rating", "burnt esc", "how strong is the esc"],
  },
  {
    name: "esc-heat-limit",
    types: [
      {
        is: "quantity",
        unit: "degC",
        min: { at: 30, source: practice },
        max: {
          at: 200,
          source: "from memory: silicon power parts are rated to 150 or 175 degC at the junction; with some room above",
        },
        usual: [{ from: 80, to: 145, source: practice }],
      },
    ],
    kind: "hardware",
    what: "The temperature at which a controller cuts its own power back.",
    why: "A motor is traded for a controller: a part that throttles itself survives, while the craft loses one corner and comes down. A low limit ends flights that would have gone well, above all in still summer air; with a limit above what the part bears the smoke is the indicator. If it is ever reached in flight, look for the reason before raising it.",
    related: ["esc-heat", "osd.heat-alert", "motors.esc-rating"],
    words: ["thermal protection", "esc temperature limit", "motor loses power when hot"],
  },
  {
    name: "rpm-feedback",
    types: [{ is: "yes-no" }],
    kind: "hardware",
    what: "Whether the controllers report each motor's revolutions back over the signal wire.",
    why: "Knowing each motor's speed, the filters can cut just there and leave the rest alone, which is the largest gain in smoothness a light tune can have. It costs time on the wire, since question and answer share it: at 300 kbit/s a loop of 8 kHz leaves too little for both. A single controller that answers badly leaves one motor unfiltered: where the board shows how many answers are lost, it should be fewer than one in a hundred.",
    needs: [
      {
        setting: "motors.esc-signal",
        is: "digital",
        misleads: true,
        reason: "The answer comes back on the wire of a digital signal.",
      },
    ],
    related: ["filters.motor-notches", "motors.poles", "motors.esc-pause", "motor-rpm"],
    words: ["bidirectional signal", "rpm telemetry", "motor speed feedback", "esc answers back"],
  },
  {
    name: "advance",
    types: [
      {
        is: "quantity",
        unit: "deg",
        min: { at: 0, source: meaning },
        max: { at: 45, source: practice },
        usual: [{ from: 0, to: 30, source: practice }],
      },
    ],
    kind: "hardware",
    what: "How many electrical degrees early a controller switches its windings.",
    why: "Current needs a moment to build up in the coil, so at speed a head start gives more revolutions and keeps step in violent changes. Much of it makes heat and draws current with nothing to show for it; little of it runs cool and long, but a strong motor with many magnets may lose step when the throttle is slammed open.",
    related: ["motors.start-power", "motors.idle", "esc-heat"],
    words: ["motor timing", "esc timing", "motor screams and stops", "commutation"],
  },
  {
    name: "switching-rate",
    types: [
      {
        is: "quantity",
        unit: "kHz",
        min: { at: 1, source: practice },
        max: { at: 500, source: practice },
        usual: bySize([2.6, 16, 192], [null, 8, 192]),
      },
    ],
    kind: "hardware",
    what: "How often a second the controllers chop the current to the windings.",
    why: "Fast chopping makes small motors smooth and quiet, and a pack last a little longer; slow chopping brakes harder at low revolutions, which is felt as a firmer grip in the wind. Beyond what the transistors like, they warm up for no gain and the low end of the throttle goes soft.",
    related: ["motors.braking", "esc-heat"],
    words: ["pwm frequency", "esc frequency", "smoother motors", "longer flight time"],
  },
  {
    name: "braking",
    types: [{ is: "yes-no" }],
    kind: "hardware",
    what: "Whether a controller actively slows its motor when less is asked for.",
    why: "Steering by thrust needs motors that slow down as promptly as they speed up, so nearly every multirotor brakes. It feeds current back into the pack in sharp moves, which shows as volts above full. Without it the craft floats and wobbles in its own wake, as if it hung from a balloon.",
    related: ["motors.switching-rate", "motors.idle"],
    words: ["active braking", "regenerative braking", "craft floats", "slow to descend"],
  },
  {
    name: "start-power",
    types: [
      {
        is: "quantity",
        unit: "%",
        min: { at: 0.5, source: practice },
        max: { at: 150, source: practice },
        usual: [{ from: 1, to: 100, source: practice }],
      },
    ],
    kind: "hardware",
    what: "How strongly a controller pushes a standing motor to get it turning.",
    why: "Large bells with heavy propellers need a real push, tiny ones a nudge. Too weak, a motor stutters on arming or never starts with a blade of grass in the way; too strong, it kicks, gets hot when something holds it, and a motor blocked in a crash burns out in seconds.",
    related: ["motors.advance", "turtle"],
    words: ["startup power", "motor does not start", "stutters at start", "blocked motor"],
  },
];
