/** Counts how craft that share a handset turn their modes on. What was read of a craft is kept until one of its files changes. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import type { FileAnswer, FilePath, FileView } from "../../model/files.ts";
import type { FleetHabits, HabitPlace, HabitVote, SharedHabits } from "../../model/habits.ts";
import { knownPart } from "../../model/known-part.ts";
import type { Core, Workspace } from "../../model/workspace.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { habitPlace } from "./habit-places.ts";
import { habitTexts } from "./habit-texts.ts";

/** The habits of all craft at one moment. */
export interface CountedHabits {
  /** Null for what is no craft, or has no handset. */
  of(file: FilePath): FleetHabits | null;
}

export interface HabitCounter {
  /**
   * A step is one file. Every file that a craft uses should have been read. `coreOf` gives what reads a craft; that
   * of one catalogue each time, and another one where what it remembers has become too much.
   */
  count(view: FileView, coreOf: () => Core, files: readonly FilePath[]): Steps<CountedHabits>;
}

/** What one craft counts for. */
interface Ballot {
  readonly name: string;
  readonly handset: FilePath;
  readonly places: ReadonlyMap<string, HabitPlace>;
}

interface Read {
  readonly catalogue: Catalogue;
  /** What was read for it, and what paths were found to lead to. */
  readonly answers: ReadonlyMap<FilePath, FileAnswer | undefined>;
  readonly realPaths: ReadonlyMap<FilePath, FilePath>;
  readonly ballot: Ballot | null;
}

/** More conditions than a fleet has: beyond them what was worked out is let go. */
const MOST_PLACES = 20_000;

/** Nothing read yet. */
export function makeHabitCounter(): HabitCounter {
  const known = new Map<FilePath, Read>();
  let places = new Map<string, HabitPlace | null>();
  return {
    *count(view, coreOf, files) {
      const { catalogue } = coreOf();
      if (places.size > MOST_PLACES) places = new Map();
      const listed = new Set(files.map(view.realPath));
      for (const file of known.keys()) if (!listed.has(file)) known.delete(file);
      for (const file of listed) {
        yield;
        const before = known.get(file);
        if (!before || before.catalogue !== catalogue || !isAsBefore(before, view))
          known.set(file, readNow(file, view, coreOf(), places));
      }
      return countedOf(known, places);
    },
  };
}

function isAsBefore({ answers, realPaths }: Read, view: FileView): boolean {
  for (const [path, answer] of answers) if (view.read(path) !== answer) return false;
  for (const [path, real] of realPaths) if (view.realPath(path) !== real) return false;
  return true;
}

function readNow(file: FilePath, view: FileView, core: Core, places: Map<string, HabitPlace | null>): Read {
  const answers = new Map<FilePath, FileAnswer | undefined>();
  const realPaths = new Map<FilePath, FilePath>();
  const workspace = core.at({
    ...view,
    read(path) {
      const answer = view.read(path);
      answers.set(path, answer);
      return answer;
    },
    realPath(path) {
      const real = view.realPath(path);
      realPaths.set(path, real);
      return real;
    },
  });
  const script = workspace.script(file);
  const craft = script && !script.tree.newer ? workspace.craft(file) : null;
  const ballot = craft?.handset
    ? ballotOf(knownPart(craft, core.catalogue), craft.handset.file, workspace, places)
    : null;
  return { catalogue: core.catalogue, answers, realPaths, ballot };
}

function ballotOf(
  craft: Craft,
  handset: FilePath,
  workspace: Workspace,
  known: Map<string, HabitPlace | null>,
): Ballot {
  const found = new Map<string, HabitPlace>();
  for (const [mode, text] of habitTexts(craft)) {
    const key = placeKey(handset, mode, text);
    let place = known.get(key);
    if (place === undefined) {
      place = habitPlace(craft, workspace, mode);
      known.set(key, place);
    }
    if (place) found.set(mode, place);
  }
  return { name: craft.name, handset, places: found };
}

/** By what a place is known once it was worked out: whether a mode arms or not makes a difference. */
export function placeKey(handset: FilePath, mode: string, text: string): string {
  return `${mode === "arm" ? "arm" : "mode"}\n${handset}\n${text}`;
}

/** As many craft as are told by name. */
export const MOST_NAMES = 2;

interface Counting {
  readonly place: HabitPlace;
  count: number;
  readonly first: { readonly file: FilePath; readonly name: string }[];
}

function countedOf(known: ReadonlyMap<FilePath, Read>, places: SharedHabits["places"]): CountedHabits {
  const groups = new Map<FilePath, Map<string, Map<string, Counting>>>();
  // What is known changes step by step while the craft are counted again: this count keeps what it was made of.
  const ballots = new Map<FilePath, Ballot>();
  for (const file of [...known.keys()].sort()) {
    const { ballot } = known.get(file)!;
    if (!ballot) continue;
    ballots.set(file, ballot);
    const modes = entryOf(groups, ballot.handset, () => new Map<string, Map<string, Counting>>());
    for (const [mode, place] of ballot.places) {
      const byPlace = entryOf(modes, mode, () => new Map<string, Counting>());
      const vote = entryOf(byPlace, place.key, (): Counting => ({ place, count: 0, first: [] }));
      vote.count++;
      if (vote.first.length <= MOST_NAMES) vote.first.push({ file, name: ballot.name });
    }
  }
  const shared = new Map<FilePath, SharedHabits>();
  for (const [handset, modes] of groups) {
    const votes = new Map([...modes].map(([mode, byPlace]) => [mode, [...byPlace.values()]] as const));
    shared.set(handset, { votes, places });
  }
  const told = new Map<FilePath, FleetHabits>();
  return {
    of(file) {
      const ballot = ballots.get(file);
      if (!ballot) return null;
      return entryOf(told, file, () => habitsOf(ballot, shared.get(ballot.handset)!));
    },
  };
}

function habitsOf({ handset, places: own }: Ballot, shared: SharedHabits): FleetHabits {
  const id: string[] = [];
  for (const [mode, place] of own) {
    const most = mostOf(shared.votes.get(mode)!);
    if (most && most.vote.place.key !== place.key)
      id.push(
        `${mode}: ${most.vote.count} of ${most.of}, ${most.vote.place.key}, ${most.vote.first.map(({ name }) => name).join(", ")}`,
      );
  }
  return { ...shared, handset, own, id: id.join("\n") };
}

/** The place on more than half of those that have one; null without such a place. */
export function mostOf(votes: readonly HabitVote[]): { readonly vote: HabitVote; readonly of: number } | null {
  const of = votes.reduce((sum, { count }) => sum + count, 0);
  const vote = votes.find(({ count }) => 2 * count > of);
  return vote ? { vote, of } : null;
}

function entryOf<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}

/** A view with the habits of some of its files, counted at once where they are first asked for. */
export function withHabits(view: FileView, core: Core, files: () => readonly FilePath[]): FileView {
  let counted: CountedHabits | null = null;
  return {
    ...view,
    habits(file) {
      counted ??= finish(makeHabitCounter().count(view, () => core, files()));
      return counted.of(file);
    },
  };
}
