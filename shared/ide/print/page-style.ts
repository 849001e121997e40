/**
 * The styles that all sheets share. Ink is black on paper whatever the screen shows, and lines, frames and weight say
 * what there is to say, so that a printer without colours loses nothing.
 */
export const PAGE_STYLE = `:root { color-scheme: light dark; --ground: #fbf8f3; --ink: #2a2521; --quiet: #655c53; --clay: #8f3f17; --line: #b8aa9a; --slip: #f1eae0; }
@media (prefers-color-scheme: dark) {
  :root { --ground: #1c1916; --ink: #ebe4da; --quiet: #b3a799; --clay: #eca97f; --line: #6a5f54; --slip: #27221d; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 54rem; padding: 1.25rem clamp(.6rem, 4vw, 2rem) 3rem; background: var(--ground); color: var(--ink); font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2, h3, p, ul, ol, dl, dd, figure { margin: 0; padding: 0; }
h1 { font: 600 1.9rem/1.2 ui-serif, Georgia, "Liberation Serif", serif; }
h2 { font: 600 1.3rem/1.25 ui-serif, Georgia, "Liberation Serif", serif; break-after: avoid; }
h3 { font-size: 1rem; line-height: 1.3; break-after: avoid; }
.kind { color: var(--clay); font-weight: 600; letter-spacing: .02em; }
.quiet { color: var(--quiet); font-size: .9em; }
.title { border-bottom: 3px double var(--line); padding-bottom: .6rem; margin-bottom: .9rem; }
.number { font-weight: 600; font-variant-numeric: tabular-nums; }
section { margin-top: 1.6rem; }
.warning { border: 3px solid; padding: .5rem .8rem; font-weight: 700; font-size: 1.12em; break-inside: avoid; }
ul.plain { list-style: none; }
ul.points { padding-left: 1.2em; }
img { display: block; max-width: 100%; height: auto; background: #fff; }
figure { break-inside: avoid; margin: .7rem 0; }
figcaption { color: var(--quiet); font-size: .9em; break-after: avoid; margin-bottom: .2rem; }
input { font: inherit; color: inherit; border-radius: 0; }
input[type="checkbox"] { appearance: none; position: relative; margin: 0; width: 1.1em; height: 1.1em; border: 1.5px solid var(--ink); background: transparent; flex: none; }
input[type="checkbox"]:checked::before { content: ""; position: absolute; left: .28em; top: -.08em; width: .38em; height: .8em; border: solid var(--ink); border-width: 0 .17em .17em 0; transform: rotate(40deg); }
input.ruled { appearance: none; border: 0; border-bottom: 1.5px solid var(--ink); background: transparent; padding: .1rem .2rem; min-width: 0; width: 100%; }
:focus-visible { outline: 2px solid var(--clay); outline-offset: 2px; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid var(--line); padding: .25rem .4rem; text-align: left; vertical-align: top; font-weight: inherit; }
thead th { font-weight: 600; background: var(--slip); }
tr { break-inside: avoid; }
.aside { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media print {
  :root { color-scheme: light; --ground: #fff; --ink: #000; --quiet: #333; --clay: #000; --line: #777; --slip: #eee; }
  body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.35; background: none; }
  h1 { font-size: 20pt; }
  h2 { font-size: 13.5pt; }
  thead { display: table-header-group; }
  ul.points > li { break-inside: avoid; }
  ul.points > li:nth-last-child(-n + 2):not(:first-child) { break-before: avoid; }
  p, li { orphans: 2; widows: 2; }
  input[type="checkbox"] { width: 4.2mm; height: 4.2mm; border: .4mm solid #000; }
  input.ruled { border-bottom: .3mm solid #000; height: 7mm; }
  .screen { display: none; }
}
`;
