/** What every answer is held to besides its schema: places lie in their texts, and edits of one text do not overlap. */
import type { TextDocument } from "vscode-languageserver-textdocument";

type Place = { readonly line: number; readonly character: number };
type Range = { readonly start: Place; readonly end: Place };
// biome-ignore lint/suspicious/noExplicitAny: an answer that fits its schema is looked through for what has a place.
type Answer = any;

/** The text behind an address; null where nobody knows it. */
export type TextOf = (uri: string) => TextDocument | null;

/** What is wrong in an answer to a request about a document, in words. */
export function misplaced(method: string, params: Answer, result: Answer, textOf: TextOf): string[] {
  const faults: string[] = [];
  const hold = (fault: string | null) => void (fault && faults.push(`${method}: ${fault}`));
  const uri: string | undefined = params.textDocument?.uri ?? params.uri;
  if (method === "textDocument/diagnostic")
    for (const finding of result?.items ?? []) hold(beyond(finding, uri!, textOf));
  if (uri !== undefined && /[fF]ormatting$/.test(method)) hold(clash(result ?? [], uri, textOf));
  // What becomes of moved files it tells by the addresses that they have then.
  if (method === "fettle/useLines") return faults;
  for (const { of, edits } of editedIn(result)) hold(clash(edits, of, textOf));
  return faults;
}

/** A finding that lies outside of its text. */
export function beyond({ range, message, relatedInformation }: Answer, uri: string, textOf: TextOf): string | null {
  const places = [{ uri, range }, ...(relatedInformation ?? []).map(({ location }: Answer) => location)];
  const outside = places.find((each) => !isIn(each.range, textOf(each.uri)));
  return outside ? `the finding “${message}” stands beyond its text: ${JSON.stringify(outside)}` : null;
}

/** Every list of edits in an answer, with the address of the text. */
function editedIn(answer: Answer): { of: string; edits: Answer[] }[] {
  if (typeof answer !== "object" || answer === null) return [];
  if (Array.isArray(answer)) return answer.flatMap(editedIn);
  const of = answer.textDocument?.uri ?? answer.file ?? answer.uri;
  const own = typeof of === "string" && Array.isArray(answer.edits) ? [{ of, edits: answer.edits }] : [];
  const changes = Object.entries(answer.edit?.changes ?? answer.changes ?? {});
  const byUri = changes.flatMap(([uri, edits]) => (Array.isArray(edits) ? [{ of: uri, edits }] : []));
  return [...own, ...byUri, ...Object.values(answer).flatMap(editedIn)];
}

function clash(edits: readonly Answer[], uri: string, textOf: TextOf): string | null {
  const ranges: Range[] = edits.map(({ range }) => range).filter(Boolean);
  const text = textOf(uri);
  const outside = ranges.find((range) => !isIn(range, text));
  if (outside) return `an edit of ${uri} lies outside: ${JSON.stringify(outside)}`;
  const sorted = ranges.toSorted((a, b) => order(a.start, b.start) || order(a.end, b.end));
  const overlapping = sorted.find((range, i) => i > 0 && order(sorted[i - 1]!.end, range.start) > 0);
  return overlapping ? `edits of ${uri} overlap: ${JSON.stringify(sorted)}` : null;
}

function order(a: Place, b: Place): number {
  return a.line - b.line || a.character - b.character;
}

function isIn({ start, end }: Range, text: TextDocument | null): boolean {
  if (order(start, end) > 0) return false;
  return text === null || [start, end].every((place) => order(text.positionAt(text.offsetAt(place)), place) === 0);
}
