/** Styles of the fleet as a sheet. */
export const FLEET_STYLE = `body { max-width: none; }
table { table-layout: fixed; line-height: 1.3; }
thead th { vertical-align: bottom; }
th[scope="row"] { font-weight: 600; }
.wide { position: relative; overflow-x: auto; margin-top: .5rem; font-size: .9rem; }
.part { color: var(--quiet); font-size: .9em; break-after: avoid; }
.what { display: block; color: var(--quiet); font-weight: 400; font-size: .9em; }
.differs { background: var(--slip); outline: 2px solid var(--ink); outline-offset: -2px; }
.sign { font-weight: 700; }
.most { display: block; color: var(--quiet); font-size: .9em; }
.together { margin-top: .8rem; }
.craft { font-size: .9rem; }
.of-name, .of-handset { width: 25%; }
@media (max-width: 34rem) {
  .of-name { width: 36%; }
  .of-handset { width: 27%; }
  .craft { font-size: .8rem; }
}
@media print {
  .wide { overflow: visible; font-size: 8pt; margin-top: 2mm; }
  .wide table { min-width: 0 !important; }
  .wide + .wide { margin-top: 5mm; }
  .short { break-inside: avoid; }
  thead, tbody tr:nth-child(-n + 2) { break-after: avoid; }
  tbody tr:nth-last-child(-n + 2):not(:first-child) { break-before: avoid; }
  .craft { font-size: 8.5pt; }
  th, td { padding: .6mm 1.2mm; border-width: .2mm; }
  .differs { outline-width: .5mm; outline-offset: -.5mm; }
  section { margin-top: 5mm; }
}
`;
