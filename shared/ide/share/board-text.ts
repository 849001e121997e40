/** Which lines of kept board text may be private: nobody has read them, so a word that hints at it is enough. */
import type { Redactor } from "./redactor.ts";

/** Words of board text behind which names, places, keys and numbers of parts stand. */
const HINTS =
  /(?:^|[^a-z])(?:\w*name|pilot|owner|user|uid|\w*id|bind\w*|phrase|pass\w*|ssid|wifi|secret|\w*key|token|serial\w*|\w*mac|addr\w*|lat|lon|latitude|longitude|home|origin|position|registration|reg|callsign|call_sign|phone|mail|email|licen[cs]e)(?![a-z])/i;

/** Why a line of board text is not shared; null where nothing in it hints at something private. */
export function whyNotShared(line: string, redactor: Redactor): string | null {
  const { took } = redactor.note(line);
  if (took.length > 0) return `A line of board text that holds ${took[0]}.`;
  const hint = HINTS.exec(line);
  if (hint) return `A line of board text about “${hint[0].replace(/^[^a-z]/i, "")}”, which may be private.`;
  return /\b[0-9a-f]{12,}\b/i.test(line)
    ? "A line of board text with a long number, which may be that of a part or a key."
    : null;
}
