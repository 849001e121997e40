/** What differs between the switches here and there, in words and with the lines on both sides. */
import { controlAgainstInWords } from "../../shared/draw/against-words.ts";
import type { ModeAgainst, SwitchesAgainst } from "../../shared/protocol/against.ts";
import type { SwitchesPicture } from "../../shared/protocol/panel.ts";
import { SideLinks } from "./goggles-against.tsx";

interface Props {
  readonly picture: SwitchesPicture;
  readonly against: SwitchesAgainst;
}

/** The modes that differ, from here to there, and every changed position. */
export function SwitchesDifferences({ picture, against }: Props) {
  const { modes, controls, notes } = against;
  const here = new Map(picture.modes.map((mode) => [mode.name, mode.lines[0]]));
  const ours = new Map(picture.controls.map((control) => [control.name, control.at]));
  const lineThere = ({ there }: ModeAgainst) => there?.lines[0];
  return (
    <section aria-labelledby="switches-differ">
      <h2 id="switches-differ">From here to there</h2>
      {modes.length === 0 && <p>Every mode is on in the same states.</p>}
      {modes.length > 0 && (
        <ul class="list">
          {modes.map((mode) => (
            <li key={mode.name}>
              {mode.words}
              <SideLinks of={mode.name} here={here.get(mode.name)} there={lineThere(mode)} />
            </li>
          ))}
        </ul>
      )}
      {notes.map((note) => (
        <p class="quiet" key={note}>
          {note}
        </p>
      ))}
      {controls.length > 0 && (
        <>
          <p class="quiet legend">
            <span>
              <i class="sign" aria-hidden="true">
                +
              </i>{" "}
              turned on there only
            </span>
            <span>
              <i class="sign" aria-hidden="true">
                −
              </i>{" "}
              here only
            </span>
            <span>
              <i class="sign" aria-hidden="true">
                ≠
              </i>{" "}
              there with other positions
            </span>
          </p>
          <details>
            <summary>What differs as a list</summary>
            <ul class="list">
              {controls.map((control) => (
                <li key={control.name}>
                  <b>{control.name}</b>
                  <SideLinks of={control.name} here={ours.get(control.name)} there={control.there?.at} />
                  <ul>
                    {controlAgainstInWords(control).map((line) => (
                      <li key={line}>{line}</li>
                    ))}
                  </ul>
                </li>
              ))}
            </ul>
          </details>
        </>
      )}
    </section>
  );
}
