/** What a user sets, or mistypes, for the server. */
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import type { Random } from "../random.ts";

/** The section of an editor's settings, with some of what there is to set. */
export function randomSettings(random: Random): object {
  const code = () => random.oneOf(rules).code;
  const level = () => random.oneOf(["off", "hint", "info", "warning", "error", "kettle", 5]);
  return {
    ...(random.onceIn(3) && { rules: Object.fromEntries(random.some(random.below(6), () => [code(), level()])) }),
    ...(random.onceIn(4) && { findings: { ofClosedScripts: random.oneOf([true, false, "yes"]) } }),
    ...(random.onceIn(4) && { lenses: random.oneOf([true, false, null]) }),
    ...(random.onceIn(4) && {
      hints: { [random.oneOf(["consequence", "pulses", "kettle"])]: random.oneOf([true, false, 7]) },
    }),
    ...(random.onceIn(4) && { useLines: random.oneOf(["ask", "always", "never", ""]) }),
    ...(random.onceIn(3) && {
      together: random.some(random.below(5), () =>
        random.oneOf([
          "examples/craft/tankard.fettle",
          "examples/craft/eggcup.fettle",
          "Tankard",
          "Amphora",
          "nobody",
          "../x",
          7,
        ]),
      ),
    }),
  };
}
