/** One craft of a change of several: its lines before and after, and what would be found on it then. */
import type { FleetChangeCraft, FleetChangeLine } from "../../shared/protocol/fleet-change.ts";
import { type Reach, SideValue } from "./fact-parts.tsx";
import { leadOf } from "./fact-words.ts";

interface Props {
  readonly craft: FleetChangeCraft;
  readonly tab: Reach;
  /** Takes the craft, or one line of it, in or out. */
  readonly toggle: (key: string) => void;
}

export function FleetChangeRow({ craft, tab, toggle }: Props) {
  const { file, name, chosen, lines, findings, notes } = craft;
  const id = `craft-${file}`;
  return (
    <li class={`fact ${chosen ? "is-chosen" : ""}`} data-row={file}>
      <div class="fact-text">
        <h2>
          <input type="checkbox" id={id} checked={chosen} tabIndex={tab} onChange={() => toggle(file)} />
          <label for={id}>{name}</label>
        </h2>
        {lines.map((line) => (
          <Line key={line.what} line={line} of={craft} tab={tab} toggle={toggle} />
        ))}
        {findings.map(({ severity, message }) => (
          <p class={`finding ${severity}`} key={message}>
            New {severity}: {message}
          </p>
        ))}
        {notes.map((note) => (
          <p class="quiet" key={note}>
            {note}
          </p>
        ))}
      </div>
    </li>
  );
}

interface LineProps extends Pick<Props, "tab" | "toggle"> {
  readonly line: FleetChangeLine;
  readonly of: FleetChangeCraft;
}

function Line({ line, of: { file, name }, tab, toggle }: LineProps) {
  const { what, words, risk, before, after, at, into, choice, notTaken } = line;
  const key = `${file} ${what}`;
  const [lead, rest] = leadOf(words);
  return (
    <div class="fleet-line">
      <p>
        {choice === "none" ? (
          <strong>{lead}</strong>
        ) : (
          <label>
            <input type="checkbox" checked={choice === "chosen"} tabIndex={tab} onChange={() => toggle(key)} />{" "}
            <strong>{lead}</strong>
          </label>
        )}{" "}
        {rest} {choice !== "none" && risk === "high" && <span class="quiet">high risk </span>}
        {into !== null && <span class="quiet">(written in “{into}”)</span>}
      </p>
      <dl class="sides">
        <SideValue of={name} value={before} at={at} none="says nothing" tab={tab} />
        <SideValue of="then" value={after} at={null} none="is gone" tab={tab} />
      </dl>
      {notTaken !== null && <p class="why-not">Not to be had: {notTaken}</p>}
    </div>
  );
}
