/** The tab of the fleet: the same view as the panel's, with more room. */
import type { FleetAbout, FromFleetTab, PackedFleet } from "../../shared/protocol/fleet-messages.ts";
import { OutOfDate, Waiting } from "./fact-parts.tsx";
import { FleetView } from "./fleet-view.tsx";
import { editorApi, FIRST_FLEET_LOOK } from "./host.ts";
import { useTabAnswer } from "./tab-answer.ts";
import { loadTabState, saveTabState } from "./tab-page.ts";

const initial = { fleet: FIRST_FLEET_LOOK };

function post(message: FromFleetTab): void {
  editorApi.postMessage(message);
}

export function FleetApp() {
  const { result: fleet, failed } = useTabAnswer<FleetAbout, PackedFleet, FromFleetTab>({ kind: "ready" });
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
            open={(at) => post({ kind: "open", at })}
            run={(action) => post({ kind: "run", action })}
            canWiden={false}
          />
        </>
      )}
    </>
  );
}
