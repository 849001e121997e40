/** What the checks of right sides share. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { type Fault, fault } from "../../syntax/read-context.ts";
import type { Meaning, Ref } from "../dialect.ts";
import type { Holder } from "./spellings.ts";
import type { WordsTaken } from "./words-taken.ts";

/** A right side that is checked. */
export interface Task {
  readonly meaning: Meaning;
  readonly spec: SectionSpec;
  readonly catalogue: Catalogue;
  readonly taken: WordsTaken;
  /** What a slot of the left sides, or of the heading, holds; null where there is none of this name. */
  holder(ref: Ref): Holder | null;
}

/** A fault of a right side as a whole. */
export function wrong(message: string): Fault {
  return fault("syntax", { start: 0, end: 0 }, message);
}

/** The fault of bits that stand where one of their parts is meant. */
export function wholeBits({ slot }: Ref, parts: readonly { readonly name: string }[]): Fault {
  return wrong(`“{${slot}}” is in several parts: name one of them, as “{${slot}.${parts[0]?.name ?? "part"}}”.`);
}
