/** A stranger's text in Markdown: text there, and nothing that Markdown means by it. */

/**
 * A pilot's own text, escaped so that it is not read as Markdown: neither its marks nor what stands for characters, nor
 * an address that readers make a link of by themselves.
 */
export function plainText(text: string): string {
  return text
    .replace(/[\\`*_{}[\]<>#|~!&@]|:(?=\/)|(?<=www)\./gi, "\\$&")
    .replace(/^([ \t]*)([-+=]|\d{1,9}(?=[.)]))/gm, (_, blanks: string, mark: string) =>
      /\d/.test(mark) ? `${blanks}${mark}\\` : `${blanks}\\${mark}`,
    )
    .replace(/^[ \t]{2,}/gm, " ");
}
