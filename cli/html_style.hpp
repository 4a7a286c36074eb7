// How an HTML page of ours looks, on a wide screen, a telephone, in the dark, and on A4 paper.
#pragma once

namespace lidlift::cli {

inline constexpr const char* html_style = R"CSS(
:root {
  --paper: #fbfaf5; --ink: #23211c; --quiet: #645f52; --line: #d8d2c1; --sheet: #ffffff;
  --link: #1d5a3a; --band: #f1eee2; --alarm: #8f1d14; --alarm-sheet: #fdf3f0; --care: #7a4b00; --care-sheet: #fdf7e8;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #1b1a16; --ink: #e9e5d8; --quiet: #aaa391; --line: #423e33; --sheet: #232119;
    --link: #93d0a9; --band: #2a281f; --alarm: #ffa79a; --alarm-sheet: #33201c; --care: #f0c274; --care-sheet: #2f2819;
  }
}
* { box-sizing: border-box; }
html { font-size: 100%; -webkit-text-size-adjust: 100%; scroll-padding-top: 1rem; }
body {
  margin: 0 auto; padding: 1.5rem 1rem 4rem; max-width: 67rem;
  background: var(--paper); color: var(--ink);
  font: 1.0625rem/1.55 Charter, "Bitstream Charter", "Sitka Text", Cambria, "Liberation Serif", Georgia, serif;
  overflow-wrap: break-word;
}
h1, h2, h3, h4, h5, nav, th, dt, .word, .aside, .skip, .number {
  font-family: "Gill Sans Nova", "Gill Sans", Seravek, Ubuntu, Calibri, "DejaVu Sans", "Liberation Sans", sans-serif;
}
h1 { font-size: 2.3rem; line-height: 1.1; margin: 0 0 .4rem; font-weight: 600; }
h2 { font-size: 1.75rem; line-height: 1.2; margin: 3.5rem 0 1rem; padding-bottom: .3rem; border-bottom: 3px solid var(--ink); font-weight: 600; }
h3 { font-size: 1.3rem; margin: 2.5rem 0 .8rem; padding-bottom: .2rem; border-bottom: 1px solid var(--line); font-weight: 600; }
h4 { font-size: 1.12rem; line-height: 1.3; margin: 0 0 .3rem; font-weight: 700; }
h5 { font-size: .95rem; margin: 1.3rem 0 .4rem; font-weight: 700; }
.number { color: var(--quiet); font-weight: 400; font-variant-numeric: tabular-nums; }
p { margin: .5rem 0; max-width: 42rem; }
.aside { color: var(--quiet); font-size: .85rem; line-height: 1.45; }
h4 + .aside { margin-top: 0; }
a { color: var(--link); text-decoration-thickness: 1px; text-underline-offset: .18em; }
a:hover { text-decoration-thickness: 2px; }
a:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
code { font: .88em/1.3 "DejaVu Sans Mono", "Liberation Mono", Consolas, Menlo, monospace; background: var(--band); padding: .05em .15em; border-radius: 3px; }
ul, ol { margin: .4rem 0 .8rem; padding-left: 1.5rem; max-width: 42rem; }
li { margin: .25rem 0; }
.skip { position: absolute; left: -60rem; padding: .5rem 1rem; background: var(--ink); color: var(--paper); }
.skip:focus { left: 1rem; top: 1rem; z-index: 2; }

nav { font-size: .92rem; line-height: 1.35; }
nav .label { font-weight: 700; margin: 0 0 .3rem; }
nav ul { list-style: none; padding-left: 0; margin: 0; }
nav ul ul { padding-left: 1.1rem; margin: .1rem 0 .5rem; }
nav li { margin: .15rem 0; }
nav a { text-decoration: none; color: var(--ink); display: inline-block; padding: .12rem 0; }
nav a:hover { text-decoration: underline; }

article { background: var(--sheet); border: 1px solid var(--line); border-radius: 6px; padding: 1rem 1.2rem .8rem; margin: 1rem 0; }
article:target, h5:target { box-shadow: 0 0 0 3px var(--link); }

dl { margin: .6rem 0; max-width: 46rem; }
dl div { display: grid; grid-template-columns: minmax(7.5rem, 11rem) 1fr; gap: 0 1rem; padding: .22rem 0; border-top: 1px solid var(--line); }
dl div:first-child { border-top: 0; }
dt { font-size: .85rem; font-weight: 600; color: var(--quiet); padding-top: .12rem; }
dd { margin: 0; }

.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0 .8rem; font-size: .95rem; line-height: 1.4; }
th, td { text-align: left; vertical-align: top; padding: .35rem .6rem .35rem 0; border-bottom: 1px solid var(--line); }
thead th { font-size: .8rem; color: var(--quiet); font-weight: 600; border-bottom: 2px solid var(--line); }
tbody th { font-family: inherit; font-weight: 400; }

.caution { margin: .8rem 0; padding: .6rem .9rem; max-width: 46rem; border: 1px solid var(--quiet); border-left-width: 8px; border-radius: 2px; }
.caution p { margin: .2rem 0; }
.caution .word { font-size: .95rem; font-weight: 600; }
.caution .word > strong:first-child { display: inline-block; padding: 0 .5em; margin-right: .3em; letter-spacing: .08em; border: 2px solid currentColor; }
.caution.stop { border: 3px solid var(--alarm); border-left-width: 12px; background: var(--alarm-sheet); }
.caution.stop .word > strong:first-child { background: var(--alarm); color: var(--sheet); border-color: var(--alarm); }
.caution.warn { border: 2px dashed var(--care); border-left: 8px solid var(--care); background: var(--care-sheet); }
.caution.note { border: 1px dotted var(--quiet); border-left: 4px double var(--quiet); }

#index ul { list-style: none; padding-left: 0; columns: 2; column-gap: 2rem; max-width: none; font-size: .92rem; }
#index li { break-inside: avoid; }

@media (min-width: 62rem) {
  body { display: grid; grid-template-columns: 16rem minmax(0, 1fr); column-gap: 3rem; align-items: start; }
  body > h1, body > p { grid-column: 2; }
  nav { grid-column: 1; grid-row: 1 / span 12; position: sticky; top: 1.5rem; max-height: calc(100vh - 3rem); overflow-y: auto; scrollbar-width: thin; }
  main { grid-column: 2; }
}
@media (max-width: 40rem) {
  body { padding: 1rem .75rem 3rem; font-size: 1rem; }
  h1 { font-size: 1.8rem; }
  article { padding: .8rem .8rem .6rem; }
  dl div { display: block; }
  dt { padding-top: 0; }
  table { font-size: .88rem; }
  th, td { padding-right: .4rem; }
  #index ul { columns: 1; }
}
@page { size: A4; margin: 15mm 16mm 17mm; @bottom-right { content: counter(page); font: 9pt "Liberation Sans", sans-serif; } }
@media print {
  :root {
    --paper: #fff; --ink: #000; --quiet: #444; --line: #bbb; --sheet: #fff; --link: #000; --band: #fff;
    --alarm: #000; --alarm-sheet: #fff; --care: #000; --care-sheet: #fff;
  }
  html { font-size: 9pt; }
  body { display: block; padding: 0; max-width: none; font-size: 1rem; line-height: 1.35; }
  .skip { display: none; }
  a { text-decoration: none; color: inherit; }
  code { padding: 0; }
  nav { position: static; max-height: none; overflow: visible; }
  nav > ul { columns: 2; column-gap: 2rem; }
  nav > ul > li { break-inside: avoid; }
  .chapter { break-before: page; }
  h2 { margin-top: 0; }
  h2, h3, h4, h5, .word, thead, .aside { break-after: avoid; }
  article { border: 0; border-top: 1px solid var(--line); border-radius: 0; padding: .5rem 0 0; margin: .7rem 0 0; }
  h5 { margin-top: .8rem; }
  dl, table, .caution { margin: .3rem 0 .5rem; }
  dl div, th, td { padding-top: .12rem; padding-bottom: .12rem; }
  table { font-size: .95rem; line-height: 1.3; }
  article:target, h5:target { box-shadow: none; }
  tr, dl div, li, .caution, p { break-inside: avoid; }
  p, ul, ol, dl, .caution { max-width: none; }
  p { orphans: 3; widows: 3; }
  .caution { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
)CSS";

}  // namespace lidlift::cli
