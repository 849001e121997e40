/** Where there is nothing to draw: why, and the buttons that lead on. */
import type { ComponentChildren } from "preact";
import type { Gap, WayOn } from "../../shared/protocol/ways.ts";
import { postToHost } from "./host.ts";

/** A sentence with the buttons that end what it tells; the first is the likeliest. */
export function Empty({
  why,
  ways,
  children,
  rank,
}: Gap & { readonly children?: ComponentChildren; readonly rank?: Rank }) {
  return (
    <div class="empty">
      <p>{why}</p>
      {children}
      <Ways ways={ways} rank={rank} />
    </div>
  );
}

/** Whether the first of some buttons stands out. */
type Rank = "first" | "second";

/** Buttons in a row; the first stands out unless something before it does. */
export function Ways({ ways, rank = "first" }: { readonly ways: readonly WayOn[]; readonly rank?: Rank | undefined }) {
  if (ways.length === 0) return null;
  return (
    <p class="tools">
      {ways.map(({ label, action }, index) => (
        <button
          type="button"
          key={label}
          class={index === 0 && rank === "first" ? "first" : undefined}
          onClick={() => postToHost({ kind: "run", action })}
        >
          {label}
        </button>
      ))}
    </p>
  );
}

/** Something missing beside what is drawn: as a quiet line with its buttons. */
export function Gaps({ gaps }: { readonly gaps: readonly Gap[] }) {
  return gaps.map(({ why, ways }) => (
    <div class="gap" key={why}>
      <p class="quiet">{why}</p>
      <Ways ways={ways} rank="second" />
    </div>
  ));
}
