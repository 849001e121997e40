/**
 * What a rule declares that it looks at is what its check asks a craft for, in its own examples, in the craft
 * of the fixtures, and in one craft for each mode:
 *
 * - what it asks for by name, it declares. Shared readers (packs, filters, the switchboard) take in much at
 *   once of which a rule may need little: what those ask for is not held against it.
 * - what it declares, it asked for somewhere, itself or through such a reader.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { boardOf } from "../../../shared/logic/from-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { filtersOf } from "../../../shared/numbers/filters-of.ts";
import { loopOf } from "../../../shared/numbers/loop-of.ts";
import { packsOf } from "../../../shared/numbers/pack-of.ts";
import { videoOf } from "../../../shared/numbers/radio-of.ts";
import { declaredNames } from "../../../shared/rules/engine/looks-at.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import type { BothRule, CraftRule, ExampleFiles, LookedAtKind } from "../../../shared/rules/engine/rule.ts";
import { exampleView } from "../example-view.ts";
import { recordedCraft } from "./recorded-craft.ts";

type WholeCraftRule = CraftRule | BothRule;
type Names = Record<LookedAtKind, Set<string>>;

const KINDS: readonly LookedAtKind[] = ["settings", "modes", "elements"];
const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const wholeCraftRules = rules.filter((rule): rule is WholeCraftRule => rule.scope !== "file");

/** Names that a check asks for by name although nothing that it finds depends on them. */
const ASKED_IN_VAIN: readonly { readonly rules: string; readonly names: string; readonly why: string }[] = [
  {
    rules:
      "arm-on-low-pulse channel-beyond condition-never descend-blind endpoints-off failsafe-holds-arm levels-lost thin-margin thrust-odd hover-doubtful",
    names: "link.channels link.endpoints link.on-loss link.preset-channels link.resolution link.two-level",
    why: "linkOf reads all that is said of the link",
  },
  { rules: "arm-tilt-open", names: "pack.cells", why: "sizeOfCraft reads both sizes, and it needs the propellers" },
  {
    rules: "meter-off",
    names: "pack.adc-bits pack.adc-reference pack.shunt-gain pack.shunt-offset",
    why: "a meter is read whole, and its scale is one part of it",
  },
  { rules: "divider-clips shunt-clips", names: "pack.adc-bits", why: "a meter is read whole, with its smallest step" },
  { rules: "fleet-habit", names: "link.endpoints link.two-level", why: "which pulses arrive is part of the board" },
  { rules: "condition-tangled", names: "finder.sounder", why: "which mode goes before another is part of the board" },
  {
    rules: "port-clash",
    names: "ports.bench-speed ports.cable-powers ports.gps-speed ports.receiver-one-wire ports.recorder-speed",
    why: "it goes through every line of the section, of which only those of ports say a use",
  },
  {
    rules: "unusual-value",
    names: "motors.kv",
    why: "it looks at every value alike, and this one stands in its example",
  },
];

/** What no fixture says, or not in such a way that a check goes on to ask for the rest. */
const MORE: ExampleFiles = {
  "jug.fettle": `craft "Jug"
use "wheel.fettle"
use "tune.fettle"
link
  on-loss preset
  preset-channels 1500 us, 1500 us, 1400 us, 1500 us, 2000 us
modes
  arm when TL is down
frame
  hover-throttle 30 %
failsafe
  then descend
  descend-throttle 1200 us
filters
  notch at 180 Hz width 10 Hz
  tracking-notches count 1 floor 100 Hz ceiling 600 Hz width 20 Hz
  moving-cut idle 350 Hz full 800 Hz
  moving-cut-d idle 220 Hz full 400 Hz
  smooth-yaw 90 Hz
gains
  d-fast roll 0.8
  overall 1.1
pack
  cells 4
pack "Long"
  cells 6
  pack-mass 200 g
`,
  "cup.fettle":
    'craft "Cup"\nuse "wheel.fettle"\nlink\n  on-loss preset\nmodes\n  arm when TL is down\n  arm-permit when TL is down\n',
  "jar.fettle":
    'craft "Jar"\nframe\n  hover-throttle 1300 us\n  propeller-diameter 8 in\nsafety\n  arm-tilt-limit any\nfailsafe\n  then stop\n  then-without-fix descend\nnavigation\n  fence-distance 200 m\n  fence-does warn\n',
  "tune.fettle": 'layer "Tune"\nfilters\n  notch at 180 Hz width 20 Hz\ngains\n  overall 1\n',
  "wheel.fettle": 'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n',
};

function filesIn(folder: string): ExampleFiles {
  const path = inProject("tests/fixtures", folder);
  return Object.fromEntries(readdirSync(path).map((name) => [name, readFileSync(`${path}/${name}`, "utf8")]));
}

const oneCraftAMode = catalogue.modes.map(({ name }) => ({
  "jug.fettle": `craft "Jug"\n\nuse "wheel.fettle"\n\nports\n  port1 receiver\n\nmodes\n  ${name} when TL is down\n`,
  "wheel.fettle": MORE["wheel.fettle"]!,
}));

interface Known {
  readonly craft: Craft;
  readonly workspace: Workspace;
}

function craftsIn(files: ExampleFiles, view = memoryFiles(files)): Known[] {
  const workspace = core.at(view);
  return Object.keys(files).flatMap((file) => {
    const craft = workspace.craft(file);
    return craft ? [{ craft, workspace }] : [];
  });
}

const everyCraft = [filesIn("sane"), filesIn("shelf"), MORE, ...oneCraftAMode].flatMap((files) => craftsIn(files));

/** What shared readers make of a craft: computed beforehand, it is taken from the craft's memory. */
function readBeforehand(craft: Craft, workspace: Workspace): void {
  boardOf(craft, workspace);
  for (const reader of [packsOf, filtersOf, loopOf, videoOf]) reader(craft, catalogue);
}

function check(rule: WholeCraftRule, craft: Craft, workspace: Workspace): void {
  if (rule.scope === "craft") rule.check(craft, workspace);
  else rule.checkCraft(craft, workspace);
}

/** What a rule asks for in some craft: by name itself, and in any way, also through the shared readers. */
function askedBy(rule: WholeCraftRule): { itself: Names; atAll: Names } {
  const itself = noNames();
  const atAll = noNames();
  const { bad, good } = rule.examples;
  const examples = [bad, good].flatMap((files) => craftsIn(files, exampleView(rule, files, core)));
  for (const { craft, workspace } of [...examples, ...everyCraft]) {
    let hearing: Craft | null = null;
    // Each is deaf before and after: what outlives one check is compared with by the next.
    const read = recordedCraft(craft, catalogue, (kind, name, how) => {
      if (hearing !== read) return;
      if (how === "by name") itself[kind].add(name);
      atAll[kind].add(name);
    });
    readBeforehand(read, workspace);
    hearing = read;
    check(rule, read, workspace);
    const unread = recordedCraft(craft, catalogue, (kind, name) => {
      if (hearing === unread) atAll[kind].add(name);
    });
    hearing = unread;
    check(rule, unread, workspace);
    hearing = null;
  }
  return { itself, atAll };
}

function noNames(): Names {
  return { settings: new Set(), modes: new Set(), elements: new Set() };
}

function isName(kind: LookedAtKind, name: string): boolean {
  if (kind === "modes") return catalogue.mode(name) !== undefined;
  if (kind === "elements") return catalogue.element(name) !== undefined;
  const [section = "", setting = ""] = name.split(".");
  return catalogue.setting(section, setting) !== undefined;
}

test("every declared name is in the catalogue", () => {
  const unknown = wholeCraftRules.flatMap(({ code, looksAt }) =>
    KINDS.flatMap((kind) =>
      declaredNames(looksAt, kind, catalogue)
        .filter((name) => !isName(kind, name))
        .map((name) => `${code}: ${name}`),
    ),
  );
  expect(unknown).toEqual([]);
});

/** Declared names of which none was asked for: each name by itself, each group as one. */
function neverAsked(rule: WholeCraftRule, kind: LookedAtKind, asked: ReadonlySet<string>): string[] {
  return (rule.looksAt[kind] ?? []).flatMap((each) => {
    if (typeof each === "string") return asked.has(each) ? [] : each;
    return each.names(catalogue).some((name) => asked.has(name)) ? [] : each.words;
  });
}

function askedInVain(code: string): string[] {
  return ASKED_IN_VAIN.flatMap(({ rules, names }) => (rules.split(" ").includes(code) ? names.split(" ") : []));
}

test.each(wholeCraftRules.map((rule) => [rule.code, rule] as const))("%s looks at what it asks for", (code, rule) => {
  const { itself, atAll } = askedBy(rule);
  const inVain = askedInVain(code);
  for (const kind of KINDS) {
    const declared = declaredNames(rule.looksAt, kind, catalogue);
    const undeclared = [...itself[kind]].filter((name) => isName(kind, name) && !declared.includes(name));
    expect(undeclared.filter((name) => !inVain.includes(name)).sort(), `${kind} asked for and not declared`).toEqual(
      [],
    );
    expect(neverAsked(rule, kind, atAll[kind]), `${kind} declared and never asked for`).toEqual([]);
  }
  // An exception that is none any more goes.
  expect(inVain.filter((name) => !itself.settings.has(name))).toEqual([]);
});
