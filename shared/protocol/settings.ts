/**
 * What a user may set for the language server: the section “fettle” of an editor's settings, which the server
 * asks for with `workspace/configuration`. A client without that sends the section with
 * `workspace/didChangeConfiguration`, or as `settings` of its initialization options.
 */

export const SETTINGS_SECTION = "fettle";

/** What is done with the `use` lines that name a file, when the file is renamed, moved or deleted. */
export const USE_LINE_WAYS = ["ask", "always", "never"] as const;
export type UseLineWay = (typeof USE_LINE_WAYS)[number];

/** Every setting that the server reads, by its name in the section, with what it is where nobody sets it. */
export const SERVER_SETTINGS = {
  "findings.ofClosedScripts": true,
  /** By the code of a rule, its level: off, hint, info, warning or error. */
  rules: {} as Readonly<Record<string, string>>,
  /** By the kind of a hint, whether it is shown. */
  hints: { consequence: true, pulses: true } as Readonly<Record<string, boolean>>,
  lenses: true,
  useLines: "ask" as UseLineWay,
  /** Craft that are flown at the same time: files below a folder of the workspace, or names of craft. */
  together: [] as readonly string[],
};

/** As many craft as are looked at together; more are never in the air at once. */
export const MOST_NAMED_TOGETHER = 40;
