/** An HTML page taken apart, as far as tests ask. */

/** Every tag in order, the values of its attributes left out. */
export function tagsOf(html: string): string[] {
  // What is between quotes holds neither “>” nor a quote, since both are escaped.
  return [...html.matchAll(/<(?:[^>"]|"[^"]*")*>/g)].map(([tag]) => tag.replaceAll(/"[^"]*"/g, '""'));
}

/** The words of a page or a part of it, as they are read; what only a screen reader or only an eye has counts too. */
export function wordsOf(html: string): string {
  return html
    .replace(/<head>.*<\/head>/s, "")
    .replaceAll(/<(?:[^>"]|"[^"]*")*>/g, " ")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&")
    .replaceAll(/\s+/g, " ")
    .trim();
}
