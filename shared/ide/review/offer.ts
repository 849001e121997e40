/** What somebody offers for a craft: a script, whoever read it, and the lines that were not understood. */

import type { PlacedControl } from "../../logic/handset-mapping.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { scriptAnswer } from "../../model/script-limits.ts";
import { resolvePath } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { specOf } from "../../rules/lib/other-handset.ts";
import { splitLines } from "../../syntax/split-lines.ts";
import { withFile } from "../context/trial.ts";
import { type Cleaned, cleaned } from "./clean.ts";
import { faultsIn } from "./faults.ts";
import { isNoText, looksLike, SAYS_NOTHING } from "./looks-like.ts";

/** Lines that were not understood, and why. */
export interface Unknown {
  /** Of the offered text, from 0. */
  readonly lines: readonly number[];
  /** What they say, without what mail or git put around them: as it is kept. */
  readonly texts: readonly string[];
  readonly reason: string;
  /** Why they cannot even be kept as board text; null where they can. */
  readonly notKept: string | null;
}

/** Something that is held against a craft. Whoever reads another form of text makes one of these. */
export interface Offer {
  readonly name: string;
  /** Its lines as they were offered. */
  readonly lines: readonly string[];
  /** What is understood of it, without a fault. */
  readonly script: Script;
  /** The lines of the offered text from which a line of the script comes; none for one that was added. */
  linesOf(line: number): readonly number[];
  readonly unknown: readonly Unknown[];
  /** The controls for which its conditions were written, as far as they are known. */
  readonly controls: ReadonlyMap<string, PlacedControl>;
  /** The name of the handset that they belong to; null where it is not known. */
  readonly handset: string | null;
  /** What is to be known of it, a sentence each. */
  readonly notes: readonly string[];
}

export type Offered =
  | { readonly kind: "offer"; readonly offer: Offer }
  /** `looksLike`: what it is instead, in a sentence. */
  | { readonly kind: "no-script"; readonly looksLike: string }
  | { readonly kind: "refused"; readonly message: string };

/** The path under which an offered script is read; no file has it. */
const OFFERED = "fettle-offer:/offered.fettle";

/**
 * Reads an offered text, with or without a header, and with whatever mail, chat and git put around it. Never throws.
 * `file`: where the text lies in the workspace; null where it lies nowhere.
 */
export function offerOf(workspace: Workspace, text: string, name: string, file: FilePath | null = null): Offered {
  if (text.trim() === "" || isNoText(text)) return { kind: "no-script", looksLike: looksLike(text) };
  const answer = scriptAnswer({ kind: "text", text, validUtf8: true });
  if (answer.kind === "unreadable") return { kind: "refused", message: `The text is not read: ${answer.why}` };
  const lines = splitLines(text.replace(/^\ufeff/, "")).lines;
  const clean = cleaned(lines, name, workspace.catalogue);
  const raw = scriptOf(workspace, clean.lines);
  if (raw.tree.newer)
    return {
      kind: "refused",
      message: `“${raw.name}” is written in a newer edition of the language than this tool reads, so nothing of it is reviewed: update the tool.`,
    };
  const faults = faultsIn(raw);
  const script =
    faults.size === 0
      ? raw
      : scriptOf(
          workspace,
          clean.lines.map((line, i) => (faults.has(i) ? "" : line)),
        );
  const isScript = script.entries.length + script.drops.length + script.kept.length + raw.uses.length > 0;
  if (!isScript && clean.headers > 0 && clean.statements === 0) return { kind: "no-script", looksLike: SAYS_NOTHING };
  if (
    !isScript &&
    (clean.statements === 0 ||
      !clean.lines.some((line, i) => clean.from[i]! >= 0 && faults.has(i) && line.startsWith(" ")))
  )
    return { kind: "no-script", looksLike: looksLike(text) };
  return {
    kind: "offer",
    offer: {
      name: clean.headers > 0 ? script.name : name,
      lines,
      script,
      linesOf: (line) => offeredLines(clean, clean.from[line] ?? -1),
      unknown: unknownIn(clean, faults, raw, (path) => nameOfUsed(workspace, file, path)),
      controls: controlsIn(script),
      handset: script.kind === "handset" ? script.name : null,
      notes:
        clean.headers > 1
          ? [`The text holds ${clean.headers} scripts; they are read as one, the later over the earlier.`]
          : [],
    },
  };
}

/** A line of the offered text with those that go on with it; none for -1. */
function offeredLines({ continued }: Cleaned, line: number): readonly number[] {
  return line < 0 ? [] : [line, ...(continued.get(line) ?? [])];
}

function scriptOf(workspace: Workspace, lines: readonly string[]): Script {
  return scriptOfOffer(workspace, `${lines.join("\n")}\n`);
}

/** A text read as an offered script. */
export function scriptOfOffer(workspace: Workspace, text: string): Script {
  return withFile(workspace, OFFERED, text).script(OFFERED)!;
}

function controlsIn({ entries }: Script): ReadonlyMap<string, PlacedControl> {
  return new Map(
    entries.flatMap(({ kind, name, value }) =>
      kind === "control" && value?.kind === "control" ? [[name, specOf(name, value)] as const] : [],
    ),
  );
}

/** The lines that were left out or have a fault, and those that name files; sentences that stand together are one. */
function unknownIn(
  clean: Cleaned,
  faults: ReadonlyMap<number, string>,
  raw: Script,
  nameOf: (path: string) => string | null,
): Unknown[] {
  const uses = new Set(raw.uses.map(({ line }) => line));
  const { leftOut, from, bare } = clean;
  const single = (line: number, reason: string, notKept: string | null = null) => {
    const lines = offeredLines(clean, line);
    return { lines, texts: lines.map((each) => bare[each] ?? ""), reason, notKept };
  };
  const found: Unknown[] = raw.uses.flatMap(({ line, path }) =>
    path === null || from[line]! < 0
      ? []
      : [
          single(
            from[line]!,
            fileOfTheirs(path, nameOf(path)),
            "A file is used by a line of your own, and not kept as board text.",
          ),
        ],
  );
  for (const [line, reason] of faults) if (from[line]! >= 0 && !uses.has(line)) found.push(single(from[line]!, reason));
  let prose: { lines: number[]; texts: string[] } | null = null;
  let last = -2;
  for (const { line, reason, isProse, notKept } of leftOut) {
    const follows = prose && bare.slice(last + 1, line).every((between) => between.trim() === "");
    if (isProse && prose && follows) {
      prose.lines.push(line);
      prose.texts.push(bare[line] ?? "");
    } else {
      const made = { ...single(line, reason, notKept), lines: [line], texts: [bare[line] ?? ""] };
      found.push(made);
      prose = isProse ? made : null;
    }
    last = line;
  }
  const seen = new Set<number>();
  return found
    .filter(({ lines }) => !seen.has(lines[0]!) && seen.add(lines[0]!))
    .sort((a, b) => a.lines[0]! - b.lines[0]!);
}

function fileOfTheirs(path: string, name: string | null): string {
  return name === null
    ? `It names a file of theirs, “${path}”, which is not in the text: what that file says is not known here.`
    : `It uses “${name}”, which is a file of its own: review that file by itself, or use it yourself.`;
}

/** The name of the script that a `use` of a file leads to; null where there is none. */
function nameOfUsed(workspace: Workspace, file: FilePath | null, path: string): string | null {
  const found = file === null ? null : resolvePath(file, path);
  return found === null ? null : (workspace.script(workspace.view.realPath(found))?.name ?? null);
}
