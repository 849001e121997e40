/** Styles of the bench list as a sheet. */
export const BENCH_STYLE = `.signed { display: flex; flex-wrap: wrap; gap: .4rem 1.2rem; margin-top: .6rem; }
.signed label { display: flex; align-items: baseline; gap: .5rem; flex: 1 1 12rem; white-space: nowrap; }
main > .quiet { margin-top: .6rem; }
.how { margin: .2rem 0 .3rem; break-after: avoid; }
.steps { list-style: none; }
.steps > li { break-inside: avoid; }
.step { display: grid; grid-template-columns: auto 2.4em minmax(0, 1fr); gap: 0 .6em; padding: .45rem 0; border-top: 1px solid var(--line); break-inside: avoid; }
.step > input { margin-top: .12em; }
.said { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); gap: 0 1.2em; }
.what { font-weight: 600; }
.why { font-style: italic; }
.caution { border-left: 4px solid; padding-left: .5rem; margin: .2rem 0; }
.done { grid-template-columns: 2.4em minmax(0, 1fr); padding: .15rem 0 .15rem calc(1.1em + .6em); }
.done, .done .number { color: var(--quiet); font-weight: 400; font-size: .95em; }
.day { white-space: nowrap; font-weight: 600; }
.reading { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 8.5rem), 1fr)); gap: 0 .8em; align-items: baseline; margin-top: .2rem; }
.reading label { display: contents; }
.form { color: var(--quiet); font-size: .85em; }
.days { table-layout: fixed; }
.days code { font-size: .9em; }
.days .day-line { width: 10em; }
.days td:nth-child(3) { white-space: nowrap; }
.of-switches:not(.many) { float: right; width: 55%; margin: .3rem 0 .5rem 1.2rem; }
.of-motors { float: right; width: 42%; margin: .3rem 0 .5rem 1.2rem; }
.of-osd, .of-osd-second, .many { clear: both; max-width: 42rem; break-after: avoid; }
.many { break-inside: auto; }
.many img { break-inside: avoid; margin-bottom: .5rem; }
@media (max-width: 34rem) {
  .of-switches:not(.many), .of-motors { float: none; width: auto; margin: .7rem 0; }
  .step { grid-template-columns: auto minmax(0, 1fr); }
  .step > .number { display: none; }
  .done { grid-template-columns: minmax(0, 1fr); }
  .days, .days tbody, .days tr, .days th, .days td { display: block; border: 0; padding: .1rem 0; }
  .days thead { position: absolute; clip-path: inset(50%); }
  .days tr { border-top: 1px solid var(--line); padding: .3rem 0; }
}
@media print {
  .step { padding: 1.5mm 0; border-top: .2mm solid #999; grid-template-columns: 4.2mm 9mm minmax(0, 1fr); gap: 0 2.5mm; }
  .said { grid-template-columns: repeat(auto-fit, minmax(min(100%, 68mm), 1fr)); gap: 0 5mm; }
  .done { grid-template-columns: 9mm minmax(0, 1fr); padding: .5mm 0 .5mm 6.7mm; }
  .reading { grid-template-columns: repeat(auto-fit, minmax(min(100%, 30mm), 1fr)); gap: 0 3mm; }
  section { margin-top: 6mm; }
  .of-switches:not(.many) { width: 98mm; margin: 1mm 0 2mm 5mm; }
  .of-motors { width: 70mm; margin: 1mm 0 2mm 5mm; }
  .of-osd, .of-osd-second { max-width: 150mm; }
}
`;
