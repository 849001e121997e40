/** Findings in SARIF 2.1.0 (OASIS), as services that gather findings of many tools read them. */
import { createHash } from "node:crypto";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { identityOf } from "../../../shared/ide/changes/identity.ts";
import { pageOfNamed } from "../../../shared/ide/reference/page.ts";
import { inOrder } from "../../../shared/ide/reports/check-report.ts";
import type { RuleLevel, RuleLevels } from "../../../shared/model/rule-levels.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { encodedPart } from "../../../shared/protocol/addresses.ts";
import type { Finding, PlaceRange, Severity } from "../../../shared/protocol/findings.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { visibleNotice } from "../../../shared/text/visible-text.ts";
import type { Opened } from "./scripts.ts";
import { version } from "./version.ts";

const LEVELS: Readonly<Record<Severity, "error" | "warning" | "note">> = {
  error: "error",
  warning: "warning",
  info: "note",
  hint: "note",
};

/** Where relative addresses begin: services put the folder of the sources in its place. */
const ROOT = "%SRCROOT%";

/** What a log is made of. */
export interface SarifRun {
  readonly findings: readonly Finding[];
  /** The scripts that were checked. */
  readonly opened: readonly Opened[];
  readonly handset: string | undefined;
  readonly levels: RuleLevels;
  /** The working folder, from which files are named. */
  readonly folder: string;
  /** True where only those findings are given that an earlier state did not have. */
  readonly isChange: boolean;
  /** Why other files were not checked. */
  readonly refused: readonly string[];
  nameOf(file: string): string;
}

/**
 * The text of one SARIF log with one run, each rule configured as its level is. Lines and columns count from 1, in
 * UTF-16 units. A finding keeps its fingerprint where its line moves or is laid out anew.
 */
export function sarifText(run: SarifRun): string {
  const indexes = new Map(rules.map(({ code }, i) => [code, i]));
  const fingerprint = fingerprints(run);
  const found = run.findings.map((finding) => ({ finding, ...finding, file: run.nameOf(finding.file) })).sort(inOrder);
  const log = {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "fettle",
            semanticVersion: version,
            version,
            rules: described().map(({ severity, ...rule }) => ({
              ...rule,
              defaultConfiguration: configurationAt(run.levels.get(rule.id) ?? severity),
            })),
          },
        },
        invocations: [
          {
            executionSuccessful: run.refused.length === 0,
            ...(run.refused.length > 0 && {
              toolExecutionNotifications: run.refused.map((text) => ({
                level: "error",
                message: { text: visibleNotice(text) },
              })),
            }),
          },
        ],
        originalUriBaseIds: { [ROOT]: { uri: `${uriOf(run.folder).replace(/\/$/, "")}/` } },
        columnKind: "utf16CodeUnits",
        // A line of a script also ends with a CR alone.
        newlineSequences: ["\r\n", "\n", "\r"],
        results: found.map(({ finding }) => sarifResult(finding, indexes.get(finding.code) ?? -1, run, fingerprint)),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

let descriptions: ReturnType<typeof descriptionsOf> | null = null;

/** The rules with their pages, which are the same in every log. */
function described() {
  descriptions ??= descriptionsOf();
  return descriptions;
}

function descriptionsOf() {
  const catalogue = makeCatalogue();
  return rules.map(({ code, severity, summary, prose }) => ({
    id: code,
    severity,
    shortDescription: { text: summary },
    fullDescription: { text: prose },
    help: { text: prose, markdown: pageOfNamed(catalogue, { kind: "rule", name: code }) },
  }));
}

/** A rule that is off is not enabled; services then know that its findings were not looked for. */
function configurationAt(level: RuleLevel) {
  return level === "off" ? { enabled: false, level: "none" } : { level: LEVELS[level] };
}

function sarifResult(finding: Finding, ruleIndex: number, run: SarifRun, fingerprint: (of: Finding) => string) {
  const { code, severity, message, file, range, related } = finding;
  const fixes = fixesOf(finding, run);
  return {
    ruleId: code,
    ruleIndex,
    level: LEVELS[severity],
    // A viewer makes a link of “[words](address)”, which a text of a script may hold.
    message: { text: visibleNotice(message) },
    locations: [{ physicalLocation: physicalLocation(file, range, run) }],
    ...(run.isChange && { baselineState: "new" }),
    partialFingerprints: { "fettleFinding/v1": fingerprint(finding) },
    ...(related.length > 0 && {
      relatedLocations: related.map((each, id) => ({
        id,
        message: { text: visibleNotice(each.message) },
        physicalLocation: physicalLocation(each.file, each.range, run),
      })),
    }),
    ...(fixes.length > 0 && { fixes }),
  };
}

/** The quick fixes of the editor: what each replaces, file by file. */
function fixesOf({ fixes }: Finding, run: SarifRun) {
  return fixes
    .filter(({ edits }) => edits.length > 0)
    .map(({ title, edits }) => ({
      description: { text: visibleNotice(title) },
      artifactChanges: [...new Set(edits.map(({ file }) => file))].map((file) => ({
        artifactLocation: artifactLocation(file, run),
        replacements: edits
          .filter((each) => each.file === file)
          .map(({ range, text }) => ({
            deletedRegion: regionOf(range),
            ...(text !== "" && { insertedContent: { text } }),
          })),
      })),
    }));
}

function physicalLocation(file: string, range: PlaceRange, run: SarifRun) {
  return { artifactLocation: artifactLocation(file, run), region: regionOf(range) };
}

function artifactLocation(file: string, { nameOf }: SarifRun) {
  const uri = uriOf(nameOf(file));
  // Standard input lies in no folder, and a file outside of the working one has its whole address.
  return uri === "-" || uri.startsWith("file:") ? { uri } : { uri, uriBaseId: ROOT };
}

function regionOf({ start, end }: PlaceRange) {
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

/** A relative path stays relative; an absolute one, with or without a drive, becomes a file URI. */
function uriOf(file: string): string {
  const escaped = file.split("/").map(encodedPart).join("/");
  if (file.startsWith("/")) return `file://${escaped}`;
  return /^[A-Za-z]:\//.test(file) ? `file:///${escaped.replace("%3A", ":")}` : escaped;
}

/**
 * What a finding is known by in another log: what it is about and what it says, and of several alike which of them.
 * It is counted among all findings of the file, so that a log of some has the fingerprints of a log of all.
 */
function fingerprints({ opened, handset, nameOf }: SarifRun): (finding: Finding) => string {
  const workspaces = new Map(opened.map(({ file, workspace }) => [file, workspace]));
  const known = new Map<string, string[]>();
  const counted = new Set<string>();
  return (finding) => {
    const { file } = finding;
    const workspace = workspaces.get(file);
    if (workspace && !counted.has(file)) {
      counted.add(file);
      const seen = new Map<string, number>();
      for (const each of findingsOf(workspace, file, handset)) {
        const key = `${nameOf(file)}\n${subjectOf(each, workspace)}`;
        const count = seen.get(key) ?? 0;
        seen.set(key, count + 1);
        const print = createHash("sha256").update(`${key}\n${count}`).digest("hex").slice(0, 32);
        known.set(placeKey(each), [...(known.get(placeKey(each)) ?? []), print]);
      }
    }
    const prints = known.get(placeKey(finding))!;
    return prints.length > 1 ? prints.shift()! : prints[0]!;
  };
}

function placeKey({ file, code, range, message }: Finding): string {
  return JSON.stringify([file, code, range, message]);
}

/** A line of which a section may hold several is known by what it says as well. */
function subjectOf(finding: Finding, workspace: Workspace): string {
  const { code, section, name, words, text } = identityOf(finding, workspace);
  const isOneOfMany =
    name === "" || workspace.catalogue.setting(section.replace(/\/.*/, ""), name)?.repeatable === true;
  return JSON.stringify([code, section, name, words, isOneOfMany ? text : ""]);
}
