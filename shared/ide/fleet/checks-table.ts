/** The checks on the bench of each craft: the day, or that it was never made. */

import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { BENCH_CHECKS } from "../../rules/lib/bench-checks.ts";
import { dayOf } from "../../rules/lib/past-checks.ts";
import type { Draft, DraftColumn } from "./cells.ts";

export const CHECK_COLUMNS: readonly DraftColumn[] = BENCH_CHECKS.map(({ name }) => ({
  key: name,
  name: name.slice(name.indexOf(".") + 1),
  what: null,
}));

/** The checks of a craft, by SECTION.NAME. */
export function checkCells(craft: Craft): ReadonlyMap<string, Draft> {
  return new Map(
    BENCH_CHECKS.map(({ name }): [string, Draft] => {
      const day = dayOf(craft, name);
      const at = settingOf(craft, name)?.source ?? null;
      return [name, { text: day ?? "never", meaning: null, at }];
    }),
  );
}
