/** A small button behind a name that shows its page. */
import { postToHost } from "./host.ts";

/** `of` is the page, KIND/NAME; `name` as it is read out. */
export function ExplainButton({ of, name }: { readonly of: string; readonly name: string }) {
  const label = `Explain ${name}`;
  return (
    <button
      type="button"
      class="explain"
      aria-label={label}
      title={label}
      onClick={() => postToHost({ kind: "run", action: { name: "explain", of } })}
    >
      ?
    </button>
  );
}
