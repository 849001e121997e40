/** What helps on the way: finder, lights, recorder, camera mount. */
import { boardOf } from "../../logic/from-craft.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatDuration } from "../context/format.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const FINDER = "bench.finder-checked";
const HELPERS = "bench.helpers-checked";

export function helperSteps(view: BenchView): BenchStep[] {
  return [
    ...finderSteps(view),
    ...lightSteps(view),
    ...recorderSteps(view),
    ...cameraMountSteps(view),
    ...cameraRecordSteps(view),
  ];
}

function finderSteps(view: BenchView): BenchStep[] {
  const mode = view.reached("finder");
  const sounder = view.word("finder.sounder");
  const motors = view.word("finder.motors") === "yes";
  const idle = view.text("finder.after-idle");
  const has = mode || motors || (sounder !== null && sounder !== "none");
  if (!has && (idle === null || idle === "never")) return [];
  const voices = [
    ...(sounder === "board"
      ? ["the sounder on the board"]
      : sounder === "own-cell"
        ? ["the sounder with a cell of its own"]
        : []),
    ...(motors ? ["the motors themselves"] : []),
  ];
  if (voices.length === 0 && sounder === null)
    view.unknown("The script does not say what the finder sounds by: write “sounder” or “motors” in section “finder”.");
  const tone = view.text("finder.tone");
  const steps: BenchStep[] = [];
  const isSilent = mode !== null && callsArmedOnly(view);
  if (isSilent)
    view.unknown(
      "“finder” is on while the craft is armed alone, and then it is silent: by its switch it never calls. Write “and not arm” instead, with a control of its own.",
    );
  if (mode && !isSilent)
    steps.push(
      benchStep({
        id: "helpers.finder",
        what: `Disarmed, switch the finder on (${mode.text}), listen, and switch it off.`,
        expect: sentences(
          voices.length > 0
            ? `It calls by ${joinWithAnd(voices)}${tone === null ? "" : `, tone ${tone}`}.`
            : "It calls.",
          view.word("finder.flash-lights") === "yes" && "The lights flash meanwhile.",
          motors && "It is silent while the craft is armed, and with the pack out.",
          sounder === "own-cell" && "Pull the pack: it goes on calling.",
        ),
        caution: motors ? "Short calls only: windings that do not turn get hot, and the pack drains." : null,
        risk: "powered",
        check: FINDER,
        from: [
          ...view.modeLines("finder"),
          ...view.from("finder.motors", "finder.sounder", "finder.tone", "finder.flash-lights"),
        ],
      }),
    );
  if (idle !== null && idle !== "never")
    steps.push(
      benchStep({
        id: "helpers.finder-idle",
        what: "Leave the craft alone, plugged in and disarmed.",
        expect: `After ${idle} it begins to call by itself.`,
        risk: "powered",
        check: FINDER,
        from: view.from("finder.after-idle"),
      }),
    );
  const sounds = view.text("finder.sounds");
  if (sounds !== null)
    steps.push(
      benchStep({
        id: "helpers.sounds",
        what: "Listen to the craft as these events come along the list.",
        expect: `It marks: ${sounds}.`,
        risk: "powered",
        check: FINDER,
        from: view.from("finder.sounds"),
      }),
    );
  return steps;
}

/** Whether the finder is on only where the craft is armed, where it never acts. */
function callsArmedOnly(view: BenchView): boolean {
  const board = boardOf(view.craft, view.workspace);
  const { armed, sets } = board;
  const finder = board.selected("finder");
  return armed !== null && finder !== null && finder !== sets.none && sets.within(finder, armed) === true;
}

function lightSteps(view: BenchView): BenchStep[] {
  if (!view.says("lights") && !view.reached("lights") && !view.reached("lights-off")) return [];
  const on = view.reached("lights");
  const off = view.reached("lights-off");
  const text = (name: string) => view.text(`lights.${name}`);
  const shown = [
    text("count") && `${text("count")} lights`,
    text("colour") && `in ${text("colour")}`,
    text("pattern") && `pattern ${text("pattern")}`,
    text("brightness") && `at ${text("brightness")}`,
  ].filter((each) => each);
  return [
    benchStep({
      id: "helpers.lights",
      what: on
        ? `Switch the lights on (${on.text}), and off again.`
        : off
          ? `Look at the lights, and switch them off (${off.text}).`
          : "Look at the lights.",
      expect: sentences(
        shown.length > 0 ? `${shown.join(", ")}.` : "They come on.",
        text("rear-colour") &&
          `To the rear ${text("rear-colour")}, from light ${text("rear-first") ?? "… (not said)"} on.`,
        text("armed-colour") && text("armed-colour") !== "same" && `Armed they are ${text("armed-colour")}.`,
        view.word("lights.off-when-armed") === "yes" && "Armed they are out.",
        text("alert-colour") && text("alert-colour") !== "none" && `Warnings blink in ${text("alert-colour")}.`,
      ),
      risk: "powered",
      check: HELPERS,
      from: [
        ...view.modeLines("lights"),
        ...view.modeLines("lights-off"),
        ...view.from(
          ...["count", "colour", "pattern", "brightness", "rear-colour", "armed-colour", "alert-colour"].map(
            (name) => `lights.${name}`,
          ),
        ),
      ],
    }),
  ];
}

const STARTS: Readonly<Record<string, string>> = {
  armed: "as soon as the craft is armed",
  mode: "with its mode",
  both: "with its mode while the craft is armed",
  powered: "as soon as the board has power",
};

/** Half a minute, and what it takes to tie the craft down and look. */
const RECORD_S = 60;

function recorderSteps(view: BenchView): BenchStep[] {
  const to = view.word("recorder.to");
  const mode = view.reached("recorder");
  if (to === "off" || (to === null && !mode)) return [];
  if (to === null) view.asked("recorder.to", "where the recorder writes");
  const starts = view.word("recorder.starts");
  const space = view.integer("recorder.space");
  const rateHz = view.amount("recorder.rate", "Hz");
  const idleS = view.amount("safety.idle-disarm-after", "s") ?? 0;
  // With its throttle closed it disarms by itself, and the record ends.
  const isShort = needsArming(view, starts) && idleS > 0 && idleS <= RECORD_S;
  const duration = isShort
    ? `less than the ${formatDuration(idleS)} after which it disarms by itself`
    : "half a minute";
  return [
    benchStep({
      id: "helpers.recorder",
      what: `${needsArming(view, starts) ? "With the craft tied down and armed, let" : "Let"} the recorder run for ${duration}${mode ? ` (${mode.text})` : starts !== null && STARTS[starts] ? ` (it runs ${STARTS[starts]})` : ""}, and read the record back.`,
      expect: sentences(
        `The record is there and whole${to === null ? "" : `, on ${to === "serial" ? "the recorder at the serial port" : `the ${to}`}`}${rateHz === null ? "" : `, with ${rateHz} lines a second`}.`,
        space !== null && `The store holds ${space} MB, and enough of it is free.`,
        view.word("recorder.when-full") === "stop" && "A full store records nothing: empty it.",
      ),
      risk: needsArming(view, starts) ? "spins" : "powered",
      check: HELPERS,
      from: [
        ...view.modeLines("recorder"),
        ...view.from("recorder.to", "recorder.rate", "recorder.space", "recorder.starts", "recorder.when-full"),
      ],
    }),
  ];
}

/** Whether it records only, or perhaps only, while the craft is armed. */
function needsArming(view: BenchView, starts: string | null): boolean {
  if (starts === "powered") return false;
  if (starts === "armed" || starts === "both" || !view.reached("recorder")) return true;
  const board = boardOf(view.craft, view.workspace);
  const set = board.selected("recorder");
  return set === null || board.armed === null || (board.sets.within(set, board.armed) ?? true);
}

function cameraMountSteps(view: BenchView): BenchStep[] {
  const tilt = view.said("camera.tilt");
  const mode = view.reached("camera-tilt");
  const hasTilt = tilt !== null && view.word("camera.tilt") !== "no";
  if (!hasTilt && !mode) return [];
  const angle = view.amount("camera.tilt", "deg");
  const steady = view.amount("camera.steady", "%");
  return [
    benchStep({
      id: "helpers.camera-tilt",
      what: mode
        ? `Switch the camera mount on (${mode.text}), and move it through its range.`
        : "Move the camera mount through its range.",
      expect: sentences(
        angle === null
          ? "It moves up and down freely, and hums at neither end."
          : `It moves over ${angle} deg, and hums at neither end.`,
        steady !== null && steady > 0 && "Nod the craft: the camera stays where it looked.",
      ),
      risk: "powered",
      check: HELPERS,
      from: [...view.modeLines("camera-tilt"), ...view.from("camera.tilt", "camera.steady")],
    }),
  ];
}

function cameraRecordSteps(view: BenchView): BenchStep[] {
  const mode = view.reached("camera-record");
  if (!mode) return [];
  return [
    benchStep({
      id: "helpers.camera-record",
      what: `Start the camera's recording (${mode.text}), stop it, and look at the film.`,
      expect: "It begins and ends with the mode.",
      risk: "powered",
      check: HELPERS,
      from: view.modeLines("camera-record"),
    }),
  ];
}
