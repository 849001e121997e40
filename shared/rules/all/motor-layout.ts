import type { CraftRule } from "../engine/rule.ts";
import { headLocation, restingOn, valueLocation } from "../lib/locations.ts";
import { type MotorFault, motorStand } from "../lib/motor-faults.ts";
import { MOTORS } from "../lib/said-motors.ts";

export const rule: CraftRule = {
  code: "motor-layout",
  severity: "error",
  scope: "craft",
  summary: "What is said of the motors does not agree: their number, layout, places, outputs or directions.",
  prose:
    "The board mixes thrust by what stands here. With two motors at one corner, one too many, or a neighbour that turns the wrong way, what should level the craft throws it over as it lifts, or spins it round. Take the propellers off, turn each motor alone, and write down which corner answers and which way it goes. Round a frame neighbours turn against each other, and of two on one arm each against the other.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  motors 4\n  arm-layout true-x\n\nmotors\n  motor1 place rear-left direction clockwise\n  motor2 place front-left direction clockwise\n',
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nframe\n  motors 4\n  arm-layout true-x\n\nmotors\n  spin props-in\n  motor1 place rear-left direction anticlockwise\n  motor2 place front-left direction clockwise\n',
    },
  },
  looksAt: { settings: ["frame.motors", "frame.arm-layout", "motors.spin", MOTORS] },
  check(craft, workspace) {
    const located = (at: MotorFault["at"]) => {
      if ("source" in at) return at;
      return "headOf" in at ? headLocation(workspace, at.headOf.source) : valueLocation(workspace, at.valueOf.source);
    };
    return motorStand(craft).faults.map(({ at, message, others }) => ({
      at: located(at),
      message,
      ...restingOn(others, workspace),
    }));
  },
};
