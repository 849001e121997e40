/**
 * Reference pages as HTML. They are written here, so only what they use of Markdown is read:
 * headings, paragraphs, lists within lists, fenced scripts, code, bold and italic words.
 */

/** The address that a name in code leads to, by the chapter that it stands in; null for what is no name. */
export type LinkTo = (name: string, chapter: string) => string | null;

/** Every heading goes one level down, since the page as a whole has its own. */
export function htmlOf(markdown: string, linkTo: LinkTo): string {
  const out: string[] = [];
  let chapter = "";
  const inline = (text: string) => inlineHtml(text, (name) => linkTo(name, chapter));
  const lines = markdown.split("\n");
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]!;
    const heading = /^(#+) (.*)$/.exec(line);
    if (heading) {
      const level = heading[1]!.length + 1;
      if (level > 2) chapter = heading[2]!;
      out.push(`<h${level}>${escapeHtml(heading[2]!)}</h${level}>`);
    } else if (line.startsWith("```")) {
      const end = lines.indexOf("```", i + 1);
      out.push(`<pre tabindex="0"><code>${escapeHtml(lines.slice(i + 1, end).join("\n"))}</code></pre>`);
      i = end;
    } else if (line.startsWith("- ")) {
      const end = endOf(lines, i, /^( *- |$)/);
      out.push(listHtml(lines.slice(i, end), inline));
      i = end - 1;
    } else if (line !== "") {
      out.push(`<p>${inline(line)}</p>`);
    }
  }
  return out.join("\n");
}

/** The first line from there on that is no part of the list; a list ends with an empty line. */
function endOf(lines: readonly string[], from: number, part: RegExp): number {
  let end = from;
  while (end < lines.length && lines[end] !== "" && part.test(lines[end]!)) end++;
  return end;
}

function listHtml(lines: readonly string[], inline: (text: string) => string): string {
  let html = "";
  let depth = -1;
  for (const line of lines) {
    const level = (line.length - line.trimStart().length) / 2;
    if (level > depth) html += "<ul>".repeat(level - depth);
    else html += `</li>${"</ul></li>".repeat(depth - level)}`;
    html += `<li>${inline(line.trim().slice(2))}`;
    depth = level;
  }
  return `${html}</li>${"</ul></li>".repeat(depth)}</ul>`;
}

function inlineHtml(text: string, linkTo: (name: string) => string | null): string {
  return text
    .split(/(`[^`]+`|\*\*.+?\*\*|\*[^*]+\*)/)
    .map((piece) => {
      if (/^`.+`$/.test(piece)) {
        const name = piece.slice(1, -1);
        const link = linkTo(name);
        const code = `<code>${escapeHtml(name)}</code>`;
        return link === null ? code : `<a href="${escapeHtml(link)}">${code}</a>`;
      }
      if (/^\*\*.+\*\*$/.test(piece)) return `<strong>${escapeHtml(piece.slice(2, -2))}</strong>`;
      if (/^\*.+\*$/.test(piece)) return `<em>${escapeHtml(piece.slice(1, -1))}</em>`;
      return escapeHtml(piece);
    })
    .join("");
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Text as it may stand in HTML, in an attribute too. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"]/g, (character) => ENTITIES[character]!);
}
