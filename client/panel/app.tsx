/** The panel: three views of the open script, and the messages shown where there is nothing to draw. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { ControlsAt, LinePlace, PanelModel, ViewName } from "../../shared/protocol/panel.ts";
import type { ToPanel } from "../../shared/protocol/panel-messages.ts";
import { GogglesView } from "./goggles-view.tsx";
import { loadState, onHostMessage, postToHost, saveState } from "./host.ts";
import { keepFocus } from "./keep-focus.ts";
import { NumbersView } from "./numbers-view.tsx";
import { SwitchesView } from "./switches-view.tsx";
import { Tabs } from "./tabs.tsx";

const NO_SCRIPT = "Open a script, a file that ends in .fettle, to see here what its pilot will see and switch.";

/** The whole page. It keeps only what is being viewed; everything else comes with each model. */
export function App() {
  const [model, setModel] = useState<PanelModel | null>(null);
  const [marked, setMarked] = useState<LinePlace | null>(null);
  const [view, setView] = useState<ViewName>(loadState().view);
  const restoredFor = useRef<string | null>(null);

  useEffect(() => {
    const stop = onHostMessage((message: ToPanel) => {
      if (message.kind === "cursor") setMarked(message.at);
      else if (message.kind === "keyboard") postToHost({ kind: "keyboard", has: document.hasFocus() });
      else if (message.kind === "show") {
        setView(message.view);
        // A view that was asked for brings its own positions of the controls: saved ones must not override them.
        saveState({ view: message.view, positions: {} });
      } else {
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
  useEffect(() => {
    if (model) window.scrollTo(0, loadState().scrollTop);
  }, [model === null]);

  const choose = (chosen: ViewName) => {
    setView(chosen);
    saveState({ view: chosen });
  };
  if (!model) return <NoScript />;
  return (
    <>
      {model.craft !== "" && (
        <header>
          <h1>{model.craft}</h1>
          <CraftPicker model={model} />
        </header>
      )}
      {model.empty ? (
        <p class="empty">{model.empty}</p>
      ) : (
        <Tabs view={view} choose={choose}>
          {view === "goggles" && <Goggles model={model} marked={marked} />}
          {view === "switches" && <Switches model={model} />}
          {view === "numbers" && <Numbers model={model} marked={marked} />}
        </Tabs>
      )}
    </>
  );
}

function NoScript() {
  return (
    <div class="empty">
      <p>{NO_SCRIPT}</p>
      <button type="button" onClick={() => postToHost({ kind: "run", action: { name: "new-craft" } })}>
        New craft…
      </button>
    </div>
  );
}

function Goggles({ model, marked }: { model: PanelModel; marked: LinePlace | null }) {
  if (model.goggles)
    return <GogglesView craft={model.craft} picture={model.goggles} file={model.file} marked={marked} />;
  return <p class="empty">{model.noGoggles ?? "This script lays out no OSD."}</p>;
}

function Switches({ model }: { model: PanelModel }) {
  if (!model.switches) return <p class="empty">{model.noSwitches ?? "This script has no handset."}</p>;
  const move = (positions: ControlsAt) => {
    saveState({ file: model.file, positions });
    postToHost({ kind: "positions", positions });
  };
  return <SwitchesView picture={model.switches} findings={model.findings} move={move} />;
}

function Numbers({ model, marked }: { model: PanelModel; marked: LinePlace | null }) {
  if (model.numbers) return <NumbersView picture={model.numbers} marked={marked} />;
  // Neither numbers nor a reason: the next model will bring them.
  return model.noNumbers === null ? null : <p class="empty">{model.noNumbers}</p>;
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
  postToHost({ kind: "remembered", scenario: remembered.scenario, positions });
}

function keepScroll(): () => void {
  const keep = () => saveState({ scrollTop: window.scrollY });
  window.addEventListener("scrollend", keep);
  return () => window.removeEventListener("scrollend", keep);
}
