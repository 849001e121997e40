/** Questions at a terminal: asking, and lists of numbered choices. */
import type { Question } from "../../../shared/protocol/new-craft.ts";
import { CannotRun, type Io, oneLine } from "./io.ts";

export interface Talk {
  /** What is typed in answer to a prompt, trimmed. */
  readonly ask: (prompt: string) => Promise<string>;
  end(): void;
}

/** Opens a conversation; its end before the answer to a question is the end of the command, for this reason. */
export function startTalk(io: Io, endedEarly: string): Talk {
  const conversation = io.converse!();
  return {
    ask: async (prompt) => {
      const line = await conversation.ask(prompt);
      if (line !== null) return line.trim();
      // The end of input left the cursor after the question.
      io.error("\n");
      throw new CannotRun(endedEarly);
    },
    end: () => conversation.end(),
  };
}

/** The choices of a question, each with its number. */
export function listed({ choices }: Question): string {
  const width = Math.max(...choices.map(({ label }) => [...label].length));
  return choices
    .map(({ label, help }, i) => `  ${`${i + 1}`.padStart(2)}  ${oneLine(label).padEnd(width)}  ${oneLine(help)}\n`)
    .join("");
}

/** A number counts along the list; a number that is no place on it is left to be read as a word. */
export function byNumber({ choices }: Question, said: string): string {
  return (/^\d{1,3}$/.test(said) ? choices[Number(said) - 1]?.word : undefined) ?? said;
}
