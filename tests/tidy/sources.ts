/** The project's own source files and what each imports, as the tidy test sees them. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { posix } from "node:path";
import { inProject } from "../../.dev/say.mjs";

export interface SourceFile {
  /** From the project's folder, with `/`. */
  readonly path: string;
  readonly text: string;
  /** What it imports: paths from the project's folder, or packages as written. */
  readonly imports: readonly string[];
}

/** Every file that git tracks or would track, from the project's folder. */
export function projectFiles(): string[] {
  const args = ["ls-files", "--cached", "--others", "--exclude-standard", "-z"];
  const listed = execFileSync("git", args, { cwd: inProject(), encoding: "utf8", maxBuffer: 64 << 20 });
  return [...new Set(listed.split("\0").filter(Boolean))].sort();
}

/** Reads one file of those; null where it is listed and not there (removed, and not yet committed). */
export function readSource(path: string): SourceFile | null {
  try {
    const text = readFileSync(inProject(path), "utf8");
    return { path, text, imports: importsOf(path, text) };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
}

/** What a module imports, statically or not, for its types or its values. */
export function importsOf(path: string, text: string): string[] {
  const code = text.replaceAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "");
  const found = code.matchAll(
    /(?:^|[;}\n])\s*(?:import|export)\s(?:[^;"'`]*?\sfrom\s*)?["']([^"'\n]+)["']|\bimport\(\s*["']([^"'\n]+)["']/g,
  );
  return [...found].map((match) => {
    const name = match[1] ?? match[2] ?? "";
    return name.startsWith(".") ? posix.join(posix.dirname(path), name) : name;
  });
}
