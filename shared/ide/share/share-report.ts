/** The report of `share`: the text, what was taken out of it, and what its owner may want to look at. */
import type { Listed } from "./ledger.ts";
import type { Shared } from "./share.ts";

export interface ReportedPart {
  readonly what: string;
  readonly why: string;
  readonly file: string;
  /** From 0. */
  readonly line: number;
}

export interface ShareReport {
  readonly text: string;
  readonly taken: readonly ReportedPart[];
  readonly kept: readonly ReportedPart[];
}

/** As plain data; `nameOf` gives the name under which a file is reported. */
export function shareReport(
  shared: Shared & { readonly kind: "shared" },
  nameOf: (file: string) => string,
): ShareReport {
  const reported = ({ what, why, source: { file, line } }: Listed) => ({ what, why, file: nameOf(file), line });
  return { text: shared.text, taken: shared.taken.map(reported), kept: shared.kept.map(reported) };
}
