/** The arguments of a command, read or refused in words. */
import { type ParseArgsConfig, parseArgs } from "node:util";
import { similarNames } from "../../../shared/model/similar-names.ts";
import { CannotRun } from "./io.ts";

type NodeOptions = NonNullable<ParseArgsConfig["options"]>;

/** The options of a command, as Node's own parser takes them; one that is `variadic` takes all that follows, up to the next option. */
export type Options = Readonly<Record<string, NodeOptions[string] & { readonly variadic?: true }>>;

/** What a command was called with. */
export interface Arguments {
  readonly paths: readonly string[];
  text(option: string): string | undefined;
  /** Every value of an option that may be given several times, in order. */
  all(option: string): readonly string[];
  has(option: string): boolean;
}

/** Reads options and paths. An option that there is not, or one without its value, is refused. */
export function readArguments(args: readonly string[], options: Options): Arguments {
  const { tokens } = parseArgs({ args: [...args], options, strict: false, allowPositionals: true, tokens: true });
  const values = new Map<string, string | true>();
  const every: { readonly option: string; readonly value: string }[] = [];
  const paths: string[] = [];
  let taking: string | null = null;
  for (const token of tokens) {
    if (token.kind === "positional" && taking !== null) every.push({ option: taking, value: token.value });
    else if (token.kind === "positional") paths.push(token.value);
    else taking = null;
    if (token.kind !== "option") continue;
    const value = checked(token, options);
    values.set(token.name, value);
    if (value === true) continue;
    every.push({ option: token.name, value });
    if (options[token.name]!.variadic) taking = token.name;
  }
  return {
    paths,
    text(option) {
      const value = values.get(option);
      return typeof value === "string" ? value : undefined;
    },
    all: (option) => every.filter((each) => each.option === option).map(({ value }) => value),
    has: (option) => values.has(option),
  };
}

interface OptionToken {
  readonly name: string;
  readonly rawName: string;
  readonly value: string | undefined;
}

function checked({ name, rawName, value }: OptionToken, options: Options): string | true {
  const option = Object.hasOwn(options, name) ? options[name] : undefined;
  if (!option) {
    const [near] = similarNames(name, Object.keys(options), 1);
    throw new CannotRun(`there is no option ${rawName}${near ? `: did you mean --${near}?` : ""}`);
  }
  if (option.type === "boolean") {
    if (value !== undefined) throw new CannotRun(`${rawName} takes no value`);
    return true;
  }
  const isOption = option.variadic && value !== undefined && /^-./.test(value);
  if (value === undefined || value === "" || isOption) throw new CannotRun(`${rawName} needs a value after it`);
  return value;
}

/** One of the words that an option admits; `usual` where it is not given. */
export function oneOf<Word extends string>(args: Arguments, option: string, words: readonly Word[], usual: Word): Word {
  const value = args.text(option);
  if (value === undefined) return usual;
  const word = words.find((each) => each === value);
  if (word === undefined) throw new CannotRun(`--${option} is ${words.join(" or ")}, not “${value}”`);
  return word;
}

/** The one path that a command expects. */
export function onePath(args: Arguments, what: string): string {
  const [path, second] = args.paths;
  if (path === undefined) throw new CannotRun(`say which ${what}`);
  if (second !== undefined) throw new CannotRun(`one ${what} at a time, and “${second}” is one too many`);
  return path;
}
