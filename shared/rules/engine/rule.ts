/** What a rule is: its code, its prose, its examples, and how it looks at a file or a craft. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Source } from "../../model/craft.ts";
import type { Allowance, Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Severity } from "../../protocol/findings.ts";
import type { Cols, Fix } from "../../syntax/span.ts";

/** A place in some file: a line, and the columns in it. */
export interface Location extends Cols {
  readonly source: Source;
}

/** What a rule reports. The engine decides where it is shown, and whether a note accepts it. */
export interface Report {
  readonly at: Location;
  readonly message: string;
  /** If it differs from the rule's own. */
  readonly severity?: Severity;
  readonly related?: readonly { readonly message: string; readonly at: Location }[];
  /** Repairs in the file that the finding is about. */
  readonly fixes?: readonly Fix[];
  readonly witness?: Readonly<Record<string, string | number>>;
  /** Lines besides `at` whose notes may accept the finding. */
  readonly alsoOf?: readonly Source[];
}

/** One or more files by path; the first is the one that is checked. */
export type ExampleFiles = Readonly<Record<string, string>>;

/** A setting as SECTION.NAME. Of a second set, such as `gains-second`, the name in the first set stands for both. */
export type SettingName = `${string}.${string}`;

/** All names of the catalogue with a common property, including names that are added later. */
export interface NameGroup {
  /** As it continues “It looks at”: “every port”. */
  readonly words: string;
  names(catalogue: Catalogue): readonly string[];
}

/**
 * The names on which the findings of a rule depend, except what it takes from all lines alike, and what
 * any reasoning about switches needs to know of the link. `tests/rules/engine/looks-at.test.ts` compares
 * this with what the check asks for.
 */
export interface LooksAt {
  readonly settings?: readonly (SettingName | NameGroup)[];
  readonly modes?: readonly (string | NameGroup)[];
  readonly elements?: readonly (string | NameGroup)[];
}

export type LookedAtKind = keyof LooksAt;

interface RuleFacts {
  readonly code: string;
  readonly severity: Severity;
  /** One sentence: when it fires. */
  readonly summary: string;
  /** What is wrong, why it matters, what to do. */
  readonly prose: string;
  readonly examples: {
    readonly bad: ExampleFiles;
    readonly good: ExampleFiles;
    /** The craft of the examples that are flown at the same time, where the rule has to be told. */
    readonly together?: readonly string[];
  };
  /**
   * False if a finding says that something was not understood, since a note that accepts it would hide
   * further errors; and if it is about what notes accept.
   */
  readonly acceptable?: false;
  /**
   * True if its findings rest on more than scripts, such as their history or what a command was told: whether
   * a note silences one of them is then not known.
   */
  readonly restsOnMore?: true;
}

interface FileFacts {
  /** True if a file with such a finding does not give its users what they expect: `use-broken` reports it on their `use` lines. */
  readonly blocksUse?: true;
  /** True if it also runs on a file in a newer edition, of which only the header is read. */
  readonly readsNewer?: true;
}

/** What a rule of single files may ask about all others. */
export interface OtherRules {
  /** The codes of all rules. */
  readonly codes: readonly string[];
  /** Whether a note may accept findings of a code. */
  mayAccept(code: string): boolean;
  /** The allowances of a file that silence nothing, in it or in any craft that uses it; none where that is not known. */
  idle(script: Script): readonly Allowance[];
  /** True if a rule with `blocksUse` has a finding in a file that no note accepts. */
  blockUse(script: Script): boolean;
}

export interface FileRule extends RuleFacts, FileFacts {
  readonly scope: "file";
  check(script: Script, workspace: Workspace, others: OtherRules): readonly Report[];
  /** What it reports, at the craft, about a handset that replaces the craft's own. */
  checkStandIn?(craft: Script, handset: Script, workspace: Workspace, others: OtherRules): readonly Report[];
}

interface CraftFacts {
  readonly looksAt: LooksAt;
  /**
   * What the findings rest on besides the files of the craft, such as what another file says: the same value for as
   * long as that has not changed, since findings are kept by craft.
   */
  readonly restsOn?: (craft: Craft, workspace: Workspace) => unknown;
}

export interface CraftRule extends RuleFacts, CraftFacts {
  readonly scope: "craft";
  check(craft: Craft, workspace: Workspace): readonly Report[];
}

/** A rule that checks both single files and a whole craft. */
export interface BothRule extends RuleFacts, FileFacts, CraftFacts {
  readonly scope: "both";
  checkFile(script: Script, workspace: Workspace): readonly Report[];
  checkCraft(craft: Craft, workspace: Workspace): readonly Report[];
}

export type Rule = FileRule | CraftRule | BothRule;
