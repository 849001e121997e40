/** From arguments to the command that they name. */
import { similarNames } from "../../../shared/model/similar-names.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { CannotRun, type Command, type ExitStatus, type Io, oneLine } from "./io.ts";

interface Entry {
  readonly summary: string;
  readonly load: () => Promise<Command>;
}

const commands: Readonly<Record<string, Entry>> = {
  check: {
    summary: "findings of files, or of every script below a folder",
    load: async () => (await import("./check.ts")).command,
  },
  format: {
    summary: "scripts and dialects in canonical layout, in place",
    load: async () => (await import("./format.ts")).command,
  },
  new: {
    summary: "a craft from a few questions, ready to check",
    load: async () => (await import("./new.ts")).command,
  },
  "new handset": {
    summary: "a handset from its controls one by one, ready to check",
    load: async () => (await import("./new-handset.ts")).command,
  },
  show: {
    summary: "the effective craft, each value with the file and line it comes from",
    load: async () => (await import("./show.ts")).command,
  },
  compare: {
    summary: "what differs in meaning between two craft, riskiest first",
    load: async () => (await import("./compare.ts")).command,
  },
  history: {
    summary: "who changed a value of a craft when, and what it was, from git",
    load: async () => (await import("./history.ts")).command,
  },
  share: {
    summary: "a craft as one script for others, what is private taken out",
    load: async () => (await import("./share.ts")).command,
  },
  switches: {
    summary: "what each switch does, the state at rest and on signal loss",
    load: async () => (await import("./switches.ts")).command,
  },
  fleet: {
    summary: "all craft side by side: controls, key settings, layers, checks, video",
    load: async () => (await import("./fleet.ts")).command,
  },
  ready: {
    summary: "what stands between a craft and arming, and every way there",
    load: async () => (await import("./ready.ts")).command,
  },
  bench: {
    summary: "what to check on the bench, in the order that is safe, with what to expect",
    load: async () => (await import("./bench.ts")).command,
  },
  draw: {
    summary: "the pictures of the panel, as SVG or PNG files",
    load: async () => (await import("./draw.ts")).command,
  },
  explain: {
    summary: "what a setting, mode, element, rule, unit or section is",
    load: async () => (await import("./explain.ts")).command,
  },
  reference: {
    summary: "the pages of all names as a site to search, and as Markdown",
    load: async () => (await import("./reference.ts")).command,
  },
  board: {
    summary: "board text in and out, by a dialect: one of the four below",
    load: async () => (await import("./board.ts")).command,
  },
  "board read": {
    summary: "a board's text as a script",
    load: async () => (await import("./board-read.ts")).command,
  },
  "board write": {
    summary: "a craft as its board's text, or only the lines that change",
    load: async () => (await import("./board-write.ts")).command,
  },
  "board move": {
    summary: "the text of one board as the text of another, and what is lost",
    load: async () => (await import("./board-move.ts")).command,
  },
  "board learn": {
    summary: "a dialect, proposed from scripts and their board's texts",
    load: async () => (await import("./board-learn.ts")).command,
  },
  merge: {
    summary: "what two people made of one script, put together by entries",
    load: async () => (await import("./merge.ts")).command,
  },
  git: {
    summary: "readable diffs and merges in a git repository: one of the three below",
    load: async () => (await import("./git.ts")).command,
  },
  "git install": {
    summary: "sets the repository up for them",
    load: async () => (await import("./git-install.ts")).command,
  },
  "git remove": {
    summary: "takes out what install put in",
    load: async () => (await import("./git-remove.ts")).command,
  },
  "git text": {
    summary: "what git shows of a script: laid out, with the craft's name at each section",
    load: async () => (await import("./git-text.ts")).command,
  },
  serve: {
    summary: "the language server, for any editor",
    load: async () => (await import("./serve.ts")).command,
  },
};

/** Runs a command line and gives its exit status. Nothing that a user hands over makes it throw. */
export async function run(args: readonly string[], streams: Io): Promise<ExitStatus> {
  const io = readable(streams);
  const [name, ...rest] = withWholeName(args);
  try {
    if (name === undefined) throw new CannotRun("say which command: fettle --help lists them");
    if (name === "--help" || name === "-h" || name === "help") {
      const [of] = name === "help" ? withWholeName(rest) : [];
      io.out(of === undefined || of.startsWith("-") ? help() : (await find(of).load()).help);
      return 0;
    }
    if (name === "--version" || name === "-v" || name === "version") {
      io.out(`${(await import("./version.ts")).version}\n`);
      return 0;
    }
    const command = await find(name).load();
    if (asksForHelp(rest)) {
      io.out(command.help);
      return 0;
    }
    return await command.run(rest, io);
  } catch (error) {
    io.error(`fettle: ${oneLine(reason(error))}\n`);
    return 2;
  }
}

/** The same streams: what is told on standard error, or asked there, is for people alone, whatever a script has in it. */
function readable(io: Io): Io {
  const { converse } = io;
  return {
    ...io,
    error: (text) => io.error(visibleText(text)),
    ...(converse && {
      converse: () => {
        const conversation = converse();
        return { ...conversation, ask: (prompt) => conversation.ask(visibleText(prompt)) };
      },
    }),
  };
}

/** The arguments with a command of two words, such as “new handset”, as the one word that it is. */
function withWholeName(args: readonly string[]): readonly string[] {
  const [first, second, ...rest] = args;
  const both = `${first} ${second}`;
  return Object.hasOwn(commands, both) ? [both, ...rest] : args;
}

function find(name: string): Entry {
  const entry = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (entry) return entry;
  const [near] = similarNames(name, Object.keys(commands), 1);
  throw new CannotRun(
    near
      ? `there is no command “${name}”: did you mean ${near}?`
      : `there is no command “${name}”: fettle --help lists those that there are`,
  );
}

function asksForHelp(args: readonly string[]): boolean {
  const end = args.indexOf("--");
  return (end < 0 ? args : args.slice(0, end)).some((each) => each === "--help" || each === "-h");
}

function reason(error: unknown): string {
  if (error instanceof CannotRun) return error.message;
  const told = error instanceof Error ? error.message : String(error);
  if ((error as NodeJS.ErrnoException | null)?.syscall !== undefined) return `the system refuses: ${told}`;
  return `this should not have happened, and is a fault of the program: ${told}`;
}

function help(): string {
  const width = Math.max(...Object.keys(commands).map((name) => name.length));
  const rows = Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`);
  return `fettle: readable configuration scripts of small multirotors, checked

Usage: fettle COMMAND [ARGUMENTS]

${rows.join("\n")}

fettle COMMAND --help says more of each. Exit status: 0 nothing found, 1 something
found, 2 the command could not run. “-” in place of a path reads standard input.
`;
}
