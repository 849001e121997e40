/** What git prints, sound and spoiled, and the bytes of files: read as they were written, and to an end. */
import { isDeepStrictEqual } from "node:util";
import { expect, test } from "vitest";
import { boardBytesOf, boardTextOf } from "../../../server/src/cli/board-bytes.ts";
import { entriesIn, NoRevision, pathInTree, splitRevision } from "../../../server/src/node/git.ts";
import { withAttributes, withoutAttributes } from "../../../server/src/node/git-attributes.ts";
import { makeBlobs } from "../../../server/src/node/git-blobs.ts";
import {
  attributeFilesIn,
  type GitSettings,
  withoutAttributeFile,
  withoutSettings,
  withSettings,
} from "../../../server/src/node/git-config.ts";
import { type LoggedCommit, logOf } from "../../../server/src/node/git-log.ts";
import { treesOf } from "../../../server/src/node/git-trees.ts";
import { MOST_BYTES } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import type { Random } from "../random.ts";
import { tryCases } from "./cases.ts";
import { answered, hexText, madeLog, pathText, recordsText, spoiledBytes } from "./git-made.ts";
import { scriptText } from "./grammar.ts";
import { spoiled } from "./spoil.ts";

test("a log is read as it was written, and of a spoiled one whatever is a commit", async () => {
  const tried = await tryCases(60, {
    make: (random) => {
      const commits = madeLog(random);
      const text = recordsText(random, commits);
      return { commits, text, spoiled: random.onceIn(2) ? text : spoiled(random, text, text) };
    },
    fault: ({ commits, text, spoiled }) => {
      const read = (listed: string): readonly LoggedCommit[] => answered(logOf("HEAD", []), () => Buffer.from(listed));
      if (!isDeepStrictEqual(read(text), commits)) return `another log: ${JSON.stringify(read(text))}`;
      const found = read(spoiled);
      const paths = new Set(found.flatMap(({ changes }) => changes.map(({ path }) => path)));
      for (const [id, tree] of treesOf(found))
        for (const path of tree.keys()) if (!paths.has(path) || !tree.get(path)) return `${id} has ${path}`;
      return null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("texts of git's store are those that were put in, and one that breaks off is told as missing", async () => {
  const tried = await tryCases(80, {
    make: (random) => {
      const texts = random.some(random.between(1, 4), () => (random.onceIn(4) ? "" : scriptText(random, 1)));
      const printed = (text: string, id: string) =>
        Buffer.concat([Buffer.from(`${id} blob ${Buffer.byteLength(text)}\n`), Buffer.from(text), Buffer.from("\n")]);
      const objects = texts.map((text) => ({ id: hexText(random), text }));
      const batch = Buffer.concat(
        objects.map(({ id, text }) => (random.onceIn(8) ? Buffer.from(`${id} missing\n`) : printed(text, id))),
      );
      const told = objects.map(({ id, text }) => `${id} blob ${Buffer.byteLength(text)}`).join("\n");
      return {
        objects,
        batch,
        told,
        isSpoiled: random.onceIn(2),
        cut: spoiledBytes(random, batch),
        check: random.onceIn(3) ? spoiled(random, told, told) : told,
      };
    },
    shown: ({ objects, batch, cut, check }) =>
      JSON.stringify({ objects, batch: batch.toString("latin1"), cut: cut.toString("latin1"), check }),
    fault: ({ objects, batch, told, isSpoiled, cut, check }) => {
      const blobs = makeBlobs();
      const ids = objects.map(({ id }) => id);
      answered(blobs.read(ids), ({ args }) => {
        const isCheck = args[1]!.startsWith("--batch-check");
        return isCheck ? Buffer.from(isSpoiled ? check : told) : isSpoiled ? cut : batch;
      });
      for (const { id, text } of objects) {
        const answer = blobs.get(id);
        if (isSpoiled) continue;
        const isThere = !batch.includes(`${id} missing\n`);
        if (isThere && (answer?.kind !== "text" || answer.text !== text)) return `${id} is ${JSON.stringify(answer)}`;
        if (!isThere && answer?.kind !== "unreadable") return `${id}, which is missing, is ${JSON.stringify(answer)}`;
      }
      return null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("a list of files, a revision with a path, and a path of a tree are read to their end", async () => {
  const tried = await tryCases(120, {
    make: (random) => {
      const records = random.some(random.below(6), () => ({
        mode: random.oneOf(["100644", "120000", "160000"]),
        id: hexText(random),
        path: pathText(random),
      }));
      const listed = records.map(({ mode, id, path }) => `${mode} blob ${id}\t${path}\0`).join("");
      const name = `${random.oneOf(["HEAD", ":2", "", "HEAD@{10:30}", "a{b", "-x"])}:${pathText(random)}`;
      return {
        records,
        listed,
        cut: spoiled(random, listed, listed),
        name: spoiled(random, name, listed),
        prefix: random.oneOf(["", "craft/", "a/b/"]),
      };
    },
    fault: ({ records, listed, cut, name, prefix }) => {
      const read = (text: string) => entriesIn(text, ([mode = "", , id = ""]) => ({ mode, id }));
      const paths = new Set(records.map(({ path }) => path));
      if (!isDeepStrictEqual(new Set(read(listed).keys()), paths)) return "other paths";
      read(cut);
      const split = splitRevision(name);
      if (split && split.revision.length + split.path.length >= name.length)
        return `“${name}” is split into ${JSON.stringify(split)}`;
      try {
        const path = pathInTree({ folder: "/", top: "/", prefix }, split?.path ?? name);
        return path.split("/").some((part) => part === ".." || part === ".") ? `a path with dots: ${path}` : null;
      } catch (error) {
        if (error instanceof NoRevision) return null;
        throw error;
      }
    },
  });
  expect(tried).toBeGreaterThan(0);
});

/** A configuration or a file of attributes, as others write them. */
function othersText(random: Random, lines: readonly string[]): string {
  const end = random.oneOf(["\n", "\n", "\r\n"]);
  const text = random.some(random.below(7), () => random.oneOf(lines)).join(end);
  return text + (random.onceIn(3) ? "" : end);
}

const CONFIG = [
  "[core]",
  "\tbare = false",
  '[diff "other"]',
  "\ttextconv = cat",
  "# a comment",
  ";",
  "",
  '[merge "x"]',
  "\tdriver = a \\",
  "\t  b",
  "[user]",
  "\tname = Öfen \u2028",
  "# By “fettle git”",
  "[fettle]",
];

test("what is put into git's configuration is taken out to the byte, whatever stands around it", async () => {
  const tried = await tryCases(60, {
    make: (random) => {
      const text = othersText(random, CONFIG);
      const files = random.some(random.between(1, 3), () =>
        random.oneOf([
          ".gitattributes",
          "sub/.gitattributes",
          'a "b"/.gitattributes',
          "ö\\x/.gitattributes",
          "tab\t/.gitattributes",
        ]),
      );
      const attributes = [...new Set(files)];
      const settings: GitSettings = {
        textconv: random.oneOf(["fettle git text", '"C:\\node" "x y"', "a; b # c"]),
        xfuncname: "^[a-z]\n!^use",
        driver: "fettle merge %O %A %B",
        attributes,
      };
      return {
        text: Buffer.from(random.onceIn(3) ? spoiled(random, text, text) : text).toString("latin1"),
        settings,
        behind: random.onceIn(2) ? "" : Buffer.from(othersText(random, CONFIG.slice(0, 7))).toString("latin1"),
      };
    },
    fault: ({ text, settings, behind }) => {
      if (withoutSettings(text) !== null) return null;
      const put = withSettings(text, settings);
      if (withoutSettings(put) !== text) return `taken out: ${JSON.stringify(withoutSettings(put))}`;
      if (withSettings(put, settings) !== put) return "put in twice";
      if (!isDeepStrictEqual(attributeFilesIn(put), settings.attributes))
        return `attributes: ${JSON.stringify(attributeFilesIn(put))}`;
      const [first = "", ...others] = settings.attributes;
      const left = withoutAttributeFile(put, first);
      if (!isDeepStrictEqual(attributeFilesIn(left), others)) return `without ${first}: ${JSON.stringify(left)}`;
      if (others.length > 0 && left !== withSettings(text, { ...settings, attributes: others }))
        return `not as if ${first} had never been there: ${JSON.stringify(left)}`;
      if (put.endsWith("\n")) {
        const taken = withoutSettings(put + behind);
        // A setting before the next heading belongs to our last one.
        const isOurs = /^[^[]*^[ \t]+[A-Za-z]/m.test(behind) || behind.includes("fettle");
        if (!isOurs && taken !== text + behind) return `with lines behind it: ${JSON.stringify(taken)}`;
      }
      return null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

const ATTRIBUTES = [
  "*.png binary",
  "*.fettle text",
  "*.fettle diff=fettle",
  "# *.fettle diff=fettle merge=fettle",
  "",
  "* text=auto",
  "*.fettle merge=fettle diff=fettle eol=lf",
];

test("the line of attributes is put in and taken out to the byte", async () => {
  const tried = await tryCases(60, {
    make: (random) => {
      const text = othersText(random, ATTRIBUTES);
      return random.onceIn(3) ? spoiled(random, text, text) : text;
    },
    fault: (text) => {
      const put = withAttributes(text);
      const taken = withoutAttributes(put ?? text);
      if (put === null) return taken === null ? "it stands there, and cannot be taken out" : null;
      if (withAttributes(put) !== null) return "put in twice";
      return taken === text || (text === "" && taken === "remove") ? null : `taken out: ${JSON.stringify(taken)}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("any bytes are a text: of valid UTF-8 the same one, of others told, and a board's come back to the byte", async () => {
  const tried = await tryCases(80, {
    make: (random) => {
      const text = spoiled(random, scriptText(random, 1), "");
      const encoded = random.onceIn(6)
        ? Buffer.from(`\uFEFF${text}`, "utf16le")
        : random.onceIn(6)
          ? Buffer.from(text, "latin1")
          : Buffer.from(text);
      return random.onceIn(2) ? encoded : spoiledBytes(random, encoded);
    },
    shown: (bytes) => bytes.toString("latin1"),
    fault: (bytes) => {
      const answer = textAnswer(bytes);
      if (answer.kind !== "text") return bytes.length > MOST_BYTES ? null : `it is ${answer.kind}`;
      if (answer.validUtf8 !== Buffer.from(answer.text).equals(bytes)) return `valid: ${answer.validUtf8}`;
      const { text, encoding } = boardTextOf(bytes);
      return Buffer.from(boardBytesOf(text, encoding)).equals(bytes) ? null : `a board's text in ${encoding}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});
