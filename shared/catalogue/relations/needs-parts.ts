/** What needs a part, a port or another setting to be there. */
import type { Having, Need, NeedTable } from "../specs.ts";

const source = "by definition: a value that nothing carries out does nothing";

function need(having: Having, reason: string, more: Partial<Need> = {}): Need {
  return { ...having, reason, source, ...more };
}

const reports = (word: string): Need =>
  need({ port: "esc-data" }, "The controllers report over a port, or over the signal wire with rpm-feedback.", {
    word,
  });
const satellites: Having = { port: "gps" };
const byBoard: Having = { setting: "video.set-by", not: "hand" };
const notByHand = "A transmitter that is set by hand keeps the power that its button chose.";
const caller: Partial<Need> = { or: [{ setting: "finder.sounder", not: "none" }], misleads: true };
const nothingCalls = "Neither the motors nor a sounder can call, so the craft stays silent when it is lost.";

export const partNeeds: NeedTable = {
  "link.wiring": [need({ port: "receiver" }, "A serial receiver is connected to a serial port.", { word: "serial" })],
  "failsafe.then": [need(satellites, "The way home comes from a satellite receiver.", { word: "return" })],
  "failsafe.pack-empty-then": [need(satellites, "The way home comes from a satellite receiver.", { word: "return" })],
  "safety.arm-needs-fix": [need(satellites, "A fix comes from a satellite receiver.", { word: "yes" })],
  "pack.volts-from": [reports("esc-data")],
  "pack.current-from": [reports("esc-data")],
  "video.set-by": [need({ port: "video" }, "The board sets the transmitter over a port.", { word: "board" })],
  "recorder.to": [
    need({ port: "recorder" }, "A recorder outside the board is connected to a port.", { word: "serial" }),
  ],
  "osd.alert-on": [
    need(satellites, "Without a satellite receiver this alert stands all the time, or never.", {
      word: "no-fix",
      misleads: true,
    }),
    need(satellites, "Without a satellite receiver the distance is not known, so this alert never comes.", {
      word: "far",
      misleads: true,
    }),
  ],
  "recorder.holds": [need(satellites, "There is no place to write without a satellite receiver.", { word: "place" })],
  "recorder.starts": [
    need({ mode: "recorder" }, "The recorder waits for a mode that nobody set up.", {
      word: "mode",
      misleads: true,
    }),
  ],
  "navigation.fence-does": [
    need({ setting: "navigation.fence-distance", not: "none" }, "There is no fence at which to do it."),
  ],
  "navigation.hold-speed": [need({ mode: "hold-place" }, "It is the speed of that mode.")],
  "video.power-disarmed": [
    need(byBoard, notByHand, { misleads: true }),
    need(byBoard, "A transmitter that is set by hand sends as soon as it has power.", { word: "off", misleads: true }),
  ],
  "video.power-lost": [need(byBoard, notByHand, { misleads: true })],
  "video.spare-frequency": [
    need({ setting: "video.set-by", not: "hand" }, "A transmitter that is set by hand does not move by itself.", {
      severity: "hint",
    }),
  ],
  "finder.motors": [
    need(
      { setting: "motors.esc-signal", is: "digital" },
      "Controllers sound by a command, and plain pulses carry none.",
      { word: "yes", misleads: true },
    ),
  ],
  "finder.after-lost": [need({ setting: "finder.motors", is: "yes" }, nothingCalls, caller)],
  "finder.after-idle": [need({ setting: "finder.motors", is: "yes" }, nothingCalls, caller)],
  "lights.rear-colour": [need({ setting: "lights.count", not: "0" }, "A strip of no lights has no colour.")],
  "lights.most-current": [need({ setting: "lights.count", not: "0" }, "A strip of no lights draws no current.")],
  "lights.pattern": [need({ setting: "lights.count", not: "0" }, "A strip of no lights shows nothing.")],
  "recorder.rate": [need({ setting: "recorder.to", not: "off" }, "A recorder that is off writes nothing.")],
  "recorder.when-full": [need({ setting: "recorder.to", not: "off" }, "A recorder that is off is never full.")],
  adjusting: [
    need({ section: "adjust" }, "No dial moves a setting, so it stays empty.", {
      severity: "hint",
      misleads: true,
    }),
  ],
  finder: [
    need({ setting: "finder.motors", is: "yes" }, "Neither the motors nor a sounder can call.", {
      or: [{ setting: "finder.sounder", not: "none" }],
    }),
  ],
  "recorder-mark": [need({ setting: "recorder.to", not: "off" }, "There is no recording to mark.")],
  "camera-record": [need({ port: "camera" }, "The camera takes its commands over a port.")],
  "camera-tilt": [need({ setting: "camera.tilt", not: "no" }, "There is no servo that tilts the camera.")],
  "video-low": [need(byBoard, notByHand)],
  "video-high": [need(byBoard, notByHand)],
  "osd.grid": ["ntsc", "30 x 13"]
    .map((word) =>
      need(
        { setting: "video.standard", not: "pal" },
        "Text for a picture of 525 lines leaves the lower part of one of 625 empty.",
        { word, misleads: true },
      ),
    )
    .concat(
      ["pal", "30 x 16"].map((word) =>
        need(
          { setting: "video.standard", not: "ntsc" },
          "Text for a picture of 625 lines runs off the lower end of one of 525.",
          { word, misleads: true },
        ),
      ),
    ),
  "osd.picture": [
    need(
      { setting: "video.camera-picture", not: "16:9" },
      "A wide picture on a narrow viewer is squeezed, so that all in it looks nearer than it is.",
      { word: "4:3", misleads: true, severity: "hint" },
    ),
  ],
  ...Object.fromEntries(
    (
      [
        ["link-alert", "weak-link"],
        ["signal-alert", "weak-signal"],
        ["height-alert", "high"],
        ["distance-alert", "far"],
        ["flight-time-alert", "long-flight"],
        ["heat-alert", "hot-esc"],
      ] as const
    ).map(([name, has]) => [
      `osd.${name}`,
      [
        need(
          { setting: "osd.alert-on", has },
          "The alert of this threshold is not among those that the display may show.",
        ),
      ],
    ]),
  ),
};
