/** What differs between the picture here and the one there: which of them is shown, and everything as a list. */
import { differsInWords } from "../../shared/draw/against-words.ts";
import { differingElements } from "../../shared/draw/differing.ts";
import type { GogglesAgainst } from "../../shared/protocol/against.ts";
import type { GogglesPicture, LinePlace } from "../../shared/protocol/panel.ts";
import { postToHost } from "./host.ts";

/** Which picture is shown. */
export type Sides = "here" | "there" | "both";

const SIDES: Readonly<Record<Sides, string>> = { here: "Here", there: "There", both: "Both" };

/** Chooses which picture is shown. */
export function SidesTool({ sides, setSides }: { readonly sides: Sides; readonly setSides: (sides: Sides) => void }) {
  return (
    <div class="tools">
      <fieldset class="joined" aria-label="Picture">
        {(Object.keys(SIDES) as Sides[]).map((each) => (
          <button type="button" key={each} aria-pressed={each === sides} onClick={() => setSides(each)}>
            {SIDES[each]}
          </button>
        ))}
      </fieldset>
    </div>
  );
}

interface Props {
  readonly picture: GogglesPicture;
  readonly against: GogglesAgainst;
  readonly sides: Sides;
}

/** What the marks mean, and every difference with the lines on both sides. */
export function GogglesDifferences({ picture, against, sides }: Props) {
  const differing = differingElements(picture, against);
  const grids = [picture, against.picture] as const;
  const isMoved = differing.some(({ here, there }) => here && there);
  return (
    <section aria-labelledby="differs">
      <h2 id="differs">
        {differing.length === 0
          ? "Every element is in the same place there"
          : `${differing.length === 1 ? "1 element is" : `${differing.length} elements are`} not in the same place`}
      </h2>
      {sides === "both" && differing.length > 0 && (
        <p class="quiet legend">
          {differing.some(({ there }) => there) && (
            <span>
              <i class="swatch-there" aria-hidden="true" /> its cells there
            </span>
          )}
          {isMoved && (
            <span>
              <i class="swatch-join" aria-hidden="true" /> moves from here to there
            </span>
          )}
          {differing.some(({ here, there }) => here && !there) && (
            <span>
              <i class="swatch-here" aria-hidden="true" /> only here
            </span>
          )}
        </p>
      )}
      {differing.length > 0 && (
        <ul class="list">
          {differing.map(({ mark, here, there }) => (
            <li key={mark.name}>
              <b>{mark.name}</b> {differsInWords(mark, here, there, grids)}
              <SideLinks of={mark.name} here={here?.at} there={there?.at} />
            </li>
          ))}
        </ul>
      )}
      {against.notes.map((note) => (
        <p class="quiet" key={note}>
          {note}
        </p>
      ))}
    </section>
  );
}

interface SideLinksProps {
  readonly of: string;
  readonly here: LinePlace | null | undefined;
  readonly there: LinePlace | null | undefined;
}

/** Links to the lines of both sides, where there are some. */
export function SideLinks({ of, here, there }: SideLinksProps) {
  const link = (at: LinePlace, side: string) => (
    <>
      {" "}
      <button
        type="button"
        class="link"
        aria-label={`${of}: the line ${side}`}
        onClick={() => postToHost({ kind: "select", at })}
      >
        line {side}
      </button>
    </>
  );
  return (
    <>
      {here && link(here, "here")}
      {there && link(there, "there")}
    </>
  );
}
