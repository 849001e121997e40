/** Rules on ports, on coming home, and on what was checked on the bench. */
import { describe, expect, test } from "vitest";
import { swapped } from "../../swapped.ts";
import { checkOnly, reported } from "../check.ts";

describe("port-clash", () => {
  const check = (marked: string, others = {}) => checkOnly("port-clash", marked, others);

  test("one port with two uses in one file, at the line that counts", () => {
    const [found] = check(`
      craft "Jug"
      ports
        port1 receiver
        port2 video
        port1 gps
              ^^^ port-clash
    `);
    expect(found!.message).toContain("port1 serves receiver and gps at once");
    expect(found!.message).toContain("as port3");
    expect(found!.related).toMatchObject([{ message: "port1 serves receiver here", range: { start: { line: 2 } } }]);
  });

  test("the same said twice is a repetition, and a line with a fault says nothing", () => {
    check(`
      craft "Jug"
      ports
        port1 gps
        port1 gps
        port2 gps
        port2 kettle
              ^^^^^^ unknown-name
    `);
  });

  test("a port that is said to be spare is offered first", () => {
    const [found] = check(`
      craft "Jug"
      ports
        port1 receiver
        port1 gps
              ^^^ port-clash
        port3 spare
    `);
    expect(found!.message).toContain("as port3, which is spare");
  });

  test("a port that is said to be free, and to serve something, has one use", () => {
    check(`
      craft "Jug"
      ports
        port1 spare
        port1 gps
        port2 video
        port2 spare
    `);
  });

  test("a later file is meant to win", () => {
    check(
      `
      craft "Jug"
      use "base.fettle"
      ports
        port2 gps
    `,
      { "base.fettle": 'layer "Base"\nports\n  port1 receiver\n  port2 video\n' },
    );
  });

  test("a layer's clash stands on its use line, until the craft settles it", () => {
    const layer = { "base.fettle": 'layer "Base"\nports\n  port1 receiver\n  port1 gps\n' };
    check(
      `
      craft "Jug"
      use "base.fettle"
          ^^^^^^^^^^^^^ port-clash
    `,
      layer,
    );
    check('craft "Jug"\nuse "base.fettle"\nports\n  port1 receiver', layer);
  });
});

describe("port-missing", () => {
  const check = (marked: string, others = {}) => checkOnly("port-missing", marked, others);

  test("one finding for each use that has no port, at the first that needs it", () => {
    const [gps, talk] = check(`
      craft "Jug"
      navigation
        fix-needs 8
        ^^^^^^^^^ port-missing
        return-height 40 m
      osd
        grid 30 x 16
        satellites at 2, 2
      pack
        volts-from esc-data
        ^^^^^^^^^^ port-missing
      ports
        port1 receiver
        port2 spare
    `);
    expect(gps!.message).toContain(
      "fix-needs needs a satellite receiver on a port, and no port is said to serve gps. Satellites are counted by their receiver. So do return-height and satellites. Say in “ports” which port serves gps, or take out what needs it.",
    );
    expect(gps!.related.map(({ range }) => range.start.line)).toEqual([3, 6]);
    expect(talk!.message).toContain("serves esc-data");
  });

  test("a craft that says nothing of its ports, or one with a fault, is not held to them", () => {
    check(`
      craft "Jug"
      navigation
        return-height 40 m
    `);
    check(`
      craft "Jug"
      navigation
        return-height 40 m
      ports
        gps-speed 115.2 kbit/s
    `);
    check(`
      craft "Jug"
      navigation
        return-height 40 m
      ports
        port1 receiver
        port2 kettle
              ^^^^^^ unknown-name
    `);
  });

  test.each([
    ["link", "wiring serial", "wiring pulse-train", "receiver"],
    ["failsafe", "then return", "then stop", "gps"],
    ["safety", "arm-needs-fix yes", "arm-needs-fix no", "gps"],
    ["pack", "current-from esc-data", "current-from shunt", "esc-data"],
    ["video", "set-by board", "set-by hand", "video"],
    ["recorder", "to serial", "to flash", "recorder"],
    ["navigation", "home-needs-heading yes", "home-needs-heading no", "gps"],
  ])("in %s, “%s” takes a port and “%s” none", (section, takes, none, use) => {
    const name = takes.split(" ")[0]!;
    const text = (line: string, port: string, mark = "") =>
      `craft "Jug"\n${section}\n  ${line}\n${mark}ports\n  port1 bench\n  port2 ${port}\n`;
    check(text(takes, "spare", `  ${"^".repeat(name.length)} port-missing\n`));
    check(text(takes, use));
    check(text(none, "spare"));
  });

  test("the signal wire serves as well where controllers answer on it", () => {
    check(`
      craft "Jug"
      motors
        rpm-feedback yes
      pack
        volts-from esc-data
      filters
        motor-notches count 2
      ports
        port1 receiver
    `);
  });

  test("a threshold is in use where its alert is on, and is then reported with the alert", () => {
    const text = (alerts: string, mark = "") => `
      craft "Jug"
      osd
        alert-on ${alerts}${mark}
        distance-alert 900 m
      ports
        port1 receiver
    `;
    check(text("low-pack, weak-link"));
    const [found] = check(text("far", "\n        ^^^^^^^^ port-missing"));
    expect(found?.related.map(({ message }) => message)).toEqual(["distance-alert needs it too"]);
    check(text("low-pack, far", "\n        ^^^^^^^^ port-missing"));
  });

  test("what a mode needs is reported at the mode", () => {
    const found = checkOnly(
      "port-missing mode-needs",
      `
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        return-home when TR is down
                    ^^^^^^^^^^^^^^^ mode-needs
      ports
        port1 receiver
    `,
    );
    expect(found).toHaveLength(1);
  });

  test("of a layer, on its use line; a note on it accepts", () => {
    const osd = 'layer "Wide"\nosd\n  grid 53 x 20\n  satellites at 2, 2\n';
    const craft = `
      craft "Jug"
      use "wide.fettle"
          ^^^^^^^^^^^^^ port-missing
      ports
        port1 receiver
    `;
    check(craft, { "wide.fettle": osd });
    check(craft.replace(/^.*\^.*\n/m, ""), {
      "wide.fettle": swapped(osd, "2, 2", "2, 2 # allow port-missing: the mast comes in May"),
    });
  });
});

describe("return-unready", () => {
  const check = (marked: string) => checkOnly("return-unready", marked);

  test("the return height has to lie above the obstacle, whatever the units", () => {
    const text = (height: string, mark = "") => `
      craft "Jug"
      failsafe
        then return
      navigation
        obstacle-height 35 m
        return-height ${height}${mark}
    `;
    const [found] = check(text("35 m", "\n                      ^^^^ return-unready"));
    expect(found).toMatchObject({ severity: "warning" });
    expect(found!.message).toContain("at 35 m, and an obstacle of 35 m is stated");
    expect(found!.message).toContain("45 m or more");
    const [close] = check(text("36.5 m", "\n                      ^^^^^^ return-unready"));
    expect(close!.message).toContain("it clears it by 1.5 m");
    check(text("39 m"));
    // 128 ft are 39.01 m, and 127 ft 38.71 m.
    check(text("128 ft"));
    check(text("127 ft", "\n                      ^^^^^^ return-unready"));
  });

  test("a craft that does not return is not held to it, and one that says neither height nor fix neither", () => {
    check(`
      craft "Jug"
      failsafe
        then stop
      navigation
        obstacle-height 35 m
        return-height 20 m
    `);
    check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        return-home when TR is down
      navigation
        obstacle-height 35 m
    `);
  });

  test("arming without a fix is reported, and corrected", () => {
    const [found] = check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        return-home when TR is down
      safety
        arm-needs-fix no
                      ^^ return-unready
    `);
    expect(found!.fixes).toMatchObject([
      {
        title: "Wait for a fix",
        edits: [{ text: "yes", range: { start: { line: 6, character: 16 }, end: { line: 6, character: 18 } } }],
      },
    ]);
  });
});

describe("direction-unchecked", () => {
  const check = (marked: string) => checkOnly("direction-unchecked", marked);

  test("one hint for all sticks that were measured, which says what is open", () => {
    const [found] = check(`
      craft "Jug"
      bench
        pitch 1000 us to 2000 us
        throttle 1000 us to 2000 us
        roll 1000 us to 2000 us
        ^^^^ direction-unchecked
        order-checked 2026-04-02
    `);
    expect(found).toMatchObject({ severity: "hint" });
    expect(found!.message).toContain("in direction-checked.");
  });

  test("nothing measured, or both checked, is nothing to say; a date with a fault was meant as one", () => {
    check(`
      craft "Jug"
      bench
        centres roll 1500 us
        pack-volts-read 16.4 V
    `);
    check(`
      craft "Jug"
      bench
        roll 1000 us to 2000 us
        order-checked 2026-04-02
        direction-checked 2 April
                          ^ wrong-type
    `);
  });

  test("a note on any measured stick accepts it", () => {
    check(`
      craft "Jug"
      bench
        roll 1000 us to 2000 us
        yaw 1000 us to 2000 us # allow direction-unchecked: the board is in the post
    `);
  });
});

test("port-clash: one pin for the camera's servo and the lights", () => {
  const pins = (servo: string, lights: string) =>
    reported("port-clash", [
      "camera",
      "  tilt yes",
      `  servo-output "${servo}"`,
      "lights",
      "  count 8",
      `  output "${lights}"`,
    ]);
  expect(pins("S5", "S6")).toEqual([]);
  expect(pins("S5", "s5 ")).toEqual([
    'error output "s5 ": camera.servo-output and lights.output hang on one pin, "s5 ", and only one of them can be driven by it: give one of them a pin of its own.',
  ]);
});
