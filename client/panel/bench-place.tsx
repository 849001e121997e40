/** Where the bench list stands among the views, and the way back to it from another one. */
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import type { BenchSight } from "./bench-step.tsx";
import { BenchView } from "./bench-view.tsx";
import { loadState } from "./host.ts";

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
  const { scrollTop } = useRef(loadState()).current;
  useEffect(() => {
    if (!isThere) return;
    // Of a page that comes back nothing was there to be scrolled until now.
    if (from === null) window.scrollTo(0, scrollTop);
    arrived();
  }, [isThere]);
  useScrollOf(bench?.list.file);
  if (!bench) return null;
  const stands = past === undefined ? "now" : "as it was";
  return <BenchView key={bench.list.file} picture={bench} file={file} stands={stands} from={from} show={show} />;
}

/** Each craft's list stays where it was left, and begins with its warning: none is shown where the one before stood. */
function useScrollOf(file: string | undefined): void {
  const tops = useRef(new Map<string, number>());
  const shown = useRef<string | undefined>(undefined);
  useLayoutEffect(() => {
    if (file === undefined) return undefined;
    if (shown.current !== undefined && shown.current !== file) window.scrollTo(0, tops.current.get(file) ?? 0);
    shown.current = file;
    const keep = () => tops.current.set(file, window.scrollY);
    window.addEventListener("scroll", keep, { passive: true });
    return () => window.removeEventListener("scroll", keep);
  }, [file]);
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
