/** The findings of a document, as diagnostics. */
import type { CancellationToken } from "vscode-languageserver";
import { type Diagnostic, DiagnosticSeverity } from "vscode-languageserver-types";
import type { WordsProblem } from "../../../shared/ide/own-words/own-words.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import { findingSteps } from "../../../shared/rules/engine/engine.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import type { Documents } from "./documents.ts";
import { inSlicesOver } from "./slices.ts";
import { type PageOfRule, toDiagnostic, type UriOf } from "./to-lsp.ts";

/** The findings of one version of a document; null for one that is not open. */
export interface VersionedDiagnostics {
  readonly version: number | null;
  readonly diagnostics: Diagnostic[];
}

/** Waits for all files that the findings rest on; a text that is not read has one finding that says why. */
export async function diagnosticsOf(
  documents: Documents,
  uri: Uri,
  pageOfRule: PageOfRule,
  token?: CancellationToken,
): Promise<VersionedDiagnostics> {
  const file = await documents.loadForFindings(uri);
  const found = await inSlicesOver(documents, (now) => findingSteps(now, file), token);
  // Of the texts that are there after the last wait, as the findings are.
  const version = documents.version(uri);
  const why = documents.whyUnread(uri);
  const findings = why === null ? found : [unread(file, why)];
  return { version, diagnostics: toDiagnostics(findings, documents.uriOf, pageOfRule) };
}

/** The findings of a file among others, all that they rest on being read; null where there is no such file. */
export function* diagnosticsIn(
  workspace: Workspace,
  file: FilePath,
  uriOf: UriOf,
  pageOfRule: PageOfRule,
): Steps<Diagnostic[] | null> {
  const answer = workspace.view.read(file);
  if (answer?.kind === "unreadable") return toDiagnostics([unread(file, answer.why)], uriOf, pageOfRule);
  return answer?.kind === "text" ? toDiagnostics(yield* findingSteps(workspace, file), uriOf, pageOfRule) : null;
}

function toDiagnostics(findings: readonly Finding[], uriOf: UriOf, pageOfRule: PageOfRule): Diagnostic[] {
  const shown = gravest(findings).map((finding) => toDiagnostic(finding, uriOf, pageOfRule));
  return [...more(findings.length - shown.length), ...shown];
}

/** What is wrong in the pilot's own words, by the address of the file. */
export function wordsDiagnostics(problems: readonly WordsProblem[], uriOf: UriOf): Map<string, Diagnostic[]> {
  const told = new Map<string, Diagnostic[]>();
  for (const { file, range, where, message, severity } of problems) {
    const diagnostics = told.get(uriOf(file)) ?? [];
    told.set(uriOf(file), diagnostics);
    diagnostics.push({
      range,
      severity: severity === "error" ? DiagnosticSeverity.Error : DiagnosticSeverity.Warning,
      source: "fettle",
      message: visibleText(where === "" ? message : `${where}: ${message}`),
    });
  }
  return told;
}

/** The most findings that are sent: more than anyone reads. */
const MOST_FINDINGS = 1000;
const GRAVEST_FIRST = ["error", "warning", "info", "hint"];

/** The findings that are sent, in their order: if there are too many, the least severe are left out. */
function gravest(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length <= MOST_FINDINGS) return findings;
  const byWeight = GRAVEST_FIRST.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
  const kept = new Set(byWeight.slice(0, MOST_FINDINGS));
  return findings.filter((finding) => kept.has(finding));
}

const TOP = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Says how many findings are not shown, where there are such. */
function more(count: number): Diagnostic[] {
  if (count === 0) return [];
  const message = `${count} more findings are not shown: they appear as these are resolved.`;
  return [{ range: TOP, severity: DiagnosticSeverity.Information, source: "fettle", message }];
}

function unread(file: FilePath, why: string): Finding {
  const message = `This file was not read: ${why}`;
  return { code: "syntax", severity: "error", message, file, range: TOP, related: [], fixes: [] };
}

/** A short text that is the same for the same findings, also in another session: a hash (FNV-1a, 32 bits, over UTF-16 code units, twice with different beginnings). */
export function idOf(diagnostics: readonly Diagnostic[]): string {
  const text = JSON.stringify(diagnostics);
  const hash = (seed: number) => {
    let sum = seed;
    for (let i = 0; i < text.length; i++) sum = Math.imul(sum ^ text.charCodeAt(i), 0x01000193);
    return (sum >>> 0).toString(36);
  };
  return `${hash(0x811c9dc5)}-${hash(0x01000193)}`;
}
