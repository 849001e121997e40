/** Texts that a stranger's file may hold and that must stay text wherever they are shown. */

/** What an HTML page, a style sheet or a drawing would obey. */
const MARKUP: readonly string[] = [
  "</style><script>alert(1)</script>",
  "<img src=x onerror=alert(1)>",
  "</title></head><body>",
  '" autofocus onfocus="alert(1)',
  "' onfocus='alert(1)",
  "javascript:alert(1)",
  "<!--",
  "-->",
  "<![CDATA[ ]]>",
  "<!doctype html>",
  "&lt;b&gt; &amp;amp; &#60;",
  "*/ } body { display: none",
  '"; } @import url(http://elsewhere.example/x.css); x { content: "',
  "\\3c script\\3e ",
  "\\",
  "</svg><foreignObject>",
  "data:text/html,<b>x</b>",
  "{{7*7}} `x`",
  "<a href=command:workbench.action.terminal.new>x</a>",
  '<svg onload="alert(1)"><use href="//elsewhere.example/x"/>',
];

/** What Markdown, or an editor's own short form of it, makes a link, a picture, code or an icon of. */
const MARKS: readonly string[] = [
  "[x](command:workbench.action.terminal.new)",
  '[x](https://elsewhere.example/ "y")',
  "![x](https://elsewhere.example/x.png)",
  "[x][y]",
  "[x]: https://elsewhere.example/",
  "<https://elsewhere.example/>",
  "see https://elsewhere.example/x?y=z now",
  "www.elsewhere.example/x",
  "stranger@elsewhere.example",
  "ftp://elsewhere.example/x",
  "command:workbench.action.terminal.new",
  "file:///etc/hosts",
  "x](command:workbench.action.terminal.new)[y",
  "x` [y](command:workbench.action.terminal.new) `z",
  "``` [x](command:workbench.action.terminal.new)",
  "~~~~ x",
  "``x`` ````y",
  "`",
  "$(trash) \\$(trash) $(sync~spin)",
  // biome-ignore lint/suspicious/noTemplateCurlyInString: a snippet of an editor is written so.
  "${1:x} $0 ${TM_FILENAME} \\${2}",
  "# x",
  "> x",
  "- x",
  "1. x",
  "| x | y |",
  "---",
  "===",
  "**x** __y__ *z* _w_ ~~v~~",
  "@stranger #123 stranger/x#4 GH-5",
  "[ ] x",
  "=cmd|' /C calc'!A0",
  "+1+cmd()",
  "-2+3",
  "@SUM(1+1)",
  "%s %d %n {0} {{x}} %[31m",
];

/** What turns, hides or moves what is read. */
const UNSEEN: readonly string[] = [
  "a\u202egnp.exe",
  "\u2066open isolate",
  "\u2067turned\u2069 \u2068first strong",
  "\u202aembedding",
  "\u202dforced\u202c",
  "\u200e\u200f\u061c",
  "zero\u200bwidth\u2060joined\u200d\u200c",
  "line\u2028paragraph\u2029separator",
  "lone \ud800 surrogate \udc00",
  "noncharacter \ufffe\uffff",
  "\ufeffmark",
  "tag\u{e0041}\u{e007f}",
  "soft\u00adhyphen \u034f \u115f \u3164 \ufff9x\ufffa",
  "\u2061\u2062\u2063\u2064 \u206a\u206f",
];

/** What a terminal obeys. */
const CONTROLS: readonly string[] = [
  "nul\u0000 bell\u0007 escape\u001b[31m",
  "\u001b]0;title\u0007 \u001b]8;;https://elsewhere.example/\u0007link\u001b]8;;\u0007",
  "\u001b]52;c;eA==\u001b\\ \u001bP$q\u001b\\ \u001bc",
  "\u009b31m \u009d0;title\u009c \u0090x\u009c",
  "back\b\b\b\bover \u007f\u007f",
  "form\ffeed \u000b \u000e\u000f",
  "\u001b[2J\u001b[H\u001b[?1049h",
  "\u0085next \u0084",
];

/** A text over several lines, as a message of git or a file of own words may have one. */
const LINES: readonly string[] = ["tab\tand\nnew line\r\nand\rreturn", "x\n\n# y\n\n<b>z</b>\n```\nw"];

const LONG: readonly string[] = ["x".repeat(10_000), "word ".repeat(2_000), "\u0301".repeat(300)];

/** Needed to write people's languages, and so shown as they are. */
const INNOCENT: readonly string[] = ["שלום Tankard", "العربية 5806 MHz", "ピッチャー・水差し", "👩‍🚀 🏴󠁧󠁢󠁳󠁣󠁴󠁿", "   "];

/** All of them. */
export const hostileTexts: readonly string[] = [
  ...MARKUP,
  ...MARKS,
  ...UNSEEN,
  ...CONTROLS,
  ...LINES,
  ...LONG,
  ...INNOCENT,
];

/** Some of them in a row, as a sweep has no time to try each by itself in every place. */
export function inRows(texts: readonly string[], many: number): string[] {
  const rows = Math.ceil(texts.length / many);
  // Far from one another in the list, so that no mark of one kind is ended by the next of its kind.
  return Array.from({ length: rows }, (_, row) => texts.filter((_, i) => i % rows === row).join(" "));
}

/** Those in which nothing is wanted that does not show: in no output may such a character be left. */
export const attacks: readonly string[] = [...MARKUP, ...MARKS, ...UNSEEN, ...CONTROLS, ...LINES];
