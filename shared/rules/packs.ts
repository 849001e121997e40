/** The packs of a craft, one by one: the plain one, and each named one laid over it. */
import type { Craft, Setting } from "../model/craft.ts";
import type { Workspace } from "../model/workspace.ts";
import { type PackFigures, packsOf } from "../numbers/pack-of.ts";
import { onceFor, saidIn } from "../numbers/read.ts";
import type { Severity } from "../protocol/findings.ts";
import { restingOn, valueSpot } from "./spots.ts";
import type { Report } from "./types.ts";

export interface Pack extends PackFigures {
  /** The line of a setting: the pack's own, else that of the plain pack. */
  said(name: string): Setting | null;
}

export interface PackReport {
  readonly message: string;
  readonly severity?: Severity;
  /** The settings that it is about, the one to point at first; of a named pack its own go before. */
  readonly of: readonly (Setting | null | undefined)[];
}

/** Made once for a craft: several rules go through its packs. */
const packsWithLines = onceFor((craft, catalogue): readonly Pack[] =>
  packsOf(craft, catalogue).map((figures) => ({ ...figures, said: (name) => saidIn(craft, figures.section, name) })),
);

/** What a rule finds in each pack. What a named pack only takes over from the plain one is said of that one alone. */
export function packReports(
  craft: Craft,
  workspace: Workspace,
  check: (pack: Pack) => readonly PackReport[],
): Report[] {
  return packsWithLines(craft, workspace.catalogue).flatMap((pack) => {
    const found = check(pack);
    if (found.length === 0) return [];
    const { section } = pack;
    const named = section === "pack" ? "" : `Pack “${section.slice("pack/".length)}”: `;
    return found.flatMap(({ of, message, severity }) => {
      const said = of.filter((setting) => setting !== null && setting !== undefined);
      const main = said.find((setting) => setting.section === section) ?? (named === "" ? said[0] : undefined);
      if (!main) return [];
      const others = said.filter((setting) => setting !== main);
      return [
        {
          at: valueSpot(workspace, main.source),
          message: `${named}${message}`,
          ...(severity && { severity }),
          ...restingOn(others, workspace),
        },
      ];
    });
  });
}
