/** Which commit is drawn, where the script in front is one of the past; in sight above every view. */

/** Says that it is drawn as it was, and stays so. */
export function PastBar({ past }: { readonly past: string }) {
  return (
    <section class="against" aria-label="Of the past">
      <p>
        <b>As it was</b> {past}
      </p>
      <p>Only drawn: nothing is changed in it. Open the file itself for that.</p>
    </section>
  );
}
