/** What stands between the craft and arming, and the way there. */
import { movesInWords } from "../../shared/draw/words.ts";
import type { ControlsAt, ReadyPicture } from "../../shared/protocol/panel.ts";
import { tell } from "./host.ts";

interface Shown {
  readonly ready: ReadyPicture;
  readonly positions: ControlsAt;
  readonly move: (positions: ControlsAt) => void;
}

/** What surely stands in between, the way there, and what may stand in between besides. */
export function ReadyList({ ready: { obstacles, moves }, positions, move }: Shown) {
  const placement = obstacles.filter(({ state }) => state === "stands");
  const others = obstacles.filter(({ state }) => state !== "stands");
  const there = moves && { ...positions, ...Object.fromEntries(moves.map(({ name, to }) => [name, to])) };
  return (
    <section>
      <h2>What keeps it from arming</h2>
      {placement.length === 0 ? <p>Nothing that is known here.</p> : <Obstacles all={placement} />}
      {moves && there && moves.length > 0 && (
        <p>
          The shortest way of the controls: {movesInWords(moves)}.{" "}
          <button type="button" onClick={() => move(there)}>
            Go there
          </button>
        </p>
      )}
      {others.length > 0 && (
        <details>
          <summary>{others.length === 1 ? "One more thing" : `${others.length} more things`} that may</summary>
          <Obstacles all={others} />
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
            <button type="button" class="link" onClick={() => tell({ kind: "select", at })}>
              Its line
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}
