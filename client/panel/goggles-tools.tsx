/** The tools below the picture: moment of the flight, display options, the chosen element, adding an element. */
import { useEffect, useState } from "preact/hooks";
import { sharingInWords } from "../../shared/draw/words.ts";
import type { GridCell } from "../../shared/protocol/osd.ts";
import { type OsdPage, SCENARIOS, type Scenario } from "../../shared/protocol/osd.ts";
import type { AddableElement, GogglesPicture, PanelElement } from "../../shared/protocol/panel.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { ExplainButton } from "./explain-button.tsx";
import { Faults } from "./goggles-faults.tsx";

type Look = (some: { readonly scenario?: Scenario; readonly page?: OsdPage }) => void;

/** A slider over the moments of a flight, from the fresh pack to the loss of the signal. */
export function MomentSlider({ scenario, look }: { readonly scenario: Scenario; readonly look: Look }) {
  const [selected, setSelected] = useState(scenario);
  useEffect(() => setSelected(scenario), [scenario]);
  const at = SCENARIOS.findIndex(({ name }) => name === selected);
  const label = SCENARIOS[at]?.label ?? selected;
  const go = (index: number) => {
    const next = SCENARIOS[index];
    if (!next || next.name === selected) return;
    setSelected(next.name);
    look({ scenario: next.name });
  };
  return (
    <div class="moment">
      <label for="moment">
        Moment of the flight <b aria-hidden="true">{label}</b>
      </label>
      <input
        id="moment"
        type="range"
        min={0}
        max={SCENARIOS.length - 1}
        step={1}
        value={at}
        aria-valuetext={label}
        onInput={({ currentTarget }) => go(Number(currentTarget.value))}
      />
    </div>
  );
}

const PAGE_TITLES: Readonly<Record<OsdPage, string>> = { osd: "First page", "osd-second": "Second page" };

interface LookProps {
  readonly picture: GogglesPicture;
  readonly look: Look;
  readonly bare: "bare" | "with elements";
  readonly setBare: (bare: LookProps["bare"]) => void;
  readonly still: "still" | "flashing";
  readonly setStill: (still: LookProps["still"]) => void;
  readonly magnified: boolean;
  readonly magnify: (magnified: boolean) => void;
}

/** Page, picture without elements, and flashing, each only where there is a choice; and the magnifier. */
export function LookTools({ picture, look, bare, setBare, still, setStill, magnified, magnify }: LookProps) {
  const { pages, page, canHide, elements } = picture;
  const flashes = elements.some((element) => element.flashes);
  if (elements.length === 0 && pages.length < 2 && !canHide) return null;
  return (
    <div class="tools">
      {pages.length > 1 && (
        <fieldset class="joined" aria-label="Page">
          {pages.map((each) => (
            <button type="button" key={each} aria-pressed={each === page} onClick={() => look({ page: each })}>
              {PAGE_TITLES[each]}
            </button>
          ))}
        </fieldset>
      )}
      {canHide && (
        <button
          type="button"
          aria-pressed={bare === "bare"}
          onClick={() => setBare(bare === "bare" ? "with elements" : "bare")}
        >
          Bare picture
        </button>
      )}
      {flashes && (
        <button
          type="button"
          class="stills"
          aria-pressed={still === "still"}
          onClick={() => setStill(still === "still" ? "flashing" : "still")}
        >
          Stop the flashing
        </button>
      )}
      {elements.length > 0 && (
        <button type="button" aria-pressed={magnified} title="+ and -" onClick={() => magnify(!magnified)}>
          Magnifier
        </button>
      )}
    </div>
  );
}

/** Moves for pilots who can press a button but cannot drag. */
const NUDGES = [
  { to: "left", sign: "←", by: { column: -1, row: 0 } },
  { to: "right", sign: "→", by: { column: 1, row: 0 } },
  { to: "up", sign: "↑", by: { column: 0, row: -1 } },
  { to: "down", sign: "↓", by: { column: 0, row: 1 } },
] as const;

interface ChosenProps {
  readonly nudge: (element: PanelElement, by: GridCell) => void;
  readonly chosen: PanelElement | null;
  readonly press: (element: PanelElement) => void;
  readonly remove: (element: PanelElement) => void;
}

/** The element that last had the focus, or on whose line the cursor last was. */
export function ChosenTool({ chosen, nudge, press, remove }: ChosenProps) {
  if (!chosen)
    return <p class="quiet">Drag an element, or move to it with Tab and press the arrow keys: its line follows.</p>;
  const others = sharingInWords(chosen.sharedWith);
  return (
    <div class="chosen">
      <p>
        <b>{chosen.name}</b> <ExplainButton of={`element/${chosen.name}`} name={chosen.name} />{" "}
        <code>{chosen.placed}</code>
        <span class="quiet block">
          {chosen.what}
          {others && ` Its line serves ${others} too.`}
        </span>
      </p>
      <div class="tools">
        <fieldset class="joined" aria-label={`Move ${chosen.name} by a cell`}>
          {NUDGES.map(({ to, sign, by }) => (
            <button type="button" key={to} aria-label={to} onClick={() => nudge(chosen, by)}>
              {sign}
            </button>
          ))}
        </fieldset>
        <button type="button" onClick={() => press(chosen)}>
          Show its line
        </button>
        <button type="button" onClick={() => remove(chosen)} title="Delete">
          Remove
        </button>
      </div>
      <Faults faults={chosen.faults} />
    </div>
  );
}

interface AddProps {
  readonly addable: readonly AddableElement[];
  readonly add: (element: AddableElement) => void;
}

/** Adds an element that is found by its name or by its description. */
export function AddTool({ addable, add }: AddProps) {
  const [typed, setTyped] = useState("");
  const found = matchingElement(addable, typed);
  if (addable.length === 0) return null;
  const onSubmit = (event: Event) => {
    event.preventDefault();
    if (!found) return;
    add(found);
    setTyped("");
  };
  return (
    <form class="tools add" onSubmit={onSubmit}>
      <label for="add">Add an element</label>
      <input
        id="add"
        type="text"
        list="addable"
        autocomplete="off"
        spellcheck={false}
        placeholder="by name, or what it shows"
        value={typed}
        onInput={({ currentTarget }) => setTyped(currentTarget.value)}
        aria-describedby="add-found"
      />
      <datalist id="addable">
        {addable.map((element) => (
          <option key={element.name} value={element.name}>
            {`${lacksInWords(element)}${element.what}`}
          </option>
        ))}
      </datalist>
      <button type="submit" disabled={!found}>
        Add
      </button>
      <span id="add-found" class="quiet block" aria-live="polite">
        {typed.trim() === "" ? "" : found ? `${found.name}: ${found.what}` : "There is no such element to add."}
        {found && needsInWords(found) !== "" && <b class="needs">{needsInWords(found)}</b>}
      </span>
    </form>
  );
}

/** What an element needs and the craft lacks, in front of what it shows. */
function lacksInWords({ lacks }: AddableElement): string {
  return lacks.length === 0 ? "" : `Needs ${joinWithAnd(lacks)}, not here. `;
}

/** What an element needs, said before it is added. */
function needsInWords({ lacks, asks }: AddableElement): string {
  const missing = lacks.length === 0 ? "" : `It needs ${joinWithAnd(lacks)}, which this craft does not have.`;
  const unsaid = asks.length === 0 ? "" : `It needs ${joinWithAnd(asks)}, of which the script says nothing.`;
  return [missing, unsaid].filter((sentence) => sentence !== "").join(" ");
}

/** The best match: the exact name, else a name that begins with or contains the words, else a description that does. */
function matchingElement(addable: readonly AddableElement[], typed: string): AddableElement | null {
  const words = typed.trim().toLowerCase();
  if (words === "") return null;
  const name = words.replaceAll(/\s+/g, "-");
  return (
    addable.find((element) => element.name === name) ??
    addable.find((element) => element.name.startsWith(name)) ??
    addable.find((element) => element.name.includes(name)) ??
    addable.find(({ what }) => what.toLowerCase().includes(words)) ??
    null
  );
}
