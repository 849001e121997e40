/** Names in a condition that cannot be read to its end: a control begins with a capital letter, whatever is wrong around it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { RESERVED } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import { type Named, named, thing } from "./thing.ts";

const TOKEN = /"(?:[^"\\]|\\.)*"?|[A-Za-z][A-Za-z0-9-]*|\S/g;
const CONTROL = /^[A-Z][A-Za-z0-9]*$/;
const CHANNEL = /^ch(\d+)$/;

/** The names between two columns of a line: controls, a position behind “CONTROL is”, channels, and modes that stand alone. */
export function namesInCondition(text: string, { start, end }: Cols, catalogue: Catalogue): Named[] {
  const found: Named[] = [];
  let control = "";
  let awaits: "anything" | "test" | "position" = "anything";
  for (const { 0: word, index } of text.slice(start, end).matchAll(TOKEN)) {
    const at = { start: start + index, end: start + index + word.length };
    const channel = CHANNEL.exec(word);
    if (CONTROL.test(word)) {
      found.push(named(thing("control", word), at, "reads"));
      control = word;
      awaits = "test";
    } else if (awaits === "test" && word === "is") awaits = "position";
    else if (awaits === "position" && word === "not") awaits = "position";
    else {
      if (channel) found.push(named(thing("channel", `ch${Number(channel[1])}`), at, "reads"));
      else if (awaits === "position" && /^[a-z]/.test(word) && !RESERVED.has(word))
        found.push(named(thing("position", word, control), at, "reads"));
      else if (awaits === "anything" && catalogue.mode(word)) found.push(named(thing("mode", word), at, "reads"));
      awaits = "anything";
    }
  }
  return found;
}
