/** Everything outside a command that it uses, so that it can be run without a process of its own. */

import { visibleText } from "../../../shared/text/visible-text.ts";

/** The streams and the place of one run. */
export interface Io {
  /** The working folder, an absolute path with `/`. */
  readonly folder: string;
  /** True if the output goes to a person who expects colour. */
  readonly colour: boolean;
  /** Bytes only for text that is not to be written as UTF-8. */
  out(text: string | Uint8Array): void;
  error(text: string): void;
  /** How many columns the terminal has to which the output goes; left out where it goes to none. */
  readonly columns?: number;
  /** Where standard error is a terminal: shows how far long work is, in place of what was shown before; null takes it away. */
  readonly progress?: (words: string | null) => void;
  /** All of standard input. */
  input(): Promise<Uint8Array>;
  /** Where standard input is a terminal: opens a conversation with the person who sits at it. */
  readonly converse?: () => Conversation;
  /** How this program is run, for others who are to run it; without, it is found by its name. */
  readonly program?: Program;
}

/** The files that a process was started with, absolute. */
export interface Program {
  readonly node: string;
  readonly script: string;
}

/** Questions on standard error, answers from a terminal. */
export interface Conversation {
  /** What is typed in answer to a prompt, without its line end; null at the end of input. */
  ask(prompt: string): Promise<string | null>;
  end(): void;
}

/** 0: nothing found; 1: something found; 2: the command could not run. */
export type ExitStatus = 0 | 1 | 2;

/** A command of the command line, loaded only when it is asked for. */
export interface Command {
  readonly help: string;
  run(args: readonly string[], io: Io): Promise<ExitStatus>;
}

/** The reason why a command cannot run: told in one line, with exit status 2. */
export class CannotRun extends Error {}

/** Text without what would break a line or command a terminal, and with nothing in it that turns its direction or hides. */
export function oneLine(text: string): string {
  return visibleText(text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ")).trim();
}

/** Whether text may be coloured: at a terminal that can, where nobody asks for none (no-color.org). */
export function mayColour(isTerminal: boolean, env: Readonly<Record<string, string | undefined>>): boolean {
  return isTerminal && !env.NO_COLOR && env.TERM !== "dumb";
}
