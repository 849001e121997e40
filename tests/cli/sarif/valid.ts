/** SARIF logs held to the schema of OASIS, and what tests look for in them. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type Draft4 from "ajv-draft-04";
import { sarifText } from "../../../server/src/cli/sarif.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

const require = createRequire(import.meta.url);
// The schema is of draft 4, which plain ajv refuses.
const Ajv = require("ajv-draft-04").default as typeof Draft4;
const schema = JSON.parse(
  readFileSync(require.resolve("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"), "utf8"),
);
const validate = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile(schema);

/** What a log says wrong by the schema; nothing where it is valid. */
export function faultsOf(log: unknown): string[] {
  validate(log);
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

export interface SarifRegion {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface SarifResult {
  readonly ruleId: string;
  readonly message: { readonly text: string };
  readonly locations: readonly {
    readonly physicalLocation: { readonly artifactLocation: { readonly uri: string }; readonly region: SarifRegion };
  }[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly fixes?: readonly {
    readonly description: { readonly text: string };
    readonly artifactChanges: readonly {
      readonly artifactLocation: { readonly uri: string };
      readonly replacements: readonly {
        readonly deletedRegion: SarifRegion;
        readonly insertedContent?: { readonly text: string };
      }[];
    }[];
  }[];
}

/** The log of some files in memory, whose folder is the first part of their paths. */
export function logOf(workspace: Workspace, files: readonly string[], folder: string) {
  const text = sarifText({
    findings: files.flatMap((file) => findingsOf(workspace, file)),
    opened: files.map((file) => ({ file, workspace })),
    handset: undefined,
    levels: new Map(),
    folder,
    isChange: false,
    refused: [],
    nameOf: (file) => (file.startsWith(`${folder}/`) ? file.slice(folder.length + 1) : file),
  });
  return JSON.parse(text) as { runs: [{ results: SarifResult[] }] };
}

export function printOf({ partialFingerprints }: SarifResult): string {
  return Object.values(partialFingerprints).join();
}

interface Edit {
  readonly range: { readonly start: Position; readonly end: Position };
  readonly text: string;
}

interface Position {
  readonly line: number;
  readonly character: number;
}

/** A text with some replacements made, all of which are meant for it as it was. */
export function edited(text: string, edits: readonly Edit[]): string {
  const starts = [0, ...[...text.matchAll(/\r\n|\r|\n/g)].map((end) => end.index + end[0].length)];
  const offset = ({ line, character }: Position) => (starts[line] ?? text.length) + character;
  return edits
    .map((edit) => ({ from: offset(edit.range.start), to: offset(edit.range.end), text: edit.text }))
    .sort((a, b) => b.from - a.from || b.to - a.to)
    .reduce((now, each) => now.slice(0, each.from) + each.text + now.slice(each.to), text);
}
