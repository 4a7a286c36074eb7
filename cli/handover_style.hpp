// How the sheet of a call looks. On paper all measures are in ems of one size, so that cli/handover_paper can reckon its
// height; what is measured there is measured here: change both together.
#pragma once

namespace lidlift::cli {

inline constexpr const char* handover_style = R"CSS(
:root { --ink: #1c1b18; --quiet: #55524a; --line: #b9b4a6; --back: #e9e6dc; --sheet: #fffefa; --alarm: #93190f; --care: #6d4200; --go: #17523a; }
* { box-sizing: border-box; }
html { font-size: 100%; -webkit-text-size-adjust: 100%; }
body { margin: 0; padding: 1.5rem 1rem; background: var(--back); color: var(--ink); font: 1rem/1.22 "Liberation Sans", Arial, Helvetica, Arimo, "Nimbus Sans", sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 2.2rem; background: var(--sheet); overflow-wrap: anywhere; }
h1, h2, h3, p, ul, table, figure { margin: 0; padding: 0; }
ul { list-style: none; }
h1 { font-size: 1.4em; line-height: 1.2; }
h2 { font-size: 1.1em; line-height: 1.2; margin: 0 0 .25em; padding-top: .2em; border-top: .16em solid var(--ink); }
h3 { font-size: 1em; margin: .4em 0 .1em; }
h2 + h3, h2 + p + h3 { margin-top: 0; }

.notes { margin-top: .3em; padding-left: .7em; border-left: .3em double var(--ink); }
section { margin-top: .7em; }

.cautions ul { columns: 2; column-gap: 1.2em; }
.cautions.one ul { columns: 1; }
.cautions li { break-inside: avoid; margin-bottom: .35em; padding: .2em .5em; border: 1px solid var(--line); }
.cautions .stop { border: .2em solid var(--alarm); }
.cautions .warn { border: .1em dashed var(--care); border-left: .4em solid var(--care); }
.cautions .note { border: .1em dotted var(--quiet); border-left: .4em double var(--quiet); }
.mark { display: inline-block; min-width: 1.35em; margin-right: .3em; text-align: center; font-weight: 700; border: .1em solid; border-radius: .7em; line-height: 1.05; }
.stop .mark, .stop .level { color: var(--alarm); }
.warn .mark, .warn .level { color: var(--care); }
.level { letter-spacing: .04em; }

.columns { columns: 2; column-gap: 1.6em; margin-top: .5em; }
.columns section { margin: 0 0 .7em; }
.apart .actions { break-before: column; }
.columns h2, .columns h3, .columns caption { break-after: avoid; }
.columns li, .columns p, .columns table { break-inside: avoid; }
.dots li { padding-left: .9em; text-indent: -.9em; margin-top: .12em; }
.dots li::before { content: "\2013"; display: inline-block; width: .9em; text-indent: 0; }
.words { margin-bottom: .25em; font-style: italic; }
.chance { font-weight: 700; }
table { width: 100%; border-collapse: collapse; margin: .3em 0 .4em; }
caption { text-align: left; color: var(--quiet); padding-bottom: .1em; }
th, td { padding: .1em 0; text-align: left; vertical-align: top; font-weight: 400; border-top: 1px solid var(--line); }
.points { width: 7.4em; padding-left: .5em; white-space: nowrap; }
.points span { display: inline-block; width: 1.9em; text-align: right; margin-right: .4em; font-variant-numeric: tabular-nums; }
.points svg { width: 4.6em; height: .8em; vertical-align: -.05em; overflow: visible; }
tfoot th, tfoot td { font-weight: 700; border-top: .12em solid var(--ink); }

.ticks li { margin: .25em 0 0; padding-left: 1.6em; position: relative; }
.ticks input { appearance: none; -webkit-appearance: none; position: absolute; left: 0; top: .12em; width: 1em; height: 1em; margin: 0; border: .1em solid var(--ink); background: var(--sheet); font: inherit; }
.ticks input:checked { border-width: .5em; }
.ticks input:focus-visible { outline: 2px solid var(--go); outline-offset: 2px; }
.check { display: block; font-style: italic; }
.amount { display: block; padding-left: .7em; border-left: .15em solid var(--line); }
.mind { font-weight: 700; white-space: nowrap; }
.mind a { color: inherit; }

footer { margin-top: .3em; padding-top: .3em; border-top: 1px solid var(--ink); color: var(--quiet); }
footer p + p { margin-top: .15em; }
.handy { font-weight: 700; color: var(--ink); }

@media screen and (max-width: 46rem) {
  main { padding: 1rem; }
  .columns, .cautions ul { columns: auto; }
}
@page { margin: 10mm; }
@media print {
  :root { --ink: #000; --quiet: #000; --line: #777; --back: #fff; --sheet: #fff; --alarm: #000; --care: #000; --go: #000; }
  body { padding: 0; font-size: var(--letters); }
  main { padding: 0; max-width: none; }
  a { text-decoration: none; }
}
)CSS";

}  // namespace lidlift::cli
