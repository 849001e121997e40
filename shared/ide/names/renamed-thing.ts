/** What becomes of things once one of them has another name. */
import { sameThing, type Thing } from "./thing.ts";

/** A thing as it is once another has a new name: that one itself, and what belongs to it. */
export function renamedThing(each: Thing, what: Thing, name: string): Thing {
  // The name in a header is none by which a file is known.
  if (what.kind === "file") return each;
  if (sameThing(each, what)) return { ...each, name };
  const owns = (what.kind === "control" && each.kind === "position") || (what.kind === "code" && each.kind === "part");
  return owns && each.of === what.name ? { ...each, of: name } : each;
}
