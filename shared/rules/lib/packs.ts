/** The packs of a craft, one by one: the plain one, and each named one laid over it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { perFile } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type PackFigures, packsOf } from "../../numbers/pack-of.ts";
import { onceFor, settingIn } from "../../numbers/values.ts";
import type { Severity } from "../../protocol/findings.ts";
import type { Report } from "../engine/rule.ts";
import { restingOn, valueLocation } from "./locations.ts";

export interface CheckedPack extends PackFigures {
  readonly craft: Craft;
  readonly catalogue: Catalogue;
  /** The line of a setting: the pack's own, else that of the plain pack. */
  setting(name: string): Setting | null;
}

export interface PackReport {
  readonly message: string;
  readonly severity?: Severity;
  /** The settings that it is about, the one to point at first; of a named pack its own go before. */
  readonly of: readonly (Setting | null | undefined)[];
}

/** What a rule finds in one pack: whether it finds anything depends on settings of the pack, or of plain `pack`, and on `also`. */
type Check<A> = (pack: CheckedPack, also: A) => readonly PackReport[];

/** A pack, and the checks that found nothing by these figures, each with what it asked besides them. */
interface PackChecks {
  readonly figures: PackFigures;
  readonly silentChecks: Map<unknown, unknown>;
}

/** By section. */
const checksIn = perFile(() => new Map<string, PackChecks>());
/** As many as a file can have; more were renamed while they were typed. */
const MOST_REMEMBERED = 6000;

/** Figures are the same object for as long as no value of the pack changes. */
function packChecks(figures: PackFigures, checks: Map<string, PackChecks>): PackChecks {
  let known = checks.get(figures.section);
  if (known?.figures !== figures) {
    known = { figures, silentChecks: new Map() };
    if (checks.size >= MOST_REMEMBERED) checks.clear();
    checks.set(figures.section, known);
  }
  return known;
}

/** Made once for a craft: several rules go through its packs. A pack itself is made once a rule looks at it. */
const allPackChecks = onceFor((craft, catalogue): readonly { readonly checks: PackChecks; pack?: CheckedPack }[] => {
  const checks = checksIn(craft);
  return packsOf(craft, catalogue).map((figures) => ({ checks: packChecks(figures, checks) }));
});

/**
 * What a rule finds in each pack. What a named pack only takes over from the plain one is said of
 * that one alone. `also` is what the check asks besides the pack: where a check has found nothing
 * and neither changes, it is not made again, for a shelf may be long and only one pack is typed in.
 */
export function packReports<A extends number | null | undefined>(
  craft: Craft,
  workspace: Workspace,
  check: Check<A>,
  also: A,
): Report[] {
  const reports: Report[] = [];
  const { catalogue } = workspace;
  for (const each of allPackChecks(craft, catalogue)) {
    const { figures, silentChecks } = each.checks;
    if (silentChecks.has(check) && silentChecks.get(check) === also) continue;
    each.pack ??= checkedPack(figures, craft, catalogue);
    const found = check(each.pack, also);
    if (found.length === 0) silentChecks.set(check, also);
    for (const report of found) reports.push(...reportOf(report, figures.section, workspace));
  }
  return reports;
}

function checkedPack(figures: PackFigures, craft: Craft, catalogue: Catalogue): CheckedPack {
  return { ...figures, craft, catalogue, setting: (name) => settingIn(craft, figures.section, name) };
}

function reportOf({ of, message, severity }: PackReport, section: string, workspace: Workspace): Report[] {
  const named = section === "pack" ? "" : `Pack “${section.slice("pack/".length)}”: `;
  const present = of.filter((setting) => setting !== null && setting !== undefined);
  const main = present.find((setting) => setting.section === section) ?? (named === "" ? present[0] : undefined);
  if (!main) return [];
  const others = present.filter((setting) => setting !== main);
  return [
    {
      at: valueLocation(workspace, main.source),
      message: `${named}${message}`,
      ...(severity && { severity }),
      ...restingOn(others, workspace),
    },
  ];
}
