/** A text of somebody else, or another craft, held against a craft line by line, and what comes of adopting some of it. */
import type { MappedControl } from "../../logic/handset-mapping.ts";
import { controlsOf } from "../../logic/rename-controls.ts";
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { MappingRow } from "../../protocol/map-controls.ts";
import type { ReviewRow } from "../../protocol/review.ts";
import { differencesOf, sectionOf } from "../compare/compare.ts";
import { type Adopted, type AdoptScope, adopted } from "./adoption.ts";
import { isPreselected } from "./danger.ts";
import { shownText, withoutHidden } from "./hidden.ts";
import { type Measure, measuresFor } from "./measure.ts";
import type { Offer } from "./offer.ts";
import { asNow, type FoundAfter, foundIn, isGrave, type Outcome, outcomeOf } from "./outcome.ts";
import { withoutHarm } from "./preselect.ts";
import { isOfHandset, type Laid, type Row, rowsOf, sentences } from "./rows.ts";
import { type Target, targetsOf } from "./targets.ts";
import { forOurControls, theirControls } from "./their-controls.ts";
import { unlikeParts, warningsOf } from "./warnings.ts";

export interface ReviewQuery {
  readonly purpose: "review" | "carry";
  /** Names of rows; null for what is chosen before anybody has looked. */
  readonly chosen: readonly string[] | null;
  /** By control of theirs: what the pilot chose for it; null leaves it as it is. */
  readonly mapping: Readonly<Record<string, string | null>>;
  /** Null for the craft itself. */
  readonly into: FilePath | null;
  readonly dialect: string;
}

export interface Review {
  readonly rows: readonly (Row & { readonly written: string; readonly chosen: boolean })[];
  readonly warnings: readonly string[];
  readonly mapping: readonly MappingRow[];
  readonly targets: readonly Target[];
  readonly into: FilePath;
  readonly outcome: Outcome;
  readonly measure: readonly Measure[];
  readonly adopted: Adopted;
}

/** What comes of adopting some names. */
interface Trial {
  readonly result: Adopted;
  readonly outcome: Outcome;
}

/** What an offer would change on a craft, and the edits that adopt what is chosen of it. */
export function reviewOf(workspace: Workspace, mine: Craft, offer: Offer, query: ReviewQuery): Review {
  const { purpose, chosen } = query;
  const targets = targetsOf(workspace, mine);
  const target = targets.find(({ file }) => file === (query.into ?? mine.file)) ?? targets[0]!;
  const adoptedControls = new Set(
    (chosen ?? []).flatMap((what) => (sectionOf(what) === "controls" ? [what.slice("controls.".length)] : [])),
  );
  const controls = theirControls(mine, offer, query.mapping, adoptedControls);
  const script = forOurControls(workspace, mine, offer, controls.mapping, (what) => chosen?.includes(what) === true);
  const laid = laidOver(workspace, mine, script);
  const whole = offer.script.entries.some(({ section }) => isOfHandset(`${section}.`))
    ? laidOver(
        workspace,
        mine,
        forOurControls(workspace, mine, offer, [], () => true),
      )
    : laid;
  const rows = rowsOf({ workspace, mine, offer, laid, whole });

  const scope: AdoptScope = {
    workspace,
    mine,
    into: target.file,
    newLayer: target.kind === "new-layer" ? target.name : null,
    dialect: query.dialect.trim() || "board",
    noteMark: purpose === "carry" ? "carried over:" : "as pasted:",
  };
  const files = [mine.file, ...(target.kind === "layer" ? [target.file] : [])];
  const notes = notesOf(offer);
  const adopt = (whats: readonly string[], unknown: readonly Row[] = []) =>
    adopted(
      scope,
      (base, within) => (base === mine ? laid.craft : within.laidOver(base, script)),
      whats,
      unknown.flatMap((row) => row.unknown ?? []),
      notes,
    );
  const now = foundIn(workspace, files);
  const tried = new Map<string, Trial>();
  const tryWith = (whats: readonly string[]): Trial => {
    const key = whats.join("\n");
    const known = tried.get(key);
    if (known) return known;
    const result = adopt(whats);
    const made = { result, outcome: outcomeOf(now, files, result, new Set(whats)) };
    tried.set(key, made);
    return made;
  };

  const differing = rows.flatMap((row) => (row.class === "differs" || row.class === "dangerous" ? [row.what] : []));
  const ours = differing.filter((what) => !isOfHandset(what));
  const all = tryWith(ours);
  const left = new Map([...all.result.left, ...handsetsLeft(scope, rows, whole)]);
  const about = {
    purpose,
    catalogue: workspace.catalogue,
    isGuessed: guessedBy(offer, controls.mapping),
    hasSection: (section: string) => mine.settings.has(section),
    ...unlikeParts(mine, offer),
  };
  // What a text only takes away may be all that the pilot has: that is his to say.
  const taking = new Set(rows.flatMap(({ what, theirs }) => (theirs === null ? [what] : [])));
  const preferred = ours.filter((what) => !left.has(what) && !taking.has(what) && isPreselected(what, about));
  const { chosen: preselected, harmful } = withoutHarm(preferred, (whats) => tryWith(whats).outcome);
  const ofAll = new Map(all.outcome.findings.filter(isGrave).map((each) => [each.what, each]));
  const found = (what: string) => harmful.get(what) ?? (preferred.includes(what) ? undefined : ofAll.get(what));

  const wanted = new Set(chosen ?? preselected);
  const finished = rows
    .map((row) => ({ ...withFinding(row, found(row.what)), notTaken: row.notTaken ?? left.get(row.what) ?? null }))
    .map((row) => ({
      ...row,
      written: row.lines.map((line) => shownText(offer.lines[line]!)).join("\n"),
      chosen: wanted.has(row.what) && row.notTaken === null && row.class !== "same",
    }));
  const taken = finished.filter((row) => row.chosen);
  const whats = taken.flatMap((row) => (row.class === "unknown" ? [] : [row.what]));
  const kept = taken.filter((row) => row.unknown !== null);
  const result = kept.length > 0 ? adopt(whats, kept) : tryWith(whats).result;
  const outcome = kept.length > 0 ? outcomeOf(now, files, result, new Set(whats)) : tryWith(whats).outcome;
  return {
    rows: sorted(finished),
    warnings: warningsOf(mine, offer, unlike(controls.rows)),
    mapping: controls.rows,
    targets,
    into: target.file,
    outcome: { ...outcome, findings: outcome.findings.map((each) => asNow(each, result)) },
    measure: purpose === "carry" ? measuresFor(mine, result.after.craftLike(mine.file) ?? mine) : [],
    adopted: result,
  };
}

/** Whether a name rests on a control that only stands in because it was left over. */
function guessedBy({ script }: Offer, mapping: readonly MappedControl[]): (what: string) => boolean {
  const left = new Set(mapping.flatMap(({ by, from }) => (by === "left" ? [from] : [])));
  if (left.size === 0) return () => false;
  const guessed = new Set(
    script.entries.flatMap((each) =>
      controlsOf(each).some((name) => left.has(name)) ? [`${each.section}.${each.name}`] : [],
    ),
  );
  return (what) => guessed.has(what);
}

function laidOver(workspace: Workspace, mine: Craft, script: Offer["script"]): Laid {
  const craft = workspace.laidOver(mine, script);
  const differences = differencesOf(mine, craft, workspace.catalogue);
  return { craft, differences: new Map(differences.map((each) => [each.what, each])) };
}

/** What an offer says of a handset and cannot be taken, with the reason. */
function handsetsLeft(scope: AdoptScope, rows: readonly Row[], whole: Laid): ReadonlyMap<string, string> {
  const whats = rows.flatMap(({ what, class: of }) => (isOfHandset(what) && of !== "same" ? [what] : []));
  return adopted(
    { ...scope, newLayer: scope.newLayer },
    (base, within) => (base === scope.mine ? whole.craft : within.laidOver(base, whole.craft.scripts.at(-1)!)),
    whats,
    [],
    new Map(),
  ).left;
}

function withFinding(row: Row, finding: FoundAfter | undefined): Row {
  if (!finding || row.class === "same" || row.class === "unknown") return row;
  const kind = finding.severity === "error" ? "error" : "warning";
  return {
    ...row,
    class: "dangerous",
    words: sentences(row.words, `It would bring a new ${kind}: ${finding.message}`),
  };
}

/** The offer's own comments by name, each of all lines of that name. */
function notesOf({ script }: Offer): ReadonlyMap<string, string> {
  const notes = new Map<string, string>();
  for (const { section, name, line } of script.entries) {
    const text = noteText(script.noteOf(line).text);
    const what = `${section}.${name}`;
    const before = notes.get(what);
    if (text !== "" && before !== text) notes.set(what, before === undefined ? text : `${before}\n${text}`);
  }
  return notes;
}

/** A comment as it comes along: without hidden characters, and without lines that only say where a value comes from. */
function noteText(text: string): string {
  return text
    .split("\n")
    .map(withoutHidden)
    .filter((line) => !/^(?:(?:\S+\.fettle:|line )\d+(?:, )?)+$/.test(line.trim()))
    .join("\n");
}

function unlike(rows: readonly MappingRow[]): readonly string[] {
  return rows.map(({ from }) => from);
}

const RANK: Readonly<Record<ReviewRow["class"], number>> = { dangerous: 0, differs: 1, same: 2, unknown: 3 };

function sorted<T extends Row>(rows: readonly T[]): readonly T[] {
  return [...rows].sort((a, b) => RANK[a.class] - RANK[b.class] || (a.lines[0] ?? 0) - (b.lines[0] ?? 0));
}
