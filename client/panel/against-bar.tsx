/** Which craft is laid over the one that is drawn, in sight above every view, with the way back. */
import { otherInWords } from "../../shared/draw/against-words.ts";
import type { Against } from "../../shared/protocol/against.ts";
import { postToHost } from "./host.ts";

/** The names by which all words of the views tell the two sides apart. */
export function AgainstBar({ craft, against }: { readonly craft: string; readonly against: Against }) {
  return (
    <section class="against" aria-label="Comparison">
      {against.kind === "none" ? (
        <p>{against.message}</p>
      ) : (
        <p>
          <b>Here</b> {craft} <span class="whole">→</span> <b>there</b> {otherInWords(against)}
        </p>
      )}
      {against.kind === "pictures" && against.notes.map((note) => <p key={note}>{note}</p>)}
      <button type="button" onClick={() => postToHost({ kind: "end-against" })}>
        End the comparison
      </button>
    </section>
  );
}
