/** The tab of a change of several craft: what becomes of each of them, which are left out, and what is found then. */
import { useRef } from "preact/hooks";
import type { FleetChange, FleetChangeCraft, FleetChangeResult } from "../../shared/protocol/fleet-change.ts";
import type { FleetChangeAbout, FromFleetChange } from "../../shared/protocol/fleet-change-messages.ts";
import type { Told } from "../../shared/protocol/tab-messages.ts";
import { OutOfDate, ToldLine, Waiting } from "./fact-parts.tsx";
import { FleetChangeRow } from "./fleet-change-row.tsx";
import { editorApi } from "./host.ts";
import { useRowKeys } from "./row-keys.ts";
import { useTabAnswer } from "./tab-answer.ts";
import { loadTabState, saveTabState } from "./tab-page.ts";

/** What of it survives when the page is closed. */
interface Kept {
  /** Craft, and lines of craft; null where nobody has looked yet. */
  readonly leftOut: readonly string[] | null;
}

const initial: Kept = { leftOut: null };

function post(message: FromFleetChange): void {
  editorApi.postMessage(message);
}

export function FleetChangeApp() {
  const { result, told, failed } = useTabAnswer<FleetChangeAbout, FleetChangeResult, FromFleetChange>({
    kind: "ready",
    leftOut: loadTabState(initial).leftOut,
  });
  return (
    <>
      {failed && <OutOfDate />}
      {result === null && !failed && <Waiting words="Looking at every craft…" />}
      {result?.kind === "refused" && (
        <>
          <h1>Nothing to change</h1>
          <p>{result.message}</p>
          <ToldLine told={told} />
        </>
      )}
      {result?.kind === "change" && <Change change={result} told={told} />}
    </>
  );
}

function Change({ change, told }: { readonly change: FleetChange; readonly told: Told | null }) {
  const root = useRef<HTMLDivElement>(null);
  const offered = change.craft.filter(({ notOffered }) => notOffered === null);
  const barred = change.craft.filter(({ notOffered }) => notOffered !== null);
  const chosen = offered.filter((each) => each.chosen);
  const keys = useRowKeys(
    offered.map(({ file }) => file),
    root,
  );
  const current = keys.current(offered.map(({ file }) => file));
  const choose = (leftOut: readonly string[]) => {
    saveTabState({ leftOut });
    post({ kind: "choose", leftOut });
  };
  const toggle = (key: string) => choose(toggled(change, key));
  return (
    <div ref={root} {...keys.within}>
      <h1 tabIndex={-1}>{change.title}</h1>
      <p role="status" class="sum">
        {sumOf(offered, chosen.length)}
      </p>
      {change.notes.length > 0 && (
        <ul class="list notes">
          {change.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <p class="tools">
        <button
          type="button"
          class="first"
          disabled={chosen.length === 0}
          onClick={() => post({ kind: "apply", leftOut: leftOutOf(change) })}
        >
          {chosen.length === 0 ? "Change them" : `Change ${craftInWords(chosen.length)}`}
        </button>
        {offered.length > 1 && (
          <button type="button" onClick={() => choose(chosen.length > 0 ? offered.map(({ file }) => file) : [])}>
            {chosen.length > 0 ? "Leave all out" : "Choose all"}
          </button>
        )}
      </p>
      <ToldLine told={told} />
      <ul class="facts">
        {offered.map((craft) => (
          <FleetChangeRow key={craft.file} craft={craft} tab={craft.file === current ? 0 : -1} toggle={toggle} />
        ))}
      </ul>
      {barred.length > 0 && (
        <details class="group settled" open={offered.length === 0}>
          <summary>Not to be changed: {craftInWords(barred.length)}</summary>
          <ul class="list">
            {barred.map(({ file, name, notOffered }) => (
              <li key={file}>
                {name}: {notOffered}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

/** All that is left out now: craft by their files, lines as `lineKey` has them. */
function leftOutOf({ craft }: FleetChange): readonly string[] {
  return craft.flatMap(({ file, chosen, lines, notOffered }) => [
    ...(chosen || notOffered !== null ? [] : [file]),
    ...lines.flatMap(({ choice, what }) => (choice === "left-out" ? [`${file} ${what}`] : [])),
  ]);
}

/** The same with one craft, or one line of a craft, taken in or out. */
function toggled(change: FleetChange, key: string): readonly string[] {
  const now = leftOutOf(change);
  if (!now.includes(key)) return [...now, key];
  const craft = change.craft.find(({ file }) => key === file || key.startsWith(`${file} `))!;
  const isEmpty = !craft.lines.some(({ choice }) => choice === "chosen");
  // A line that is taken in takes its craft in; a craft of which nothing was chosen, all that it can have.
  const goes = (each: string) =>
    each === key || each === craft.file || (key === craft.file && isEmpty && each.startsWith(`${key} `));
  return now.filter((each) => !goes(each));
}

function sumOf(offered: readonly FleetChangeCraft[], chosen: number): string {
  if (offered.length === 0) return "No craft can be changed so: below stands why.";
  const left = offered.length - chosen;
  if (left === 0) return `${craftInWords(chosen)} to be changed.`;
  return `${craftInWords(chosen)} to be changed, ${craftInWords(left)} left out.`;
}

function craftInWords(count: number): string {
  return `${count} craft`;
}
