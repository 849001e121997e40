// The order of the tests: those in the editor by their folders, as the suites of a folder share a window;
// with FETTLE_SHUFFLE=SEED in the order that the seed gives.
import { createHash } from "node:crypto";
import { BaseSequencer } from "vitest/node";

export class SuiteOrder extends BaseSequencer {
  /** @override */
  async sort(/** @type {import("vitest/node").TestSpecification[]} */ specs) {
    const seed = process.env.FETTLE_SHUFFLE;
    const keyOf = (/** @type {string} */ path) =>
      seed ? createHash("sha1").update(`${seed} ${path}`).digest("hex") : path;
    const others = specs.filter(({ project }) => project.name !== "e2e");
    const inTheEditor = specs.filter(({ project }) => project.name === "e2e");
    inTheEditor.sort((a, b) => (keyOf(a.moduleId) < keyOf(b.moduleId) ? -1 : 1));
    const sorted = await super.sort(others);
    // What is bounded by time alone goes first, so that all others run beside it.
    const lasting = (/** @type {import("vitest/node").TestSpecification} */ { moduleId }) =>
      moduleId.includes("fire/server/");
    return [...sorted.filter(lasting), ...sorted.filter((spec) => !lasting(spec)), ...inTheEditor];
  }
}
