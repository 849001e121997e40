/** What is found of the elements of a page, with the buttons that repair it. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import type { ElementFault, PanelElement } from "../../protocol/panel.ts";
import type { WayOn } from "../../protocol/ways.ts";
import { ITS_LINE } from "../../rules/engine/engine.ts";
import { meetsNeed } from "../../rules/lib/met-needs.ts";
import { isForPort } from "../../rules/lib/needs-in-use.ts";
import { freePort } from "../edits/insertions.ts";

/** The elements, each with the findings that point at its line or name it beside. */
export function withFaults(
  elements: readonly PanelElement[],
  findings: readonly Finding[],
  craft: Craft,
  workspace: Workspace,
): readonly PanelElement[] {
  const byLine = new Map<string, Finding[]>();
  for (const finding of findings) {
    for (const place of new Set([finding, ...finding.related].map(({ file, range }) => key(file, range.start.line)))) {
      const known = byLine.get(place);
      if (known) known.push(finding);
      else byLine.set(place, [finding]);
    }
  }
  return elements.map((element) => {
    const found = byLine.get(key(element.at.file, element.at.line)) ?? [];
    if (found.length === 0) return element;
    return { ...element, faults: found.map((finding) => faultOf(finding, element, craft, workspace)) };
  });
}

function key(file: string, line: number): string {
  return `${line} ${file}`;
}

function faultOf(finding: Finding, element: PanelElement, craft: Craft, workspace: Workspace): ElementFault {
  const { code, severity, message, fixes } = finding;
  const { file } = craft;
  const marked = severity === "error" || severity === "warning" || code === "setting-needs";
  const repairs = fixes.map(
    ({ title }): WayOn => ({ label: title, action: { name: "repair", file, at: element.at, code, title } }),
  );
  return {
    code,
    severity,
    message,
    marked,
    ways: [...repairs, ...portWays(finding, element, craft, workspace), ...linesBehind(finding)],
  };
}

/** Where a port is missing: to say which one it is. */
function portWays({ code }: Finding, { name }: PanelElement, craft: Craft, { catalogue }: Workspace): WayOn[] {
  if (code !== "port-missing") return [];
  const needs = catalogue.element(name)?.needs ?? [];
  return needs.flatMap((need): WayOn[] => {
    if (!isForPort(need) || need.port === undefined || meetsNeed(craft, need)) return [];
    const port = freePort(craft);
    if (!port) {
      const said = [...(craft.settings.get("ports")?.values() ?? [])].at(-1);
      return said ? [{ label: "Show “ports”", action: { name: "go", at: said.source } }] : [];
    }
    const label = port.certain ? `Say that ${port.name} serves ${need.port}` : `Say which port serves ${need.port}…`;
    return [{ label, action: { name: "fill-in", file: craft.file, what: `port ${need.port}` } }];
  });
}

/** To the lines that say otherwise than an element needs. */
function linesBehind({ code, related }: Finding): WayOn[] {
  if (code !== "setting-needs") return [];
  return related
    .filter(({ message }) => message !== ITS_LINE)
    .map(({ message, file, range }) => ({
      label: `Show “${message}”`,
      action: { name: "go", at: { file, line: range.start.line } },
    }));
}
