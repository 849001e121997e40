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

export interface Pack extends PackFigures {
  readonly craft: Craft;
  readonly catalogue: Catalogue;
  /** The line of a setting: the pack's own, else that of the plain pack. */
  said(name: string): Setting | null;
}

export interface PackReport {
  readonly message: string;
  readonly severity?: Severity;
  /** The settings that it is about, the one to point at first; of a named pack its own go before. */
  readonly of: readonly (Setting | null | undefined)[];
}

/** What a rule finds in one pack: whether it finds anything depends on settings of the pack, or of plain `pack`, and on `also`. */
type Check<A> = (pack: Pack, also: A) => readonly PackReport[];

/** A pack, and the checks that found nothing by these figures, each with what it asked besides them. */
interface Looked {
  readonly figures: PackFigures;
  readonly calm: Map<unknown, unknown>;
}

/** By section. */
const lookedIn = perFile(() => new Map<string, Looked>());
/** As many as a file can have; more were renamed while they were typed. */
const MOST_REMEMBERED = 6000;

/** Figures are the same object for as long as no value of the pack changes. */
function lookedAt(figures: PackFigures, looked: Map<string, Looked>): Looked {
  let known = looked.get(figures.section);
  if (known?.figures !== figures) {
    known = { figures, calm: new Map() };
    if (looked.size >= MOST_REMEMBERED) looked.clear();
    looked.set(figures.section, known);
  }
  return known;
}

/** Made once for a craft: several rules go through its packs. A pack itself is made once a rule looks at it. */
const shelfOf = onceFor((craft, catalogue): readonly { readonly looked: Looked; pack?: Pack }[] => {
  const looked = lookedIn(craft);
  return packsOf(craft, catalogue).map((figures) => ({ looked: lookedAt(figures, looked) }));
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
  for (const each of shelfOf(craft, catalogue)) {
    const { figures, calm } = each.looked;
    if (calm.has(check) && calm.get(check) === also) continue;
    each.pack ??= packOf(figures, craft, catalogue);
    const found = check(each.pack, also);
    if (found.length === 0) calm.set(check, also);
    for (const report of found) reports.push(...reportOf(report, figures.section, workspace));
  }
  return reports;
}

function packOf(figures: PackFigures, craft: Craft, catalogue: Catalogue): Pack {
  return { ...figures, craft, catalogue, said: (name) => settingIn(craft, figures.section, name) };
}

function reportOf({ of, message, severity }: PackReport, section: string, workspace: Workspace): Report[] {
  const named = section === "pack" ? "" : `Pack “${section.slice("pack/".length)}”: `;
  const said = of.filter((setting) => setting !== null && setting !== undefined);
  const main = said.find((setting) => setting.section === section) ?? (named === "" ? said[0] : undefined);
  if (!main) return [];
  const others = said.filter((setting) => setting !== main);
  return [
    {
      at: valueLocation(workspace, main.source),
      message: `${named}${message}`,
      ...(severity && { severity }),
      ...restingOn(others, workspace),
    },
  ];
}
