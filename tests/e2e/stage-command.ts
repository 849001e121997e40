/** What the suites ask of their own extension in the editor. */

/** What a suite begins with. */
export interface Stage {
  /** All that the workspace is to have: texts by their paths. */
  readonly files: Readonly<Record<string, string>>;
  /** Of the user; those of the suite before are taken back. */
  readonly settings: Readonly<Record<string, unknown>>;
  /** Files to open, the last of them in front. */
  readonly open: readonly string[];
  /** Ids of views to show instead of the explorer. */
  readonly views: readonly string[];
}

export const STAGE_COMMAND = "stage.set";
