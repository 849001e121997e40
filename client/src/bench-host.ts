/** What the page of the panel says and is told about the bench list. */

import type { Uri as Address } from "../../shared/protocol/addresses.ts";
import type { BenchLooks, BenchShown } from "../../shared/protocol/bench.ts";
import {
  BENCH_EDIT_REQUEST,
  BENCH_READING_REQUEST,
  type BenchEditParams,
  type BenchEditResult,
  type BenchReadingParams,
  type BenchTrial,
} from "../../shared/protocol/bench-edit.ts";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import type { BenchMade, FromPanel, ToPanel } from "../../shared/protocol/panel-messages.ts";
import { localDay } from "../../shared/text/day.ts";
import type { Ask } from "./ask.ts";
import type { OsdGestures } from "./osd-gestures.ts";

type BenchMessage = Extract<FromPanel, { kind: `bench${string}` }>;

/** A page of the panel, as far as it is answered here. */
interface Answered {
  post(message: ToPanel): void;
}

/** A script for which something was done, and the craft that a layer is shown as part of. */
export interface BenchOf {
  readonly uri: Address;
  readonly craft: Address | undefined;
}

export interface BenchHost {
  /** How much of the list of a script is to be shown; undefined where nobody chose. */
  shown(uri: Address): BenchShown | undefined;
  /** A model came: of which craft it shows the list. */
  came(model: PanelModel): void;
  /** `of` is the script that a message names; undefined where nothing is to be written to it. */
  receive(message: BenchMessage, from: Answered, of: BenchOf | undefined): void;
}

interface Parts {
  readonly ask: Ask;
  readonly gestures: Pick<OsdGestures, "write">;
  readonly log: (message: string) => void;
  /** To every page but the one that said it. */
  readonly post: (message: ToPanel, except: Answered) => void;
  readonly refresh: () => void;
}

/** Keeps how lists are looked at while the editor runs; what is written goes through the server. */
export function benchHost({ ask, gestures, log, post, refresh }: Parts): BenchHost {
  const looks = new Map<string, BenchLooks>();
  const craftOf = new Map<string, string>();

  const write = async (gesture: BenchMade, from: Answered, of: BenchOf) => {
    const params: BenchEditParams = {
      ...of,
      gesture: gesture.kind === "day" ? { ...gesture, day: localDay(new Date()) } : gesture,
    };
    const name = gesture.kind === "reading" ? gesture.name : gesture.check;
    let told = "";
    try {
      const done = await gestures.write(async () => {
        const answer = await ask<BenchEditResult>(BENCH_EDIT_REQUEST, params);
        if (answer.kind === "edits") told = answer.told;
        return answer;
      });
      const isMade = done.kind === "made";
      from.post({ kind: "bench-told", name, message: isMade ? told : done.message, isWritten: isMade });
    } catch (error) {
      log(`“${name}” could not be written for ${of.uri}: ${error}`);
      from.post({ kind: "bench-told", name, message: NOT_WRITTEN, isWritten: false });
    }
    refresh();
  };
  const tryOut = async (name: string, typed: string, from: Answered, of: BenchOf) => {
    const params: BenchReadingParams = { ...of, name, text: typed };
    from.post({ kind: "bench-tried", name, typed, trial: await ask<BenchTrial>(BENCH_READING_REQUEST, params) });
  };

  return {
    shown: (uri) => looks.get(craftOf.get(uri) ?? uri)?.shown ?? undefined,
    came({ file, bench }) {
      if (bench) craftOf.set(file, bench.list.file);
    },
    receive(message, from, of) {
      if (message.kind === "bench-looks") {
        const before = [...looks.values()].map(({ shown }) => shown);
        for (const [file, each] of Object.entries(message.looks))
          if (message.since === "now" || !looks.has(file)) looks.set(file, each);
        if (message.since === "now") post({ kind: "bench-looks", looks: message.looks }, from);
        else from.post({ kind: "bench-looks", looks: Object.fromEntries(looks) });
        const after = [...looks.values()].map(({ shown }) => shown);
        if (before.join() !== after.join()) refresh();
      } else if (!of) {
        refresh();
      } else if (message.kind === "bench") {
        void write(message.gesture, from, of);
      } else {
        // What is typed is only a question: without an answer nothing stands beside it.
        tryOut(message.name, message.typed, from, of).catch((error) => log(`A reading could not be tried: ${error}`));
      }
    },
  };
}

const NOT_WRITTEN = "Nothing was written, since the language server does not answer: restart it, then try again.";
