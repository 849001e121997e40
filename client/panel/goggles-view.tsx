/** The goggles view: the picture, its tools, and the same content as a list. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { freePlace } from "../../shared/draw/moving.ts";
import { elementInWords } from "../../shared/draw/words.ts";
import type { AgainstPictures } from "../../shared/protocol/against.ts";
import type { GridCell } from "../../shared/protocol/osd.ts";
import type { OsdBeginnings, OsdGesture } from "../../shared/protocol/osd-edit.ts";
import type { AddableElement, GogglesPicture, LinePlace, PanelElement } from "../../shared/protocol/panel.ts";
import type { SignalPicture } from "../../shared/protocol/signal.ts";
import type { Gap } from "../../shared/protocol/ways.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { GogglesDifferences, type Sides, SidesTool } from "./goggles-against.tsx";
import { BeginOsd } from "./goggles-begin.tsx";
import { PageFaults } from "./goggles-faults.tsx";
import { FitTool } from "./goggles-fit.tsx";
import type { Mover } from "./goggles-mover.ts";
import { GogglesPictureView } from "./goggles-picture.tsx";
import { Enlargeable } from "./goggles-size.tsx";
import { AddTool, ChosenTool, LookTools, MomentSlider } from "./goggles-tools.tsx";
import { loadState, postToHost, saveState } from "./host.ts";
import { SignalCaption } from "./signal-caption.tsx";
import { useUndoKeys } from "./undo-keys.ts";
import { Gaps } from "./ways.tsx";

interface Props {
  /** The craft that is drawn. */
  readonly craft: string;
  readonly picture: GogglesPicture;
  readonly signal: SignalPicture | undefined;
  readonly file: string;
  readonly marked: LinePlace | null;
  /** Set if the page shows nothing yet. */
  readonly begin: OsdBeginnings | null;
  /** A mode turns to the second page, which shows nothing. */
  readonly lacksSecond: boolean;
  /** The other side of a comparison; null where nothing is compared. */
  readonly against: AgainstPictures | null;
  /** What is drawn of the past stays as it was: then nothing is offered that changes it. */
  readonly stands: "now" | "as it was";
}

const NO_SECOND_PAGE: Gap = {
  why: "A mode turns to the second page, and nothing is placed there.",
  ways: [{ label: "Begin the second page…", action: { name: "begin-osd", page: "osd-second" } }],
};

/** An element that is to get the focus: one that was added, or the neighbour of one that was removed. */
interface FocusRequest {
  readonly come: string | null;
  readonly gone: string | null;
  readonly next: string | null;
  readonly untilMs: number;
}

/** Long enough for the question where to write; after that the focus is not moved any more. */
const FOCUS_REQUEST_MS = 15_000;

/** The whole view; without elements where the pilot chose that and the craft can hide them. */
export function GogglesView({ craft, picture, signal, file, marked, begin, lacksSecond, against, stands }: Props) {
  const mover = useRef<Mover | null>(null);
  const [chosenName, choose] = useState<string | null>(null);
  const [bare, setBare] = useState<"bare" | "with elements">("with elements");
  const [still, setStill] = useState<"still" | "flashing">("flashing");
  const [magnified, magnify] = useState(loadState().magnified);
  const [size, setSize] = useState<"fitting" | "readable">("fitting");
  const [side, setSide] = useState(loadState().sides);
  const other = against?.goggles ?? null;
  const sides = other ? side : "here";
  // There it is not moved, as a preview is not.
  const shown = useMemo(() => (other && sides === "there" ? unmoved(other.picture) : picture), [picture, other, sides]);
  const isElsewhere = sides === "there";
  const { elements, preview } = picture;
  const chosen = elements.find(({ name }) => name === chosenName) ?? null;
  const send = (gesture: OsdGesture) => postToHost({ kind: "osd", file, page: picture.page, gesture });
  const nudge = ({ name }: PanelElement, by: GridCell) => mover.current?.nudge(name, by);
  const press = ({ at }: PanelElement) => postToHost({ kind: "select", at });

  const setMagnified = (on: boolean) => {
    magnify(on);
    saveState({ magnified: on });
  };

  useUndoKeys(() => mover.current?.cancel() ?? false);
  useMagnifierKeys(setMagnified);
  const requestFocus = useRequestedFocus(mover, picture);
  useEffect(() => {
    const atCursor = elements.find(({ at }) => at.file === marked?.file && at.line === marked.line);
    if (atCursor) choose(atCursor.name);
  }, [marked]);

  const remove = (element: PanelElement) => {
    if (preview || isElsewhere) return;
    const index = elements.indexOf(element);
    const next = elements[index + 1] ?? elements[index - 1];
    requestFocus({ come: null, gone: element.name, next: next?.name ?? null });
    send({ kind: "remove", element: element.name });
  };
  const add = (added: AddableElement) => {
    requestFocus({ come: added.name, gone: null, next: null });
    send({ kind: "add", element: added.name, ...freePlace(picture, added) });
  };
  const look = (some: Partial<Pick<GogglesPicture, "scenario" | "page">>) => {
    const { scenario, page } = { ...picture, ...some };
    saveState({ scenario });
    postToHost({ kind: "look", scenario, page });
  };

  const chooseSides = (chosenSides: Sides) => {
    setSide(chosenSides);
    saveState({ sides: chosenSides });
  };
  const isNow = stands === "now";
  const isBare = bare === "bare" && picture.canHide && sides !== "there";
  const sizeWords = `${isElsewhere ? "There: " : ""}${sizeInWords(shown)}${isBare ? ", all hidden" : ""}`;
  const blank = shown.elements.filter((element) => element.blank).map(({ name }) => name);
  const clashingElements = shown.elements.filter(({ clashing }) => clashing.length > 0);
  return (
    <div class={`goggles-view ${still === "still" ? "steady" : ""}`}>
      {other && <SidesTool sides={sides} setSides={chooseSides} />}
      <Enlargeable picture={shown} size={size} setSize={setSize}>
        <GogglesPictureView
          picture={isBare ? { ...picture, elements: [] } : shown}
          subject={`${craft} ${picture.page} ${preview ? "preview" : ""} ${isElsewhere ? "there" : ""}`}
          against={sides === "both" && !isBare ? other : null}
          marked={marked}
          label={sizeWords}
          mover={mover}
          magnified={magnified && !preview && !isElsewhere}
          choose={choose}
          reportMove={send}
          press={press}
          remove={remove}
        />
      </Enlargeable>
      <MomentSlider scenario={picture.scenario} look={look} />
      {signal && <SignalCaption picture={signal} marked={marked} />}
      <LookTools
        picture={picture}
        look={look}
        bare={bare}
        setBare={setBare}
        still={still}
        setStill={setStill}
        magnified={magnified}
        magnify={setMagnified}
      />
      {against?.noGoggles && <p class="quiet">{against.noGoggles}</p>}
      {other && <GogglesDifferences picture={picture} against={other} sides={sides} />}
      {begin && !preview && (
        <div class="empty">
          <p>{begin.page === picture.page ? "This page" : "The second page"} shows nothing yet.</p>
          <BeginOsd begin={begin} file={file} />
        </div>
      )}
      {lacksSecond && !begin && !preview && <Gaps gaps={[NO_SECOND_PAGE]} />}
      {isNow && !preview && !isBare && !isElsewhere && elements.length > 0 && (
        <ChosenTool chosen={chosen} nudge={nudge} press={press} remove={remove} />
      )}
      {!preview && !isBare && !isElsewhere && (
        <PageFaults elements={elements.filter((each) => each !== chosen)} but={chosen} />
      )}
      {!preview && !isBare && !isElsewhere && <AddTool addable={picture.addable} add={add} />}
      {isNow && !isElsewhere && <FitTool picture={picture} apply={send} />}
      <p class="quiet">
        {sizeWords}
        {shown.safe ? ", the safe area dotted." : "."}
        {blank.length > 0 && !isBare && ` Outlined, as nothing shows there at this moment: ${joinWithAnd(blank)}.`}
      </p>
      {clashingElements.length > 0 && (
        <p class="warning">
          Hatched cells are shared or off the grid: {clashingElements.map(({ name }) => name).join(", ")}.
        </p>
      )}
      <p class="unseen" id="moving-keys">
        Arrow keys move an element by a cell, with Shift by five; Home, End, Page Up and Page Down take it to an edge.
        Enter shows its line, Delete removes it, Escape takes a movement back. The plus sign turns the magnifier on, the
        minus sign off.
      </p>
      <AsList elements={shown.elements} press={press} />
    </div>
  );
}

function AsList({ elements, press }: Pick<GogglesPicture, "elements"> & { press: (element: PanelElement) => void }) {
  return (
    <details>
      <summary>The picture as a list</summary>
      <ul class="list">
        {elements.map((element) => (
          <li key={element.name}>
            <button type="button" class="link" onClick={() => press(element)}>
              {element.name}
            </button>{" "}
            {elementInWords(element).slice(element.name.length).trimStart().replace(/^, /, "")}
            <span class="quiet block">{element.what}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** A picture in which nothing can be moved. */
function unmoved(picture: GogglesPicture): GogglesPicture {
  return { ...picture, preview: { columns: picture.columns, rows: picture.rows, unplaced: [] } };
}

/** Returns a function that requests the focus for an element; granted with the first picture that allows it. */
function useRequestedFocus(mover: { readonly current: Mover | null }, { elements }: GogglesPicture) {
  const pending = useRef<FocusRequest | null>(null);
  useEffect(() => {
    if (!pending.current || performance.now() > pending.current.untilMs) return;
    const { come, gone, next } = pending.current;
    const has = (name: string | null) => elements.some((element) => element.name === name);
    const focused = has(come) ? come : gone && !has(gone) ? next : null;
    if (!focused) return;
    pending.current = null;
    mover.current?.focus(focused);
  }, [elements]);
  return (request: Omit<FocusRequest, "untilMs">) => {
    pending.current = { ...request, untilMs: performance.now() + FOCUS_REQUEST_MS };
  };
}

/** The plus sign turns the magnifier on, the minus sign off, except in a text field. */
function useMagnifierKeys(setMagnified: (on: boolean) => void): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.target instanceof HTMLInputElement) return;
      if (event.key === "+" || event.key === "-") setMagnified(event.key === "+");
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}

function sizeInWords({ columns, rows, elements }: GogglesPicture): string {
  const count = elements.length === 1 ? "1 element" : `${elements.length} elements`;
  return `${count} on ${columns} by ${rows} cells`;
}
