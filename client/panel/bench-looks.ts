/** How a craft's bench list is looked at: kept by the page, and the same on every page of the panel. */
import { useEffect, useState } from "preact/hooks";
import type { BenchLooks } from "../../shared/protocol/bench.ts";
import type { BenchLooksOf } from "../../shared/protocol/panel-messages.ts";
import { loadState, onHostMessage, postToHost, saveState } from "./host.ts";

const UNTOUCHED: BenchLooks = { ticks: {}, shown: null, folds: {} };
/** Craft that are remembered: whoever is at the bench has one of them before him. */
const MOST_CRAFT = 20;

/** The looks at the list of a craft's file, and what changes some of them. */
export function useBenchLooks(file: string): readonly [BenchLooks, (some: Partial<BenchLooks>) => void] {
  const [all, setAll] = useState(loadState().bench);
  useEffect(() => {
    const stop = onHostMessage((message) => {
      if (message.kind === "bench-looks") setAll(keep(message.looks));
    });
    // Another page may have ticked more since this one was looked at.
    postToHost({ kind: "bench-looks", looks: loadState().bench, since: "before" });
    return stop;
  }, []);
  const look = (some: Partial<BenchLooks>) => {
    const looks = { [file]: { ...UNTOUCHED, ...loadState().bench[file], ...some } };
    setAll(keep(looks));
    postToHost({ kind: "bench-looks", looks, since: "now" });
  };
  return [{ ...UNTOUCHED, ...all[file] }, look];
}

/** Saves looks over those that are saved, the latest last. */
function keep(looks: BenchLooksOf): BenchLooksOf {
  const others = Object.entries(loadState().bench).filter(([file]) => !Object.hasOwn(looks, file));
  const bench = Object.fromEntries([...others, ...Object.entries(looks)].slice(-MOST_CRAFT));
  saveState({ bench });
  return bench;
}
