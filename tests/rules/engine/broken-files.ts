/** A workspace with one used file broken, in every way in which a `use` can fail to give what it promises. */
import { resolvePath } from "../../../shared/model/uses.ts";

export type Files = Readonly<Record<string, string>>;

export interface Breakage {
  /** What was done to which `use` line. */
  readonly what: string;
  readonly files: Files;
}

type Break = (files: Files, used: string, line: { readonly user: string; readonly text: string }) => Files;

/** What is done to a used file. The text of others is not touched, so that their lines keep their places. */
const BREAKS: Readonly<Record<string, Break>> = {
  "is not there": (files, used) => without(files, used),
  "is named wrongly": (files, _, { user, text }) => ({
    ...files,
    [user]: files[user]!.replace(text, text.replace(/"$/, '.old"')),
  }),
  "has no readable name": (files, _, { user, text }) => ({
    ...files,
    [user]: files[user]!.replace(text, text.replace(/"$/, "")),
  }),
  "is a craft": (files, used) => ({ ...files, [used]: files[used]!.replace(/^(layer|handset) /m, "craft ") }),
  "is of a newer edition": (files, used) => ({
    ...files,
    [used]: files[used]!.replace(/^((?:layer|handset) "[^"]*").*$/m, "$1 edition 9"),
  }),
  "has a misspelt header": (files, used) => ({ ...files, [used]: files[used]!.replace(/^(layer|handset) /m, "lair ") }),
  "has a misspelt section": (files, used) => ({
    ...files,
    [used]: files[used]!.replace(/^(modes|osd|pack|controls|failsafe|link|motors|filters|safety)$/m, "$1zz"),
  }),
  "has a misspelt name": (files, used) => ({
    ...files,
    [used]: files[used]!.replace(/^(\s+[a-z][a-z-]*)(?=\s)/m, "$1zz"),
  }),
  "has a line that is no statement": (files, used) => ({
    ...files,
    [used]: files[used]!.replace(/^(\s+)([A-Za-z])/m, "$1= $2"),
  }),
  "has a conflict of git in it": (files, used) => ({
    ...files,
    [used]: files[used]!.replace(/^(\s+[A-Za-z].*)$/m, "<<<<<<< ours\n$1\n=======\n>>>>>>> theirs"),
  }),
  "lost its units": (files, used) => ({
    ...files,
    [used]: files[used]!.replaceAll(/(\d) (V\/cell|V|mAh|Hz|kHz|us|ms|deg\/s|deg|m|s|A|g|mW|mm|in)\b/g, "$1"),
  }),
  "uses a file that is not there": (files, used) => ({ ...files, [used]: withUse(files[used]!, "nowhere.fettle") }),
  "uses itself": (files, used) => ({ ...files, [used]: withUse(files[used]!, used.split("/").at(-1)!) }),
  "is lost behind another": (files, used) => ({
    ...without(files, used),
    [used]: 'layer "Between"\n\nuse "further.fettle"\n',
  }),
};

function without(files: Files, gone: string): Files {
  return Object.fromEntries(Object.entries(files).filter(([file]) => file !== gone));
}

function withUse(text: string, path: string): string {
  return text.replace(/^((?:layer|handset) .*)$/m, `$1\nuse "${path}"`);
}

/** Every breakage of every file that the craft uses, directly or not. */
export function* breakagesOf(files: Files, craft: string): Generator<Breakage> {
  const seen = new Set([craft]);
  for (const user of seen) {
    for (const [text, path] of files[user]!.matchAll(/^use "([^"]*)"/gm)) {
      const used = resolvePath(user, path!);
      if (used === null || files[used] === undefined) continue;
      seen.add(used);
      for (const [what, make] of Object.entries(BREAKS)) {
        const broken = make(files, used, { user, text });
        const changed = Object.keys({ ...files, ...broken }).some((file) => files[file] !== broken[file]);
        if (changed) yield { what: `${path} ${what}`, files: broken };
      }
    }
  }
}
