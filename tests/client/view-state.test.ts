import { expect, test } from "vitest";
import { askedOf, atMoment, withPositions, withSignal } from "../../client/src/view-state.ts";

test("a signal that is there again brings back the moment that was shown before", () => {
  const lost = withSignal({ scenario: "low-pack", page: "osd" }, "lost");
  expect(lost).toMatchObject({ scenario: "signal-lost", before: "low-pack", page: "osd" });
  // Lost again, by the other view: what was shown before is still that.
  expect(withSignal(lost, "lost")).toEqual(lost);
  expect(atMoment(lost, "signal-lost")).toEqual(lost);
  expect(withSignal(lost, "up")).toMatchObject({ scenario: "low-pack" });
  expect(withSignal({}, "lost")).toMatchObject({ scenario: "signal-lost" });
  expect(withSignal(withSignal({}, "lost"), "up").scenario).toBeUndefined();
});

test("the goggles' moment is one state with the lost signal", () => {
  const lost = atMoment({ scenario: "mid-flight" }, "signal-lost");
  expect(lost.before).toBe("mid-flight");
  expect(atMoment(lost, "fresh-pack").scenario).toBe("fresh-pack");
  expect(withSignal({ scenario: "fresh-pack" }, "up")).toEqual({ scenario: "fresh-pack" });
});

test("moving a control brings the signal back, and the step that was shown stays", () => {
  const lost = withSignal({ scenario: "fresh-pack", signal: { course: 1, phase: 2 } }, "lost");
  expect(withPositions(lost, { TL: "down" })).toMatchObject({
    scenario: "fresh-pack",
    positions: { TL: "down" },
    signal: { course: 1, phase: 2 },
  });
  expect(askedOf(lost)).toEqual({ scenario: "signal-lost", signal: { course: 1, phase: 2 } });
});
