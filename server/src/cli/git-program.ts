/** How git runs this program, as commands of the shell that git brings along on every system. */
import type { Program } from "./io.ts";

/** Quoted for the shell, with the slashes that it has on every system. */
function quoted(path: string): string {
  return `'${path.replaceAll("\\", "/").replaceAll("'", "'\\''")}'`;
}

/**
 * A command that runs the program: by the Node that runs it now, or where that is gone by the one that the shell finds.
 * Without a program of its own `fettle` is looked for.
 */
function programRun(program: Program | undefined): { readonly before: string; readonly call: string } {
  if (!program) return { before: "", call: "fettle" };
  const { node, script } = program;
  return { before: `n=${quoted(node)}; [ -x "$n" ] || n=node; `, call: `"$n" ${quoted(script)}` };
}

/** Prints the readable text of the file that git appends; the file as it is, where the program is gone or fails. */
export function textconvCommand(program: Program | undefined): string {
  const { before, call } = programRun(program);
  return `${before}f() { ${call} git text -- "$1" 2>/dev/null || cat -- "$1"; }; f`;
}

/**
 * Merges entry by entry; line by line as git itself does, where the program is gone or cannot. Node ends with 1 as well
 * where it cannot run a program, so a conflict is one only with its marks in the file: without them what the other side
 * says would be lost. The result stands beside until the program has ended well: one that is killed behind its last
 * writing would else leave its own marks in what is merged line by line then.
 */
export function mergeCommand(program: Program | undefined): string {
  const { before, call } = programRun(program);
  const there = program
    ? `[ -f ${quoted(program.script)} ] || echo 'fettle is gone from where it was: git merges line by line' >&2; [ -f ${quoted(program.script)} ] && `
    : "";
  // git reads “%” as the beginning of a name of its own.
  const run = `${before}${there}${call}`.replaceAll("%", "%%");
  return [
    "m=%A.fettle",
    `${run} merge %O %A %B --out "$m" --marker-size %L --path %P -L %X -L %S -L %Y`,
    "s=$?",
    `[ $s = 0 ] && mv -f "$m" %A && exit 0`,
    `[ $s = 1 ] && grep -qs '^<<<' "$m" && mv -f "$m" %A && exit 1`,
    `rm -f "$m"`,
    "git merge-file -q --marker-size=%L -L ours -L base -L theirs %A %O %B",
  ].join("; ");
}

/** The lines that a hunk is headed by: names of sections, and the header. A “use” is neither. */
export const HUNK_HEADS = "!^use[[:space:]]\n^[a-z].*$";
