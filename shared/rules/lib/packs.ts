/** Runs a rule's check on each pack of a craft: the plain one, and each named one with the plain one's values where it has none. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { isStillSo, namedPacksOf, readsOf, tableOf } from "../../model/listened-craft.ts";
import { perFile } from "../../model/memo.ts";
import type { Reads } from "../../model/reads.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type PackFigures, packsOf } from "../../numbers/pack-of.ts";
import { onceFor, settingIn } from "../../numbers/values.ts";
import type { Severity } from "../../protocol/findings.ts";
import type { Report } from "../engine/rule.ts";
import { restingOn, valueLocation } from "./locations.ts";

export interface CheckedPack extends PackFigures {
  readonly craft: Craft;
  readonly catalogue: Catalogue;
  /** A setting of the pack, else of the plain pack. */
  setting(name: string): Setting | null;
}

export interface PackReport {
  readonly message: string;
  readonly severity?: Severity;
  /** The settings that it is about, the main one first; of a named pack, its own come first. */
  readonly of: readonly (Setting | null | undefined)[];
}

/** A rule's check of one pack. Its result may depend only on settings of the pack, or of plain `pack`, and on `also`. */
type Check<A> = (pack: CheckedPack, also: A) => readonly PackReport[];

type Table = ReadonlyMap<string, Setting> | undefined;

/** A check that found nothing: with what, and what it has read; of the tables it is known that it still finds nothing in them. */
interface Silent {
  readonly also: unknown;
  readonly reads: Reads | null;
  own: Table;
  plain: Table;
}

/** A pack's figures, and the checks that found nothing in them. */
interface PackChecks {
  readonly figures: PackFigures;
  readonly silentChecks: Map<unknown, Silent>;
}

/** By section. */
const checksIn = perFile(() => new Map<string, PackChecks>());
/** As many as a file can have; more were renamed while they were typed. */
const MOST_REMEMBERED = 6000;

/** The checks of a pack. Its figures are the same object as long as no value changes of which they are made. */
function packChecks(figures: PackFigures, checks: Map<string, PackChecks>): PackChecks {
  let known = checks.get(figures.section);
  if (known?.figures !== figures) {
    known = { figures, silentChecks: new Map() };
    if (checks.size >= MOST_REMEMBERED) checks.clear();
    checks.set(figures.section, known);
  }
  return known;
}

interface ChecksNow {
  readonly checks: PackChecks;
  readonly own: Table;
  readonly plain: Table;
  /** Made once a rule looks at it. */
  pack?: CheckedPack;
}

/** Computed once for a craft, as several rules check its packs. */
const allPackChecks = onceFor((craft, catalogue): readonly ChecksNow[] => {
  const checks = checksIn(craft);
  const plain = tableOf(craft, "pack");
  const named = namedPacksOf(craft);
  return packsOf(craft, catalogue).map((figures) => ({
    checks: packChecks(figures, checks),
    own: named.get(figures.section) ?? plain,
    plain,
  }));
});

/** Whether a check that found nothing in a pack is known to find nothing now. */
function isStillSilent(silent: Silent | undefined, also: unknown, { own, plain }: ChecksNow, craft: Craft): boolean {
  if (!silent || silent.also !== also) return false;
  if (silent.own === own && silent.plain === plain) return true;
  if (!isStillSo(silent.reads, craft)) return false;
  Object.assign(silent, { own, plain });
  return true;
}

/**
 * The reports of a check for every pack. What a named pack only inherits from the plain one is reported for
 * the plain one only. `also` is what the check depends on besides the pack: if a check has found nothing
 * and nothing that it has read has changed, it is skipped, as a craft may have many packs and only one is edited.
 */
export function packReports<A extends number | string | null | undefined>(
  craft: Craft,
  workspace: Workspace,
  check: Check<A>,
  also: A,
): Report[] {
  const reports: Report[] = [];
  const { catalogue } = workspace;
  for (const each of allPackChecks(craft, catalogue)) {
    const { figures, silentChecks } = each.checks;
    if (isStillSilent(silentChecks.get(check), also, each, craft)) continue;
    each.pack ??= checkedPack(figures, craft, catalogue);
    const pack = each.pack;
    const { answer: found, reads } = readsOf(craft, () => check(pack, also));
    const { own, plain } = each;
    if (found.length === 0) silentChecks.set(check, { also, reads, own, plain });
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
