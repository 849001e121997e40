/** What prevents arming, and the moves of the controls that arm the craft: short, as it stays in sight above the controls. */
import { useState } from "preact/hooks";
import { movesInWords } from "../../shared/draw/words.ts";
import type { ControlsAt, ReadyPicture } from "../../shared/protocol/panel.ts";
import { postToHost } from "./host.ts";

interface Props {
  readonly ready: ReadyPicture;
  readonly positions: ControlsAt;
  readonly move: (positions: ControlsAt) => void;
}

type Obstacle = ReadyPicture["obstacles"][number];

/** The first thing that prevents arming for certain, the shortest moves; the others, and what may prevent it, fold out. */
export function ReadyList({ ready: { obstacles, moves }, positions, move }: Props) {
  const [open, setOpen] = useState(false);
  const blocking = obstacles.filter(({ state }) => state === "stands");
  const possible = obstacles.filter(({ state }) => state !== "stands");
  const [first, ...others] = blocking;
  const folded = [...others, ...possible];
  const target = moves && { ...positions, ...Object.fromEntries(moves.map(({ name, to }) => [name, to])) };
  return (
    <section class={`ready ${open ? "opened" : ""}`} aria-labelledby="ready">
      <p>
        <span class={folded.length > 0 ? "first" : ""}>
          <b id="ready">What keeps it from arming:</b>{" "}
          {first?.message ?? NOTHING[possible.length > 0 ? "certain" : "known"]}
        </span>{" "}
        {first && <ItsLine obstacle={first} />}{" "}
        {folded.length > 0 && (
          <button
            type="button"
            class="link more"
            aria-expanded={open}
            aria-controls={open ? "ready-more" : undefined}
            onClick={() => setOpen(!open)}
          >
            {moreInWords(others.length, possible.length)}
          </button>
        )}
      </p>
      {moves && target && moves.length > 0 && (
        <p class={folded.length > 0 ? "way-there" : ""}>
          The shortest way: {movesInWords(moves)}.{" "}
          <button type="button" class="link" onClick={() => move(target)}>
            Go there
          </button>
        </p>
      )}
      {open && folded.length > 0 && (
        <ul class="list" id="ready-more">
          {folded.map((obstacle) => (
            <li key={obstacle.message}>
              {obstacle.state === "stands" ? "" : "May: "}
              {obstacle.message} <ItsLine obstacle={obstacle} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

const NOTHING = { certain: "nothing for certain.", known: "nothing that is known here." } as const;

/** How much is folded: “and 2 more”, “and 1 more that may”. */
function moreInWords(others: number, possible: number): string {
  if (possible === 0) return `and ${others} more`;
  return others === 0 ? `and ${possible} more that may` : `and ${others + possible} more`;
}

function ItsLine({ obstacle: { message, at } }: { readonly obstacle: Obstacle }) {
  if (!at) return null;
  const show = () => postToHost({ kind: "select", at });
  return (
    <button type="button" class="link" aria-label={`Its line: ${message}`} onClick={show}>
      Its line
    </button>
  );
}
