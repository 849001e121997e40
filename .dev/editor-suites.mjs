// The suites in the real editor, and a second run of those that failed.
import { readFileSync, rmSync } from "node:fs";
import { inProject, root, runTool, say } from "./say.mjs";

/** More than these have not lost the keyboard by chance. */
const MOST_AGAIN = 3;

const REPORT = inProject(".cache", "e2e-report.json");

/**
 * Runs them all; gives the exit status. The unit tests load the machine meanwhile, and a window under load may hand the
 * keyboard over in the midst of a word. So a suite that failed has one more run, by itself and from a fresh window,
 * and that is said: what is broken fails there too.
 */
export async function runEditorSuites() {
  rmSync(REPORT, { force: true });
  const status = await runSuites(["--reporter=default", "--reporter=json", `--outputFile.json=${REPORT}`]);
  if (status === 0) return 0;
  const failed = failedSuites();
  if (failed.length === 0 || failed.length > MOST_AGAIN) return status;
  say(`Once more, by themselves: ${failed.join(", ")} …`);
  const again = await runSuites(failed);
  if (again === 0) say(`Passed only in a second run: ${failed.join(", ")}.`);
  return again;
}

function runSuites(/** @type {readonly string[]} */ args) {
  return runTool("vitest/vitest.mjs", ["run", "--project", "e2e", ...args], { FETTLE_BUILT: "1" });
}

/** Their paths from the project's folder; none where the run ended before its report. */
function failedSuites() {
  try {
    /** @type {{ testResults: { name: string, status: string }[] }} */
    const { testResults } = JSON.parse(readFileSync(REPORT, "utf8"));
    return testResults.flatMap(({ name, status }) => (status === "failed" ? [name.slice(root.length + 1)] : []));
  } catch {
    return [];
  }
}
