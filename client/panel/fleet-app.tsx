/** The tab of the fleet: the same view as the panel's, with more room. */
import { useEffect, useState } from "preact/hooks";
import type { FromFleetTab, PackedFleet, ToFleetTab } from "../../shared/protocol/fleet-messages.ts";
import { OutOfDate, Waiting } from "./fact-parts.tsx";
import { FleetView } from "./fleet-view.tsx";
import { editorApi, FIRST_FLEET_LOOK } from "./host.ts";
import { keepFocus } from "./keep-focus.ts";
import { loadTabState, onTabMessage, saveTabState } from "./tab-page.ts";

const initial = { fleet: FIRST_FLEET_LOOK };

function post(message: FromFleetTab): void {
  editorApi.postMessage(message);
}

export function FleetApp() {
  const [fleet, setFleet] = useState<PackedFleet | null>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    const stop = onTabMessage((message: ToFleetTab) => {
      switch (message.kind) {
        case "about":
          return saveTabState({ about: message.about });
        case "fleet":
          setFailed(false);
          return setFleet(message.fleet);
        case "failed":
          return setFailed(true);
        case "keyboard":
          return post({ kind: "keyboard", has: document.hasFocus() });
      }
    });
    post({ kind: "ready" });
    return stop;
  }, []);
  useEffect(keepFocus, []);
  return (
    <>
      {failed && <OutOfDate />}
      {fleet === null && !failed && <Waiting words="Reading the fleet…" />}
      {fleet !== null && (
        <>
          <h1>The fleet</h1>
          <FleetView
            fleet={fleet}
            look={loadTabState(initial).fleet}
            keep={(look) => saveTabState({ fleet: look })}
            open={(at) => post({ kind: "select", at })}
            run={(action) => post({ kind: "run", action })}
            canWiden={false}
          />
        </>
      )}
    </>
  );
}
