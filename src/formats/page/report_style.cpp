#include "formats/page/report_style.h"

namespace leeway {

// Text on its ground keeps at least 4.5 : 1 in both schemes (WCAG 2.2, 1.4.3); tests/web measures
// it. Paper is always the light scheme.
const char* const kReportStyle = R"css(
:root {
  color-scheme: light dark;
  --ground: #ffffff; --ink: #1c2126; --soft: #4b555f; --line: #c8ced5; --panel: #f4f6f8;
  --link: #00558a; --good: #00634a; --fair: #7a4d00; --bad: #a33c00;
  --warn: #fff4dc; --warn-line: #b87900; --lit: #ffeeb0; --lit-line: #7a4d00;
}
@media screen and (prefers-color-scheme: dark) {
  :root {
    --ground: #14181c; --ink: #e8ebee; --soft: #aab4be; --line: #3b444d; --panel: #1d2329;
    --link: #7cc4f0; --good: #5fd3ae; --fair: #f0b94a; --bad: #ff9a66;
    --warn: #33290f; --warn-line: #d59a2a; --lit: #4a3c0c; --lit-line: #f0b94a;
  }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body {
  margin: 0 auto; padding: 1rem; max-width: 84rem;
  background: var(--ground); color: var(--ink);
  font: 1rem/1.5 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: anywhere;
}
h1 { margin: .2rem 0 .4rem; font-size: 1.7rem; line-height: 1.2; }
h2 { margin: 2rem 0 .6rem; font-size: 1.25rem; line-height: 1.3; }
p, ul { margin: .5rem 0; max-width: 46rem; }
ul { padding-left: 1.3rem; }
li { margin: .35rem 0; }
a { color: var(--link); }
a:focus-visible { outline: 3px solid var(--lit-line); outline-offset: 2px; }
.kind, .small, footer { color: var(--soft); font-size: .9rem; }
.kind { margin: 0; }
.gist { font-size: 1.15rem; }
.verdict { font-weight: 600; white-space: nowrap; }
.reachable > .verdict, .reachable .verdict { color: var(--good); }
.marginal > .verdict, .marginal .verdict { color: var(--fair); }
.unreachable > .verdict, .unreachable .verdict { color: var(--bad); }
.caution {
  margin: 1rem 0; padding: .6rem .9rem; max-width: 48rem;
  background: var(--warn); border-left: .35rem solid var(--warn-line);
}
.caution p { margin: 0; }
.narrow { display: none; }
.skip { margin: 0; }
.skip a { position: absolute; left: -100vw; }
.skip a:focus { position: static; }
figure { margin: 0; }
.picture { overflow-x: auto; }
.picture > svg { display: block; width: 100%; min-width: 36rem; height: auto; }
#shown {
  margin: .6rem 0; padding: .6rem .9rem; max-width: none; min-height: 4.4rem;
  background: var(--panel); border: 1px solid var(--line); border-radius: .3rem;
}
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { padding: .35rem .6rem .35rem 0; text-align: left; vertical-align: top; }
td, tbody th { border-top: 1px solid var(--line); }
thead th { color: var(--soft); font-size: .9rem; font-weight: 600; }
tbody th { font-weight: 400; }
.points tbody th, .points thead th:first-child { padding-left: .5rem; }
.points tbody th { border-left: .3rem solid transparent; }
.points tbody th a { font-weight: 600; }
.points td:nth-child(2), .points td:nth-child(3) { white-space: nowrap; }
.points tbody tr { scroll-margin: 6rem; }
.points tbody tr:hover, .points tbody tr:focus-within, .points tbody tr:target,
.points tbody tr.lit { background: var(--lit); }
.points tbody tr:hover th, .points tbody tr:focus-within th, .points tbody tr:target th,
.points tbody tr.lit th { border-left-color: var(--lit-line); }
.enter { max-width: 52rem; }
.enter td { white-space: nowrap; }
svg a { cursor: pointer; }
svg a:focus { outline: none; }
.leeway-plan .halo { fill: none; stroke: none; pointer-events: all; }
.leeway-plan a:hover > .halo, .leeway-plan a:focus > .halo, .leeway-plan a:target > .halo,
.leeway-plan a.lit > .halo { fill: var(--lit); stroke: var(--lit-line); stroke-width: 2px; }
footer { margin-top: 2.5rem; padding-top: .6rem; border-top: 1px solid var(--line); }
@media screen and (min-width: 68rem) {
  main {
    display: grid; gap: 0 2.5rem; grid-template-columns: minmax(0, 11fr) minmax(0, 10fr);
  }
  header {
    display: grid; gap: 0 2.5rem; grid-template-columns: minmax(0, 11fr) minmax(0, 10fr);
    align-items: start;
  }
  header > * { grid-column: 1; }
  header > .caution { grid-column: 2; grid-row: 1 / span 5; }
  main h2 { margin-top: 1.2rem; }
  .side { display: flex; flex-direction: column; }
  .list { flex: 1 1 auto; display: flex; flex-direction: column; }
  .rows { flex: 1 1 24rem; height: 24rem; overflow-y: auto; }
}
@media screen and (max-width: 40rem), screen and (min-width: 68rem) {
  .points { display: block; }
  .points thead { position: absolute; left: -100vw; }
  .points tbody { display: block; }
  .points tbody tr { display: flex; flex-wrap: wrap; padding: .4rem 0; }
  .points tbody tr + tr { border-top: 1px solid var(--line); }
  .points tbody th { flex: 1 1 100%; border-top: 0; padding: 0 .6rem 0 .5rem; }
  .points td { border-top: 0; padding: 0 .6rem 0 .8rem; }
  .points td { font-size: .94rem; }
  .points td:last-child { flex: 1 0 100%; font-size: 1rem; }
  .points td::before { content: attr(data-label) " "; color: var(--soft); }
  .points td:last-child::before { content: none; }
}
@media screen and (max-width: 40rem) {
  body { padding: .75rem; }
  .narrow { display: block; }
  .enter { display: block; }
  .enter thead { position: absolute; left: -100vw; }
  .enter tbody { display: block; }
  .enter tbody tr { display: flex; flex-wrap: wrap; padding: .4rem 0; }
  .enter tbody tr + tr { border-top: 1px solid var(--line); }
  .enter tbody th, .enter td { border-top: 0; padding: 0 1.2rem 0 0; }
  .enter tbody th { flex: 1 0 100%; font-weight: 600; }
  .enter td::before { content: attr(data-label) " "; color: var(--soft); }
}
@media print {
  @page {
    size: A4; margin: 18mm 12mm 16mm;
    @bottom-right { content: counter(page) " of " counter(pages); font: 8pt sans-serif; }
    @bottom-left { content: "leeway report"; font: 8pt sans-serif; }
  }
  @page :first { margin-top: 14mm; }
  html { font-size: 9.5pt; }
  body { max-width: none; padding: 0; }
  h2 { break-after: avoid; }
  p, ul { max-width: none; }
  a { color: inherit; text-decoration: none; }
  .skip, #shown { display: none; }
  .picture > svg { min-width: 0; max-height: 165mm; }
  figure, tr, li, .caution, .enter { break-inside: avoid; }
  .side, .column { display: block; }
  thead { display: table-header-group; }
  .caution { border: 1px solid var(--warn-line); border-left-width: .35rem; }
}
)css";

// Without this everything is there: the rows hold the reasons, and the links lead from plan to
// table and back. With it, whichever of the two is pointed at or focused lights up in both, and
// its reason stands under the plan.
const char* const kReportScript = R"js(
(() => {
  'use strict';
  const shown = document.getElementById('shown');
  if (!shown) return;
  const atRest = shown.textContent;
  const points = new Map();
  for (const row of document.querySelectorAll('tr[data-point]')) {
    const mark = document.getElementById('p-' + row.dataset.point);
    points.set(row, row);
    if (mark) points.set(mark, row);
  }
  const markOf = (row) => document.getElementById('p-' + row.dataset.point);
  let lit = null;
  let focused = null;

  function say(row) {
    const cells = [...row.cells].map((cell) => cell.textContent.trim());
    shown.textContent = cells[0] + ', probe at ' + cells[1] + ', nozzle at ' + cells[2] + ': ' +
                        cells[3] + '.';
  }
  function light(row) {
    if (row === lit) return;
    for (const one of [lit, lit && markOf(lit)]) if (one) one.classList.remove('lit');
    lit = row;
    for (const one of [lit, lit && markOf(lit)]) if (one) one.classList.add('lit');
    if (row) say(row); else shown.textContent = atRest;
  }
  function rowAt(node) {
    for (let at = node; at && at !== document; at = at.parentNode) {
      if (points.has(at)) return points.get(at);
    }
    return null;
  }
  document.addEventListener('focusin', (event) => light(focused = rowAt(event.target)));
  document.addEventListener('focusout', () => light(focused = null));
  document.addEventListener('pointerover', (event) => light(rowAt(event.target) || focused));
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') light(focused = null);
  });
})();
)js";

const char* const kPlanStyleHash = "mIE45Ul2abPotshEI4vBp7Dk2yXXe0cFhh+qTmChG1c=";
const char* const kMapStyleHash = "uk6800IODkqSnj0w9AKRz5zfVksxDxWJ7lPev44i+HA=";
const char* const kReportStyleHash = "R5Mf8ZvGc/gZmsqaYwGti76+WyvGmcn2kqY5jSn+Aj4=";
const char* const kReportScriptHash = "LfprTgtPaVon1LhA2+b2I62+l+s5gVup8fzX3U6Q9B8=";

}  // namespace leeway
