/** Ways to spoil a text: cut, doubled, with signs of others, tabs, markers of merges and line ends in it. */
import * as fc from "fast-check";

/** A place in a text, of all of it. */
export const place = fc.double({ min: 0, max: 0.999, noNaN: true });

const INSERTED = [
  ..."\t \u00a0\ufeff\u200b#\"'|\\{}=:,()-+.%µ0aZ\r\n",
  "\r\n",
  "\n\n\n",
  "\n<<<<<<< ours\n",
  "\n=======\n",
  "\n>>>>>>> theirs\n",
  "\n||||||| base\n",
  "  # allow unusual-value: so\n",
  "\u0000",
  '\nuse "x.fettle"\n',
  "\npack\n",
  "\n  drop all\n",
  '\nverbatim "kiln"\n  |  kept \n',
  " edition 2",
];

/** A way to spoil a text, at a place between 0 and 1. */
export const spoil = fc
  .tuple(fc.nat(5), place, place, fc.constantFrom(...INSERTED))
  .map(([kind, a, b, sign]) => (text: string): string => {
    const [at, to] = [Math.floor(a * text.length), Math.floor(b * text.length)];
    const lines = text.split("\n");
    const [line, other] = [Math.floor(a * lines.length), Math.floor(b * lines.length)];
    switch (kind) {
      case 0:
        return text.slice(0, at) + text.slice(Math.min(text.length, at + Math.ceil(b * 30)));
      case 1:
        return lines.toSpliced(other, 0, lines[line]!).join("\n");
      case 2:
        return text.slice(0, at);
      case 3:
        return lines.with(line, lines[line]!.replace(/^[ \t]+/, b < 0.5 ? "" : "\t  ")).join("\n");
      default:
        return text.slice(0, to) + sign + text.slice(to);
    }
  });
