/** Links from parts of a drawing to their lines in the script; the part of the cursor's line is marked. */
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { LinePlace } from "../../shared/protocol/panel.ts";
import { postToHost } from "./host.ts";
import { pressable } from "./scene-view.tsx";

/** The cursor's line in the editor. */
export const CursorLine = createContext<LinePlace | null>(null);

interface Props {
  readonly at: LinePlace | null;
  readonly words: string;
  /** What the line is about. */
  readonly of: string;
}

/** Words as a link to the line that they come from, where there is one. */
export function LineLink({ at, words, of }: Props) {
  const cursor = useContext(CursorLine);
  if (!at) return <span class="quiet">{words}</span>;
  return (
    <button
      type="button"
      class="link"
      data-marked={isSame(at, cursor)}
      aria-label={`${words}, the line of ${of}`}
      onClick={() => postToHost({ kind: "select", at })}
    >
      {words}
    </button>
  );
}

type LineLinkProps = (at: LinePlace | null | undefined, label: string) => Readonly<Record<string, unknown>>;

/** Returns a function that makes the properties by which a node of a drawing links to its line, if it has one. */
export function useLineLink(): LineLinkProps {
  const cursor = useContext(CursorLine);
  return (at, label) =>
    at
      ? {
          ...pressable(() => postToHost({ kind: "select", at })),
          "aria-label": label,
          "data-marked": isSame(at, cursor),
        }
      : { role: "img", "aria-label": label };
}

function isSame(at: LinePlace, cursor: LinePlace | null): true | undefined {
  return (at.file === cursor?.file && at.line === cursor.line) || undefined;
}
