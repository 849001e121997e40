/** Which packs have findings, so that of many the worst is seen first. */
import type { Craft } from "../../model/craft.ts";
import type { Finding } from "../../protocol/findings.ts";
import type { NumbersPicture, PackPicture } from "../../protocol/numbers.ts";

const RANK = { error: 0, warning: 1, info: 2, hint: 3 } as const;

/**
 * The numbers, each pack with the severity of its worst finding: on a line of the pack's own, or on that of its name.
 * The same value where no pack has any.
 */
export function withWorstFindings(
  numbers: NumbersPicture,
  craft: Craft,
  findings: readonly Pick<Finding, "file" | "range" | "severity">[],
): NumbersPicture {
  const worst = new Map<string, Finding["severity"]>();
  for (const { file, range, severity } of findings) {
    const line = `${range.start.line} ${file}`;
    const before = worst.get(line);
    if (before === undefined || RANK[severity] < RANK[before]) worst.set(line, severity);
  }
  const worstOf = ({ section }: PackPicture) => {
    const own = [...(craft.settings.get(section)?.values() ?? [])].map(({ source }) => source);
    const name = craft.sections.get(section);
    const all = [...own, ...(name ? [name] : [])].flatMap(({ file, line }) => worst.get(`${line} ${file}`) ?? []);
    return all.sort((a, b) => RANK[a] - RANK[b])[0] ?? null;
  };
  if (worst.size === 0) return numbers;
  const packs = numbers.packs.map((pack) => ({ ...pack, worst: worstOf(pack) }));
  return packs.every((pack) => pack.worst === null) ? numbers : { ...numbers, packs };
}
