/** The panel: the views of the open script and of the fleet, and the messages shown where there is nothing to draw. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { AgainstPictures } from "../../shared/protocol/against.ts";
import type { FleetAction, PackedFleet } from "../../shared/protocol/fleet-messages.ts";
import type { ControlsAt, LinePlace, PanelModel, ViewName } from "../../shared/protocol/panel.ts";
import type { ListedCraft, ToPanel } from "../../shared/protocol/panel-messages.ts";
import { AgainstBar } from "./against-bar.tsx";
import { BackToBench, Bench } from "./bench-place.tsx";
import type { BenchSight } from "./bench-step.tsx";
import { takeDrops } from "./drops.ts";
import { FleetView } from "./fleet-view.tsx";
import { BeginOsd } from "./goggles-begin.tsx";
import { GogglesView } from "./goggles-view.tsx";
import { loadState, onHostMessage, postToHost, saveState } from "./host.ts";
import { keepFocus } from "./keep-focus.ts";
import { NoScript } from "./no-script.tsx";
import { NumbersView } from "./numbers-view.tsx";
import { PastBar } from "./past-bar.tsx";
import { SwitchesView } from "./switches-view.tsx";
import { Tabs } from "./tabs.tsx";
import { Empty, Gaps } from "./ways.tsx";

/** The whole page. It keeps only what is being viewed; everything else comes with each model. */
export function App() {
  const [model, setModel] = useState<PanelModel | null>(null);
  const [marked, setMarked] = useState<LinePlace | null>(null);
  const [view, setView] = useState<ViewName>(loadState().view);
  const [listed, setListed] = useState<readonly ListedCraft[] | null>(null);
  const [fleet, setFleet] = useState<PackedFleet | null>(null);
  const [failed, setFailed] = useState(false);
  const restoredFor = useRef<string | null>(null);
  /** The step of the bench list from which another view was opened: the way back leads to it. */
  const [step, setStep] = useState<string | null>(null);

  useEffect(() => {
    const stop = onHostMessage((message: ToPanel) => {
      if (message.kind === "cursor") setMarked(message.at);
      else if (message.kind === "keyboard") postToHost({ kind: "keyboard", has: document.hasFocus() });
      else if (message.kind === "failed") setFailed(true);
      else if (message.kind === "craft-list") setListed(message.craft);
      else if (message.kind === "fleet") setFleet(message.fleet);
      else if (message.kind === "show") {
        setView(message.view);
        // A view that was asked for brings its own positions of the controls: saved ones must not override them.
        saveState({ view: message.view, positions: {} });
      } else if (message.kind === "model") {
        setFailed(false);
        setModel(message.model);
        if (restoredFor.current === null) restore(message.model);
        restoredFor.current = message.model.file;
      }
    });
    postToHost({ kind: "ready" });
    return stop;
  }, []);
  // The host requests the numbers only while their view is open.
  const reportedView = useRef<ViewName>("goggles");
  useEffect(() => {
    if (reportedView.current !== view) postToHost({ kind: "view", view });
    reportedView.current = view;
  }, [view]);
  useEffect(keepScroll, []);
  useEffect(keepFocus, []);
  useEffect(takeDrops, []);
  useEffect(() => {
    if (model) window.scrollTo(0, loadState().scrollTop);
  }, [model === null]);

  const choose = (chosen: ViewName) => {
    setView(chosen);
    saveState({ view: chosen });
  };
  const showSight = ({ of, positions }: BenchSight, from: string) => {
    if (!model) return;
    if (positions) move(model, positions);
    if (of === "osd" || of === "osd-second")
      postToHost({ kind: "look", scenario: model.goggles?.scenario ?? "mid-flight", page: of });
    setStep(from);
    choose(of === "switches" ? "switches" : of === "motors" ? "numbers" : "goggles");
  };
  // Until the host has said what there is, nothing is claimed.
  if (!model && !failed) return listed ? <NoScript craft={listed} /> : <Nameless />;
  if (!model)
    return (
      <>
        <Nameless />
        <Failed />
      </>
    );
  return (
    <>
      {failed && <Failed />}
      {model.craft === "" ? (
        <Nameless />
      ) : (
        <header>
          <h1>{model.craft}</h1>
          <CraftPicker model={model} />
        </header>
      )}
      {model.empty ? (
        <>
          {model.past !== undefined && <PastBar past={model.past} />}
          <Empty why={model.empty} ways={model.emptyWays} />
        </>
      ) : (
        <Tabs view={view} choose={choose}>
          {model.past !== undefined && <PastBar past={model.past} />}
          {model.against && <AgainstBar craft={model.craft} against={model.against} />}
          <Gaps gaps={model.missing} />
          {step !== null && view !== "bench" && <BackToBench back={() => choose("bench")} />}
          {view === "goggles" && <Goggles model={model} marked={marked} />}
          {view === "switches" && <Switches model={model} />}
          {view === "numbers" && <Numbers model={model} marked={marked} />}
          {view === "bench" && <Bench model={model} from={step} arrived={() => setStep(null)} show={showSight} />}
          {view === "fleet" && <Fleet fleet={fleet} />}
        </Tabs>
      )}
    </>
  );
}

/** Where no craft is drawn the page still has a heading, for whoever moves by headings. */
function Nameless() {
  return <h1 class="unseen">Fettle</h1>;
}

/** The language server does not run, or could not make a model. */
function Failed() {
  return (
    <div role="alert">
      <Empty
        why="The drawings are out of date: the language server does not answer. Your scripts are untouched."
        ways={[
          { label: "Restart it", action: { name: "restart-server" } },
          { label: "Show the log", action: { name: "show-log" } },
        ]}
      />
    </div>
  );
}

function Goggles({ model, marked }: { model: PanelModel; marked: LinePlace | null }) {
  const { goggles, begin, file } = model;
  if (goggles) {
    const modes = model.switches?.modes ?? [];
    const lacksSecond = goggles.pages.length === 1 && goggles.page === "osd" && modes.some(isSecondPage);
    return (
      <GogglesView
        craft={model.craft}
        picture={goggles}
        signal={model.signal}
        file={file}
        marked={marked}
        begin={begin}
        lacksSecond={lacksSecond}
        against={picturesOf(model)}
        stands={model.past === undefined ? "now" : "as it was"}
      />
    );
  }
  return (
    <Empty why={model.noGoggles ?? "This script lays out no OSD."} ways={model.gogglesWays}>
      {begin && <BeginOsd begin={begin} file={file} />}
    </Empty>
  );
}

/** Both sides of a comparison, where there are two. */
function picturesOf({ against }: PanelModel): AgainstPictures | null {
  return against?.kind === "pictures" ? against : null;
}

/** The mode by which a pilot turns to the second page. */
function isSecondPage({ name }: { readonly name: string }): boolean {
  return name === "osd-second";
}

function Switches({ model }: { model: PanelModel }) {
  if (!model.switches)
    return <Empty why={model.noSwitches ?? "This script has no handset."} ways={model.switchesWays} />;
  return (
    <>
      <Gaps gaps={model.switchesGaps} />
      <SwitchesView
        picture={model.switches}
        signal={model.signal}
        findings={model.findings}
        move={(positions) => move(model, positions)}
        against={picturesOf(model)}
      />
    </>
  );
}

function Numbers({ model, marked }: { model: PanelModel; marked: LinePlace | null }) {
  if (model.numbers)
    return (
      <NumbersView
        picture={model.numbers}
        file={model.file}
        marked={marked}
        against={picturesOf(model)?.numbers ?? null}
        stands={model.past === undefined ? "now" : "as it was"}
      />
    );
  // Neither numbers nor a reason: the next model will bring them.
  return model.noNumbers === null ? null : <Empty why={model.noNumbers} ways={model.numbersWays} />;
}

/** All craft of the workspace: told apart from the model, as it is no part of one script. */
function Fleet({ fleet }: { readonly fleet: PackedFleet | null }) {
  if (!fleet) return <p role="status">Reading the fleet…</p>;
  return (
    <FleetView
      fleet={fleet}
      look={loadState().fleet}
      keep={(look) => saveState({ fleet: look })}
      open={(at) => postToHost({ kind: "select", at })}
      run={(name: FleetAction) => postToHost({ kind: "run", action: { name } })}
      canWiden
    />
  );
}

/** Moves the simulated controls. */
function move({ file, signal }: PanelModel, positions: ControlsAt): void {
  saveState({ file, positions, ...(signal && { scenario: null }) });
  postToHost({ kind: "positions", positions });
}

/** Chooses the craft to draw, where the open layer or handset is used by several. */
function CraftPicker({ model }: { model: PanelModel }) {
  if (model.alsoIn.length === 0) return null;
  return (
    <label>
      Drawn as in{" "}
      <select value="" onChange={({ currentTarget }) => postToHost({ kind: "craft", file: currentTarget.value })}>
        <option value="">{model.craft}</option>
        {model.alsoIn.map(({ file, name }) => (
          <option key={file} value={file}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

/**
 * Sends the host what the page last showed, after the page was hidden or the editor was closed: scenario and positions.
 */
function restore({ file }: PanelModel): void {
  const remembered = loadState();
  const positions = remembered.file === file ? remembered.positions : {};
  if (!remembered.scenario && Object.keys(positions).length === 0) return;
  postToHost({ kind: "remembered", scenario: remembered.scenario, signal: remembered.signal, positions });
}

function keepScroll(): () => void {
  const keep = () => saveState({ scrollTop: window.scrollY });
  window.addEventListener("scrollend", keep);
  return () => window.removeEventListener("scrollend", keep);
}
