/** The panel: three views of the script that is open, and what to say where there is nothing to draw. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { ControlsAt, LinePlace, PanelModel, ToPanel, ViewName } from "../../shared/protocol/panel.ts";
import { GogglesView } from "./goggles-view.tsx";
import { loadState, onHostMessage, postToHost, saveState } from "./host.ts";
import { keepFocus } from "./keep-focus.ts";
import { NumbersView } from "./numbers-view.tsx";
import { SwitchesView } from "./switches-view.tsx";
import { Tabs } from "./tabs.tsx";

const NO_SCRIPT = "Open a script, a file that ends in .fettle, and see here what its pilot will see and switch.";

/** The whole page. It keeps what was looked at, and no more: all else comes with each model. */
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
        // What is to be shown counts, not where the switches once stood.
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
  // The host asks for the numbers only while they are looked at.
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
      <button type="button" onClick={() => postToHost({ kind: "new-craft" })}>
        New craft…
      </button>
    </div>
  );
}

function Goggles({ model, marked }: { model: PanelModel; marked: LinePlace | null }) {
  if (model.goggles)
    return (
      <GogglesView
        craft={model.craft}
        picture={model.goggles}
        file={model.file}
        version={model.version}
        marked={marked}
      />
    );
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
  // Without a reason for it, they are on their way.
  return model.noNumbers === null ? null : <p class="empty">{model.noNumbers}</p>;
}

/** A layer or a handset is part of several craft: one of them is drawn. */
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

/** A page that was hidden, or an editor that was closed, comes back with what was looked at, and the switches as they stood. */
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
