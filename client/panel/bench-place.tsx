/** Where the bench list stands among the views, and the way back to it from another one. */
import { useEffect, useRef } from "preact/hooks";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import type { BenchSight } from "./bench-step.tsx";
import { BenchView } from "./bench-view.tsx";

interface BenchProps {
  readonly model: PanelModel;
  readonly from: string | null;
  readonly arrived: () => void;
  readonly show: (sight: BenchSight, step: string) => void;
}

/** The bench list of the model; the step from which one came has the keyboard. */
export function Bench({ model: { bench, file, past }, from, arrived, show }: BenchProps) {
  // Without a list the next model will bring it.
  const isThere = bench !== undefined;
  useEffect(() => {
    if (isThere) arrived();
  }, [isThere]);
  if (!bench) return null;
  const stands = past === undefined ? "now" : "as it was";
  return <BenchView picture={bench} file={file} stands={stands} from={from} show={show} />;
}

/** The way back to the step from which one came; it has the keyboard, as the step had it. */
export function BackToBench({ back }: { readonly back: () => void }) {
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => button.current?.focus(), []);
  return (
    <p class="tools">
      <button type="button" ref={button} onClick={back}>
        Back to the bench list
      </button>
    </p>
  );
}
