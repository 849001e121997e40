/** What prevents arming, and the moves of the controls that arm the craft. */
import { movesInWords } from "../../shared/draw/words.ts";
import type { ControlsAt, ReadyPicture } from "../../shared/protocol/panel.ts";
import { postToHost } from "./host.ts";

interface Props {
  readonly ready: ReadyPicture;
  readonly positions: ControlsAt;
  readonly move: (positions: ControlsAt) => void;
}

/** What prevents arming for certain, the shortest moves, and what else may prevent it. */
export function ReadyList({ ready: { obstacles, moves }, positions, move }: Props) {
  const blocking = obstacles.filter(({ state }) => state === "stands");
  const possible = obstacles.filter(({ state }) => state !== "stands");
  const target = moves && { ...positions, ...Object.fromEntries(moves.map(({ name, to }) => [name, to])) };
  return (
    <section>
      <h2>What keeps it from arming</h2>
      {blocking.length === 0 ? <p>Nothing that is known here.</p> : <Obstacles all={blocking} />}
      {moves && target && moves.length > 0 && (
        <p>
          The shortest way of the controls: {movesInWords(moves)}.{" "}
          <button type="button" onClick={() => move(target)}>
            Go there
          </button>
        </p>
      )}
      {possible.length > 0 && (
        <details>
          <summary>{possible.length === 1 ? "One more thing" : `${possible.length} more things`} that may</summary>
          <Obstacles all={possible} />
        </details>
      )}
    </section>
  );
}

function Obstacles({ all }: { all: ReadyPicture["obstacles"] }) {
  return (
    <ul class="list">
      {all.map(({ message, at }) => (
        <li key={message}>
          {message}{" "}
          {at && (
            <button type="button" class="link" onClick={() => postToHost({ kind: "select", at })}>
              Its line
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}
