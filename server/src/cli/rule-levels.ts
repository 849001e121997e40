/** `--rule CODE=LEVEL`, as often as it is given. */
import { RULE_LEVELS, type RuleLevel, type RuleLevels } from "../../../shared/model/rule-levels.ts";
import { readLevel } from "../../../shared/rules/engine/levels.ts";
import type { Arguments } from "./arguments.ts";
import { CannotRun } from "./io.ts";

/** The levels that were asked for; the last one counts where a rule is named twice. */
export function ruleLevels(given: Arguments): RuleLevels {
  return new Map(given.all("rule").map(levelOf));
}

function levelOf(text: string): [string, RuleLevel] {
  const [code = "", level, ...rest] = text.split("=").map((part) => part.trim());
  if (level === undefined || rest.length > 0)
    throw new CannotRun(`--rule takes CODE=${RULE_LEVELS.join("|")}, as in osd-overlap=off, and not “${text}”`);
  const read = readLevel(code, level);
  if (read.kind === "refused") throw new CannotRun(`--rule ${text}: ${read.why}`);
  return [code, read.level];
}
