/** What the panel shows while no script is open: the craft of the workspace, and how to begin another. */
import type { ListedCraft } from "../../shared/protocol/panel-messages.ts";
import type { WayOn } from "../../shared/protocol/ways.ts";
import { postToHost } from "./host.ts";
import { Empty } from "./ways.tsx";

const TITLE = "Craft of this workspace";
const NONE = "A few questions make a first one; your handset is written down once for all.";
const SOME = "Open a craft to see here what its pilot will see and switch.";
const BEGIN: readonly WayOn[] = [
  { label: "New craft…", action: { name: "new-craft" } },
  { label: "New handset…", action: { name: "new-handset" } },
];

/** A button for each craft, with its handset and its findings beside it. */
export function NoScript({ craft }: { readonly craft: readonly ListedCraft[] }) {
  return (
    <>
      <h1>{craft.length === 0 ? "No craft yet" : TITLE}</h1>
      <Empty why={craft.length === 0 ? NONE : SOME} ways={BEGIN} rank={craft.length === 0 ? "first" : "second"}>
        {craft.length > 0 && (
          <ul class="craft-list" aria-label={TITLE}>
            {craft.map(({ file, name, aside }) => (
              <li key={file}>
                <button type="button" class="link" onClick={() => open(file)}>
                  {name}
                </button>{" "}
                <span class="quiet">{aside}</span>
              </li>
            ))}
          </ul>
        )}
      </Empty>
    </>
  );
}

function open(file: string): void {
  postToHost({ kind: "run", action: { name: "go", at: { file, line: 0 } } });
}
