/** Snippets for editors that have none. */

/** An escaped sign, a tab stop, or one with a text or choices of its own. */
const PIECE = /\\([\\$}])|\$(\d+)|\$\{(\d+)(?::((?:\\[\\$}]|[^\\}])*)|\|[^|]*\|)?\}/g;

/**
 * What is left of a snippet where the editor has no tab stops: texts that are proposed stay, and it ends at the
 * first place that waits to be filled in, as that is where one goes on typing.
 */
export function withoutStops(snippet: string): string {
  let plain = "";
  let from = 0;
  for (const piece of snippet.matchAll(PIECE)) {
    const [whole, sign, bare, , proposed] = piece;
    plain += snippet.slice(from, piece.index);
    from = piece.index + whole.length;
    if (sign !== undefined) plain += sign;
    else if (proposed) plain += proposed.replace(/\\([\\$}])/g, "$1");
    // The cursor ends there, whatever else is filled in.
    else if (bare !== "0") return plain;
  }
  return plain + snippet.slice(from);
}
