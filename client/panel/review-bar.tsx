/** The foot of a review: what is adopted, and into which file. */

import { asUri } from "../../shared/protocol/addresses.ts";
import type { ReviewResult, ReviewTarget } from "../../shared/protocol/review.ts";
import type { ReviewChoice } from "../../shared/protocol/review-messages.ts";
import type { Told } from "../../shared/protocol/tab-messages.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { ToldLine } from "./fact-parts.tsx";
import { counted } from "./fact-words.ts";

interface Props {
  readonly result: Extract<ReviewResult, { kind: "review" }>;
  readonly chosen: readonly string[];
  readonly choice: ReviewChoice;
  readonly choose: (some: Partial<ReviewChoice>) => void;
  readonly adopt: () => void;
  /** Whether any row can be chosen. */
  readonly canAdopt: boolean;
  readonly told: Told | null;
}

const KINDS: Readonly<Record<ReviewTarget["kind"], string>> = {
  craft: "",
  layer: "layer ",
  "new-layer": "a new layer: ",
};

/** The button that adopts, the file, and why it cannot be done where it cannot. */
export function AdoptBar({ result, chosen, choice, choose, adopt, canAdopt, told }: Props) {
  const { targets, into, rows, findings } = result;
  const fresh = chosen.length === 0 ? [] : findings.filter(({ isNew }) => isNew);
  const target = targets.find(({ uri }) => uri === into);
  const keepsText = rows.some((row) => row.class === "unknown" && chosen.includes(row.what));
  const refused = chosen.length > 0 && result.adopt.kind === "refused" ? result.adopt.message : null;
  const isOff = chosen.length === 0 || refused !== null;
  return (
    <footer class="adopt-bar">
      <ToldLine told={told} />
      <div class="adopt-line">
        <button
          type="button"
          class="first"
          aria-disabled={isOff}
          aria-describedby={refused === null ? undefined : "adopt-refused"}
          onClick={() => {
            if (!isOff) adopt();
          }}
        >
          {chosen.length > 0
            ? `Adopt ${counted(chosen.length, "line")}`
            : canAdopt
              ? "Nothing is chosen"
              : "Nothing to adopt"}
        </button>
        <label>
          into{" "}
          <select value={into} onChange={({ currentTarget }) => choose({ into: asUri(currentTarget.value) })}>
            {targets.map(({ uri, name, kind }) => (
              <option key={uri} value={uri}>
                {KINDS[kind]}
                {name}
              </option>
            ))}
          </select>
        </label>
        {keepsText && (
          <label>
            text of the board{" "}
            <input
              type="text"
              size={12}
              value={choice.dialect}
              placeholder="board"
              onInput={({ currentTarget }) => choose({ dialect: currentTarget.value })}
            />
          </label>
        )}
      </div>
      {fresh.length > 0 && (
        <p class="also">
          It brings{" "}
          <button type="button" class="link" onClick={showResult}>
            {counted(fresh.length, "new finding")}
          </button>
          .
        </p>
      )}
      {target && target.alsoIn.length > 0 && <p class="also">This also changes {joinWithAnd(target.alsoIn)}.</p>}
      {refused !== null && (
        <p class="also" id="adopt-refused">
          {refused}
        </p>
      )}
    </footer>
  );
}

/** In a narrow window what is found stands far from here. */
function showResult(): void {
  const result = document.getElementById("result");
  result?.scrollIntoView({ block: "start" });
  result?.focus({ preventScroll: true });
}
