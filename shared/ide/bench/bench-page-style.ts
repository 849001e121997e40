/** Styles of the bench list as a sheet. */
export const BENCH_STYLE = `.signed { display: flex; flex-wrap: wrap; gap: .4rem 1.2rem; margin-top: .6rem; }
.signed label { display: flex; align-items: baseline; gap: .5rem; flex: 1 1 12rem; white-space: nowrap; }
main > .quiet { margin-top: .6rem; }
.how { margin: .2rem 0 .3rem; break-after: avoid; break-inside: avoid; }
.steps { list-style: none; }
.steps > li { break-inside: avoid; }
.step { display: grid; grid-template-columns: auto 2.4em minmax(0, 1fr); gap: 0 .6em; padding: .45rem 0; border-top: 1px solid var(--line); break-inside: avoid; }
.step > input { margin-top: .12em; }
.said, .reading { display: flex; flex-wrap: wrap; gap: 0 1.2em; align-items: baseline; }
.what { flex: 2 1 15rem; }
.expect { flex: 3 1 19rem; }
.what { font-weight: 600; }
.why { font-style: italic; }
.caution { border-left: 4px solid; padding-left: .5rem; margin: .2rem 0; }
.done { grid-template-columns: 2.4em minmax(0, 1fr); padding: .15rem 0 .15rem calc(1.1em + .6em); }
.done, .done .number { color: var(--quiet); font-weight: 400; font-size: .95em; }
.day { white-space: nowrap; font-weight: 600; }
.reading { gap: 0 .8em; margin-top: .2rem; }
.asked { flex: 1 1 8rem; }
.should { flex: 2 1 14rem; }
.reading input { flex: 0 1 9rem; }
.reading label { display: contents; }
.form { flex: 0 1 9rem; color: var(--quiet); font-size: .85em; }
.lines { margin: .3rem 0 0; padding-left: .6rem; border-left: 1px solid var(--line); font-size: .85em; white-space: pre-wrap; overflow-wrap: anywhere; }
/* A board's text may be longer than a page. */
.steps > li:has(.long), .step:has(.long) { break-inside: auto; }
.days { table-layout: fixed; }
.days code { font-size: .9em; }
.days .check { width: 32%; }
.days .day-line { width: 10em; }
.again { display: block; font-style: italic; }
.days td:nth-child(3) { white-space: nowrap; }
.beside { float: right; width: 42%; margin: .3rem 0 .5rem 1.2rem; }
.across { clear: both; max-width: 42rem; }
.across.of-switches { max-width: none; }
.phase:has(> figure), section:not(.phase) { clear: both; }
.phase > figure:last-of-type { break-after: avoid; }
/* A few steps, done with the picture before one. */
.phase:has(> .beside) { break-inside: avoid; }
@media (max-width: 34rem) {
  .beside { float: none; width: auto; margin: .7rem 0; }
  .step { grid-template-columns: auto minmax(0, 1fr); }
  .step > .number { display: none; }
  .done { grid-template-columns: minmax(0, 1fr); }
  .days, .days tbody, .days tr, .days th, .days td { display: block; border: 0; padding: .1rem 0; }
  .days thead { position: absolute; clip-path: inset(50%); }
  .days tr { border-top: 1px solid var(--line); padding: .3rem 0; }
}
@media print {
  .step { padding: 1.5mm 0; border-top: .2mm solid #999; grid-template-columns: 4.2mm 9mm minmax(0, 1fr); gap: 0 2.5mm; }
  .said { gap: 0 5mm; }
  .what { flex-basis: 54mm; }
  .expect { flex-basis: 72mm; }
  .done { grid-template-columns: 9mm minmax(0, 1fr); padding: .5mm 0 .5mm 6.7mm; }
  .reading { gap: 0 3mm; }
  .asked { flex-basis: 32mm; }
  .should { flex-basis: 50mm; }
  .reading input { flex-basis: 30mm; }
  .form { flex-basis: 33mm; }
  .days th, .days td { padding-block: .5mm; }
  .days input { height: 5mm; }
  section { margin-top: 6mm; }
  .beside { width: 70mm; margin: 1mm 0 2mm 5mm; }
  .across { max-width: 150mm; }
}
`;
