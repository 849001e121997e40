/** Another craft of one's own carried over: what goes along, and what has to be measured anew. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { offerOfCraft } from "../../../shared/ide/review/carry.ts";
import { type Review, reviewOf } from "../../../shared/ide/review/review.ts";
import { readCases } from "./pastes.ts";
import { JUG, SHED, shed } from "./shed.ts";

const OTHER = "/shed/craft/other.fettle";

function carried(other: string, mine = SHED[JUG]!): Review {
  const workspace = shed({ ...SHED, [JUG]: mine, [OTHER]: `craft "Other"\nuse "../handsets/wheel.fettle"\n${other}` });
  const offered = offerOfCraft(workspace, workspace.craft(OTHER)!);
  if (offered.kind !== "offer") throw new Error(JSON.stringify(offered));
  const query = { purpose: "carry", chosen: null, mapping: {}, into: null, dialect: "" } as const;
  return reviewOf(workspace, workspace.craft(JUG)!, offered.offer, query);
}

describe("what goes along", () => {
  test.each(readCases("carried.txt").map(({ title, text, expected }) => [title, text, expected] as const))(
    "%s",
    (_, text, expected) => {
      const rows = carried(text).rows.filter((row) => row.class !== "same");
      expect(rows.map((row) => `${row.chosen ? "+" : ""}${row.class} ${row.what}`).sort()).toEqual(
        [...expected].sort(),
      );
    },
  );

  test("of the examples, a racer takes the habits of a bigger craft and keeps its own parts", () => {
    const read = (path: string) => readFileSync(new URL(`../../../examples/${path}`, import.meta.url), "utf8");
    const names = ["maker-base", "habits", "tune-five", "osd-wide"];
    const texts = Object.fromEntries([
      ...names.map((name) => [`/e/layers/${name}.fettle`, read(`layers/${name}.fettle`)]),
      ["/e/handsets/wheel.fettle", read("handsets/wheel.fettle")],
      ...["tankard", "pipkin"].map((name) => [`/e/craft/${name}.fettle`, read(`craft/${name}.fettle`)]),
    ]);
    const workspace = shed(texts);
    const offered = offerOfCraft(workspace, workspace.craft("/e/craft/tankard.fettle")!);
    if (offered.kind !== "offer") throw new Error("no offer");
    const query = { purpose: "carry", chosen: null, mapping: {}, into: null, dialect: "" } as const;
    const { rows, outcome } = reviewOf(workspace, workspace.craft("/e/craft/pipkin.fettle")!, offered.offer, query);
    const chosen = rows.filter((row) => row.chosen);
    expect(chosen.length).toBeGreaterThan(20);
    expect(chosen.filter(({ nature }) => nature === "hardware")).toEqual([]);
    expect(rows.filter((row) => row.class === "unknown")).toEqual([]);
    expect(
      outcome.findings.filter(({ isNew, severity }) => isNew && (severity === "error" || severity === "warning")),
    ).toEqual([]);
  });
});

test("where many names need a port that is not there, all others go along", () => {
  const { rows, outcome } = carried(
    `modes
  return-home   when FL is down
  hold-place    when FL is mid
failsafe
  then  return
safety
  arm-needs-fix  yes
navigation
  fix-needs      8
  return-height  40 m
  return-speed   8 m/s
  home-radius    20 m
osd
  satellites     at left+3, top+2
  home-arrow     at centre, top+3
  home-distance  at right-3, top+3
rates
  roll  slope 140 deg/s  end 800 deg/s  bend 3
ports
  port4  gps
`,
    SHED[JUG]!.replace("reversible  yes", "poles  14"),
  );
  const chosen = rows.filter((row) => row.chosen).map(({ what }) => what);
  expect(chosen).toContain("rates.roll");
  expect(chosen).not.toContain("modes.return-home");
  expect(outcome.findings.filter(({ isNew, severity }) => isNew && severity !== "hint" && severity !== "info")).toEqual(
    [],
  );
});

describe("what is measured anew", () => {
  const places = (other: string, mine?: string) =>
    carried(other, mine).measure.map(
      ({ what, at, isWritten }) =>
        `${what} ${isWritten ? "on" : "below"} ${at.file.slice(at.file.lastIndexOf("/") + 1)}:${at.line + 1}`,
    );

  test("a plain craft has the list of the bench", () => {
    expect(places("modes\n  level  when TR is mid\n")).toEqual([
      "bench.order-checked below jug.fettle:40",
      "bench.direction-checked below jug.fettle:40",
      "bench.centres below jug.fettle:40",
      "bench.mount-checked below jug.fettle:40",
      "sensors.level-trim-roll below jug.fettle:40",
      "sensors.level-trim-pitch below jug.fettle:40",
      "bench.motors-checked below jug.fettle:40",
      "modes.arm on habits.fettle:5",
      "bench.failsafe-checked below jug.fettle:40",
      "bench.pack-volts-read below jug.fettle:40",
      "bench.pack-volts-shown below jug.fettle:40",
      "frame.mass on jug.fettle:13",
      "bench.range-checked below jug.fettle:40",
      "frame.hover-throttle below jug.fettle:13",
      "bench.hover-checked below jug.fettle:40",
    ]);
  });

  test("a descent that goes along asks for its throttle, which stays behind", () => {
    expect(
      places("failsafe\n  then              descend\n  descend-throttle  30 %\n  descend-for       10 s\n"),
    ).toContain("failsafe.descend-throttle below jug.fettle:40");
  });

  test("with a compass, a current meter, a finder, a descent and a way home it is longer", () => {
    const mine = `${SHED[JUG]}
sensors
  compass  yes
pack
  current-from  shunt
  shunt         0.25 mohm
failsafe
  then              descend
  descend-throttle  30 %
bench
  failsafe-checked  2026-03-14
`;
    const found = places("modes\n  finder  when PB is held\n  return-home  when FL is down\n", mine);
    expect(found).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^sensors\.compass-yaw below jug\.fettle:\d+$/),
        expect.stringMatching(/^pack\.shunt-offset below/),
        expect.stringMatching(/^bench\.charge-put-back below/),
        expect.stringMatching(/^bench\.charge-counted below/),
        expect.stringMatching(/^failsafe\.descend-throttle on jug/),
        "bench.failsafe-checked on jug.fettle:50",
        expect.stringMatching(/^bench\.finder-checked below/),
      ]),
    );
  });

  test("without a meter of the pack nothing is read beside it", () => {
    const mine = `${SHED[JUG]}\npack\n  volts-from  none\n`;
    expect(places("modes\n  level  when TR is mid\n", mine).filter((each) => each.includes("pack-volts"))).toEqual([]);
  });
});
