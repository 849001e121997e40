/** What is put into git's own files, with line ends of either kind, and taken out again. */
import { expect, test } from "vitest";
import { withAttributes, withoutAttributes } from "../../../server/src/node/git-attributes.ts";
import {
  attributeFilesIn,
  withoutAttributeFile,
  withoutSettings,
  withSettings,
} from "../../../server/src/node/git-config.ts";

const settings = (...attributes: string[]) => ({ textconv: "a", xfuncname: "b", driver: "c", attributes });

test.each(["\n", "\r\n"])("a file of attributes is taken out with its line end, %j", (end) => {
  const put = withSettings(`[core]${end}`, settings("one", "two"));
  const left = withoutAttributeFile(put, "one");
  expect(left).toBe(withSettings(`[core]${end}`, settings("two")));
  expect(attributeFilesIn(left)).toEqual(["two"]);
});

test.each(["[core]", "[core]\n", "[core]\r\n", "[core]\r", "\r", ""])(
  "behind %j all is taken out to the byte",
  (text) => {
    expect(withoutSettings(withSettings(text, settings("one")))).toBe(text);
    const put = withAttributes(text)!;
    expect(withoutAttributes(put)).toBe(text);
  },
);
