/** Own words are shown on pages, in hovers and in lists: they bring no markup along. */
import { expect, test } from "vitest";
import { ownProse, withOwnProse } from "../../../shared/ide/own-words/own-prose.ts";
import { markdownFaults } from "../../fire/outputs/inspect.ts";
import { attacks } from "../../hostile-texts.ts";

test.each([
  ["See [x](https://shed.example) first.", "See [x] (https: //shed.example) first."],
  ["An <b>old</b> lamp & its wire.", "An < b>old< /b> lamp & its wire."],
  ["Ask maud@shed.example or www.shed.example.", "Ask maud @ shed.example or www .shed.example."],
  ["It is `slow` at 3 < 4 V.", "It is `slow` at 3 < 4 V."],
  ["A ` alone.", "A ’ alone."],
  ["# Loud\n- and more", "Loud - and more"],
  ["It turns\u202e round.", "It turns‹U+202E right-to-left override› round."],
])("%j is shown as %j", (text, shown) => expect(ownProse(text)).toBe(shown));

test("nothing is left that Markdown makes a link, a picture or a tag of", () => {
  for (const text of attacks)
    for (const prose of [ownProse(text), `Words ${ownProse(`${text} more`)}`])
      expect(markdownFaults(prose), text).toEqual([]);
});

test("names and defaults are spelled as they were", () => {
  const setting = {
    section: "lights",
    name: "belly",
    default: "`x`",
    what: "A `",
    types: [{ choices: [{ what: "<b>" }] }],
  };
  expect(withOwnProse(setting)).toEqual({ ...setting, what: "A ’", types: [{ choices: [{ what: "< b>" }] }] });
});
