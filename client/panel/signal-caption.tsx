/** Below the goggles: the lost signal phase by phase, and what the picture can tell of it. */
import { phaseOf, pictureInWords, signalStateInWords, stepInWords } from "../../shared/draw/signal-words.ts";
import type { LinePlace } from "../../shared/protocol/panel.ts";
import type { SignalPicture } from "../../shared/protocol/signal.ts";
import { CursorLine } from "./line-links.tsx";
import { SignalLine } from "./signal-line.tsx";
import { useSignalStep } from "./signal-state.ts";

/** The caption; the picture above it follows with the next model. */
export function SignalCaption({ picture, marked }: { picture: SignalPicture; marked: LinePlace | null }) {
  const [step, setStep] = useSignalStep(picture);
  return (
    <CursorLine.Provider value={marked}>
      <p>
        {signalStateInWords(picture, step)} <span class="quiet">{pictureInWords(phaseOf(picture, step))}</span>
      </p>
      <SignalLine picture={picture} at={step} choose={setStep} spoken={stepInWords(picture, step)} />
    </CursorLine.Provider>
  );
}
