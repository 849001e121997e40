/** The rows of a review in their four groups: what is dangerous first, what is the same folded. */
import type { ReviewClass, ReviewResult, ReviewRow as Row } from "../../shared/protocol/review.ts";
import type { Reviewed } from "../../shared/protocol/review-messages.ts";
import { ReviewRow } from "./review-row.tsx";

type Findings = Extract<ReviewResult, { kind: "review" }>["findings"];

type Purpose = Reviewed["purpose"];

interface Props {
  readonly rows: readonly Row[];
  readonly purpose: Purpose;
  /** What the values on either side are called. */
  readonly names: { readonly mine: string; readonly theirs: string };
  /** The address of the offered text; null where a whole craft is carried over, whose lines are not read one by one. */
  readonly offer: string | null;
  readonly chosen: readonly string[];
  readonly choose: (chosen: readonly string[]) => void;
  readonly adopt: (what: string) => void;
  /** Of the rows of a list the one whose controls Tab reaches. */
  readonly current: (rows: readonly string[]) => string | undefined;
  readonly findings: Findings;
}

const GROUPS: readonly {
  readonly is: ReviewClass;
  readonly title: string;
  readonly why: Readonly<Record<Purpose, string>>;
}[] = [
  {
    is: "dangerous",
    title: "Dangerous",
    why: {
      review:
        "Arming, a lost signal, ports, motors, the link, or what brings a finding: never chosen for you. After adopting, try it with the propellers off.",
      carry:
        "Arming, a lost signal, ports, motors, the link, or what brings a finding. After adopting, try it with the propellers off.",
    },
  },
  {
    is: "differs",
    title: "Differs",
    why: {
      review: "Taste is chosen for you; hardware is not, since it is true of their craft only.",
      carry:
        "Taste and safety are chosen for you; hardware and tune are not, since they are true of the other craft only.",
    },
  },
  {
    is: "unknown",
    title: "Not understood",
    why: {
      review: "What is chosen here is kept as text of the board, exactly as it stands.",
      carry: "What is chosen here is kept as text of the board, exactly as it stands.",
    },
  },
  { is: "same", title: "The same here", why: { review: "", carry: "" } },
];

/** All rows; each group has its own ways to choose. */
export function ReviewGroups(props: Props) {
  return (
    <div class="review-groups">
      {GROUPS.map((group) => {
        const rows = props.rows.filter((row) => row.class === group.is);
        if (rows.length === 0) return null;
        return group.is === "same" ? (
          <details key={group.is} class="group same">
            <summary>
              {group.title}: {rows.length}
            </summary>
            <Rows {...props} rows={rows} />
          </details>
        ) : (
          <section key={group.is} class={`group ${group.is}`} aria-labelledby={`group-${group.is}`}>
            <div class="group-head">
              <h2 id={`group-${group.is}`}>
                {group.title}: {rows.length}
              </h2>
              <Choices {...props} rows={rows} group={group} />
            </div>
            <p class="quiet">{group.why[props.purpose]}</p>
            <Rows {...props} rows={rows} />
          </section>
        );
      })}
    </div>
  );
}

function Rows(props: Props) {
  const { rows, names, offer, chosen, choose, adopt, current, findings } = props;
  const reached = current(rows.map(({ what }) => what));
  return (
    <ul class="facts">
      {rows.map((row) => {
        const { what } = row;
        const others = chosen.filter((each) => each !== what);
        const isChosen = others.length !== chosen.length;
        return (
          <ReviewRow
            key={what}
            row={row}
            names={names}
            offer={offer}
            tab={what === reached ? 0 : -1}
            isChosen={isChosen}
            toggle={() => choose(isChosen ? others : [...chosen, what])}
            adopt={() => adopt(what)}
            brings={findings.filter((finding) => finding.isNew && finding.what === what)}
          />
        );
      })}
    </ul>
  );
}

/** Buttons that choose in one group alone. */
function Choices({ rows, group: { is, title }, chosen, choose }: Props & { readonly group: (typeof GROUPS)[number] }) {
  const possible = rows.filter(({ notTaken }) => notTaken === null);
  if (possible.length < 2) return null;
  const elsewhere = chosen.filter((what) => !rows.some((row) => row.what === what));
  const choice = (label: string, some: readonly Row[]) => (
    <button
      type="button"
      aria-label={`${title}: choose ${label.toLowerCase()}`}
      onClick={() => choose([...elsewhere, ...some.map(({ what }) => what)])}
    >
      {label}
    </button>
  );
  // What is dangerous is not made light of by being a matter of taste too, as which switch arms is.
  const taste = is === "differs" ? possible.filter(({ nature }) => nature === "taste") : [];
  return (
    <span class="choices">
      {taste.length > 0 && taste.length < possible.length && choice("All that is taste", taste)}
      {choice("All", possible)}
      {choice("None", [])}
    </span>
  );
}
