/** Every mode of the craft: whether it is on, and what turns it on; its positions are marked in the drawing. */
import { becomesInWords, shortName, standsInWords, waysInWords } from "../../shared/draw/words.ts";
import type { PanelMode, SwitchesPicture } from "../../shared/protocol/panel.ts";
import { ExplainButton } from "./explain-button.tsx";
import { postToHost } from "./host.ts";

interface Props {
  readonly picture: SwitchesPicture;
  readonly link: "up" | "lost";
  /** Marks the positions that turn a mode on; null marks none. */
  readonly mark: (mode: string | null) => void;
}

/** All modes, in the script's order. */
export function ModesList({ picture, link, mark }: Props) {
  const stateOf = ({ name }: PanelMode) =>
    link === "lost" ? becomesInWords(name, picture.loss, picture.state) : standsInWords(name, picture.state);
  return (
    <section>
      <h2 id="modes">Modes</h2>
      <ul class="modes-list" aria-labelledby="modes">
        {picture.modes.map((mode) => (
          <Row key={mode.name} mode={mode} stateText={stateOf(mode)} mark={mark} />
        ))}
      </ul>
    </section>
  );
}

function Row({ mode, stateText, mark }: { mode: PanelMode; stateText: string; mark: Props["mark"] }) {
  const { name, what, lines } = mode;
  const isOutput = name.startsWith("outputs.");
  const described = `ways-${name}`;
  return (
    <li>
      <button
        type="button"
        class={`chip ${/\bon$/.test(stateText) ? "is-on" : ""}`}
        title={what}
        aria-describedby={described}
        onMouseEnter={() => mark(name)}
        onMouseLeave={() => mark(null)}
        onFocus={() => mark(name)}
        onBlur={() => mark(null)}
        onClick={() => lines[0] && postToHost({ kind: "select", at: lines[0] })}
      >
        {isOutput && <span aria-hidden="true">→ </span>}
        {shortName(name)}
      </button>
      <span id={described}>
        <b>{stateText}</b>
        <span class="quiet">{` ${isOutput ? "an output, " : ""}${waysInWords(mode)}`}</span>
      </span>
      {!isOutput && <ExplainButton of={`mode/${name}`} name={name} />}
    </li>
  );
}
