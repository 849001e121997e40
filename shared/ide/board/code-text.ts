/** Text of a board or a script as it stands, in Markdown. */

/** Between as many backticks as it takes; line breaks and blanks at the ends would be lost. */
export function codeText(text: string): string {
  const longest = Math.max(0, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = "`".repeat(longest + 1);
  const pad = /^`|`$/.test(text) ? " " : "";
  return `${fence}${pad}${text}${pad}${fence}`;
}
