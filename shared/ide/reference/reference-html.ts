/** The HTML page of the reference: styles, and a search that needs neither server nor network. */
import { REFERENCE_SCRIPT, REFERENCE_SCRIPT_HASH } from "./reference-script.ts";

/** The parts of the page, as HTML. */
export interface ReferenceParts {
  readonly nav: string;
  readonly articles: string;
  /** What the page contains, in a phrase. */
  readonly counts: string;
}

/** The whole page, including its styles and its script. */
export function referenceHtml({ nav, articles, counts }: ReferenceParts): string {
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src '${REFERENCE_SCRIPT_HASH}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Fettle reference</title>
<style>${CSS}</style>
</head>
<body>
<header>
<h1><a href="#start">Fettle reference</a></h1>
<search>
<label for="query">Search names and plain words</label>
<input id="query" type="search" autocomplete="off" spellcheck="false" placeholder="low battery warning" aria-describedby="found" aria-controls="results">
<p id="found" role="status"></p>
</search>
</header>
<div id="sides">
<nav aria-label="Names">
<ul id="results" hidden></ul>
<div id="contents">
${nav}
</div>
</nav>
<main tabindex="-1">
<article id="start">
<h2>What a script can say</h2>
<p>${counts}. Each has a page: what it is, why one would change it and what goes wrong at each end, how it is written, its limits and where they come from, what it needs, and the rules that look at it. How a script is written, and how files combine, is on the page <a href="#language">The language</a>.</p>
<p class="keys"><kbd>/</kbd> goes to the search, <kbd>↓</kbd> and <kbd>↑</kbd> walk through what it finds, <kbd>Enter</kbd> opens a page, <kbd>Esc</kbd> leads back to the search.</p>
<p>⚠ Propellers off for anything on the bench that can arm or spin motors.</p>
</article>
${articles}
</main>
</div>
<script>${REFERENCE_SCRIPT}</script>
</body>
</html>
`;
}

const CSS = `
:root { color-scheme: light dark; --ground: #fbf8f3; --ink: #2a2521; --quiet: #655c53; --clay: #8f3f17; --line: #d9cfc3; --slip: #f1eae0; --word: #7a2d63; --figure: #14605c; --text: #5f5210; }
@media (prefers-color-scheme: dark) {
  :root { --ground: #1c1916; --ink: #ebe4da; --quiet: #b3a799; --clay: #eca97f; --line: #463e36; --slip: #27221d; --word: #e2a8cf; --figure: #86cfc8; --text: #d9c878; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 1rem/1.55 system-ui, sans-serif; }
a { color: var(--clay); }
:focus-visible { outline: 2px solid var(--clay); outline-offset: 2px; }
main:focus-visible { outline: none; }
header { display: flex; flex-wrap: wrap; gap: .5rem 2rem; align-items: baseline; padding: .75rem 1.5rem; border-bottom: 3px double var(--line); }
h1 { margin: 0; font: 600 1.25rem/1.3 ui-serif, Georgia, serif; }
h1 a { color: inherit; text-decoration: none; }
search { display: flex; flex-wrap: wrap; gap: .25rem .75rem; align-items: baseline; flex: 1; }
input { font: inherit; color: inherit; background: var(--slip); border: 1px solid var(--quiet); padding: .3rem .6rem; min-width: 16rem; flex: 1; max-width: 32rem; }
input::placeholder { color: var(--quiet); opacity: 1; }
#found { margin: 0; color: var(--quiet); min-width: 9rem; }
#sides { display: grid; grid-template-columns: minmax(13rem, 20rem) minmax(0, 1fr); }
nav { padding: 1rem 1rem 3rem 1.5rem; border-right: 1px solid var(--line); }
nav ul { list-style: none; margin: 0; padding: 0 0 .5rem .9rem; }
#results { padding: 0; }
#results a { display: block; padding: .35rem .5rem; text-decoration: none; border-left: 3px solid transparent; }
#results a:hover, #results a:focus { background: var(--slip); border-left-color: var(--clay); }
#results span { display: block; color: var(--quiet); font-size: .875rem; line-height: 1.35; }
summary { cursor: pointer; padding: .15rem 0; }
small { color: var(--quiet); }
main { padding: 1rem 2rem 4rem; max-width: 52rem; }
article { margin-bottom: 3rem; scroll-margin-top: 8rem; }
.searching article { display: none; }
.searching article.shown { display: block; }
h2 { font: 600 1.6rem/1.25 ui-serif, Georgia, serif; margin: .5rem 0; overflow-wrap: anywhere; }
h3 { font-size: 1.05rem; margin: 1.6rem 0 .4rem; }
h2 + p em { color: var(--quiet); font-style: normal; }
code, pre, kbd { font-family: ui-monospace, monospace; font-size: .925em; }
pre { background: var(--slip); border-left: 3px solid var(--line); padding: .6rem 1rem; overflow: auto; }
.t-keyword, .t-section { font-weight: 600; }
.t-section, .t-mode, .t-control { color: var(--clay); }
.t-word { color: var(--word); }
.t-number, .t-unit { color: var(--figure); }
.t-string, .t-kept { color: var(--text); }
.t-comment { color: var(--quiet); font-style: italic; }
kbd { border: 1px solid var(--quiet); padding: 0 .35em; }
li { margin: .2rem 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: .875rem; font-variant-numeric: tabular-nums; }
th, td { padding: .2rem .6rem; border-bottom: 1px solid var(--line); text-align: right; white-space: nowrap; }
thead th { white-space: normal; vertical-align: bottom; }
tbody th { text-align: left; font-weight: 400; }
.curve { margin: .5rem 0; min-width: 17rem; max-width: 30rem; }
.curve svg { display: block; width: 100%; height: auto; }
.curve text { fill: var(--ink); font-family: system-ui, sans-serif; }
.curve .small { fill: var(--quiet); }
.curve path { fill: none; stroke-width: 1; }
.chart-grid { stroke: var(--line); }
.chart-axis { stroke: var(--quiet); }
.curve .chart-line { stroke: var(--ink); stroke-width: 2; }
.curve .chart-marker { fill: var(--ink); }
.curve .chart-line.series-1 { stroke: var(--clay); stroke-dasharray: 6 4; }
.curve .chart-marker.series-1, .curve .chart-name.series-1 { fill: var(--clay); }
@media (max-width: 45rem) {
  #sides { grid-template-columns: minmax(0, 1fr); }
  nav { border-right: 0; border-bottom: 1px solid var(--line); padding-bottom: 1rem; }
  main { padding: 1rem 1.5rem 3rem; }
}
@media (max-width: 30rem) {
  th, td { padding: .2rem .3rem; }
  tbody th { white-space: normal; position: sticky; left: 0; background: var(--ground); }
}
@media (forced-colors: active) {
  :root { --ground: Canvas; --ink: CanvasText; --quiet: CanvasText; --clay: LinkText; --line: CanvasText; --slip: Canvas; --word: CanvasText; --figure: CanvasText; --text: CanvasText; }
  .curve svg { forced-color-adjust: none; }
  .curve .chart-grid { stroke-opacity: .4; }
  .curve .chart-line.series-1 { stroke: CanvasText; }
  .curve .chart-marker.series-1, .curve .chart-name.series-1 { fill: CanvasText; }
}
@media print { header, nav { display: none; } #sides { display: block; } }
`;
