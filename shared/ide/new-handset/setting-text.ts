/** Reads what is typed for a setting as the language does. */
import type { Workspace } from "../../model/workspace.ts";
import { printValue } from "../../syntax/print-value.ts";
import { withFile } from "../context/trial.ts";

/** The canonical text of a value; null for what the setting does not take. What is only unusual counts. */
export function settingText(
  workspace: Workspace,
  section: "transmitter" | "link",
  name: string,
  typed: string,
): string | null {
  if (/[\r\n#]/.test(typed) || typed.trim() === "") return null;
  const header = section === "transmitter" ? 'handset "Trial"' : 'craft "Trial"';
  const file = "/trial.fettle";
  const script = withFile(workspace, file, `${header}\n\n${section}\n  ${name}  ${typed}\n`).script(file);
  const entry = script?.entries[0];
  const isWrong = script?.issues.some(({ code }) => code !== "unusual-value");
  return entry?.value && !isWrong ? printValue(entry.value) : null;
}
