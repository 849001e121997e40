/** The values of a craft one by one, each of which one slot of a board's line may hold. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Value } from "../../syntax/value.ts";
import { heldOfValue } from "../codes/held.ts";
import type { Held } from "../dialect.ts";
import { exact } from "../exact.ts";
import { inCatalogueUnits } from "../read/catalogue-units.ts";
import { type Want, wantedOf } from "../write/wanted.ts";

/** How the values of an entry stand on the right side of a dialect, each in its place. */
export type EntryForm =
  | { readonly kind: "whole" }
  | { readonly kind: "text" }
  | { readonly kind: "fields"; readonly names: readonly string[] }
  | { readonly kind: "cell" }
  | { readonly kind: "range" }
  | { readonly kind: "size" };

/** An entry with the values that it is made of. */
export interface AtomEntry {
  /** `SECTION NAME` */
  readonly what: string;
  readonly want: Want;
  readonly form: EntryForm;
  readonly values: readonly Held[];
}

/** An entry in each of the scripts that have it. */
export interface Member {
  readonly what: string;
  readonly rows: readonly number[];
  readonly entries: readonly AtomEntry[];
}

/** The entries of a craft that slots can hold; conditions and what follows a dial are none. */
export function atomsOf(craft: Craft, workspace: Workspace): ReadonlyMap<string, AtomEntry> {
  const atoms = new Map<string, AtomEntry>();
  for (const want of wantedOf(craft, workspace).wants) {
    const made = want.item === null ? entryOf(want) : null;
    if (made) atoms.set(want.what, { what: want.what, want, ...made });
  }
  return atoms;
}

function entryOf({ content, setting }: Want): Pick<AtomEntry, "form" | "values"> | null {
  if (content.kind === "cell") return { form: { kind: "cell" }, values: [whole(content.column), whole(content.row)] };
  if (content.kind !== "value") return null;
  const value = setting ? inCatalogueUnits(content.value, setting) : content.value;
  switch (value.kind) {
    case "fields":
      return value.fields.every((field) => isSimple(field.value))
        ? {
            form: { kind: "fields", names: value.fields.map(({ name }) => name) },
            values: value.fields.map((field) => heldOfValue(field.value)),
          }
        : null;
    case "range":
      return { form: { kind: "range" }, values: [heldOfValue(value.from), heldOfValue(value.to)] };
    case "size":
      return { form: { kind: "size" }, values: [whole(value.columns), whole(value.rows)] };
    case "text":
      return { form: { kind: "text" }, values: [heldOfValue(value)] };
    default:
      return isSimple(value) ? { form: { kind: "whole" }, values: [heldOfValue(value)] } : null;
  }
}

function whole(number: number): Held {
  return { kind: "number", number: exact(BigInt(number)), unit: "" };
}

function isSimple({ kind }: Value): boolean {
  return (
    kind === "quantity" ||
    kind === "integer" ||
    kind === "choice" ||
    kind === "yes-no" ||
    kind === "list" ||
    kind === "order"
  );
}
