/** The catalogue's units in the form that the parsers of values use. */
import { convert, unitFamilies, unitSymbol } from "../catalogue/units.ts";
import type { Units } from "../syntax/read-context.ts";

export const units: Units = {
  all: unitFamilies.flatMap((family) => family.units.map((unit) => unit.symbol)),
  symbol: unitSymbol,
  convert,
};
