package html

// style is the whole look. Dark ink on white has a contrast over 12:1, whatever
// colours the reader prefers: pictures are ink on paper. The smallest text is 15 px
// on a screen and 8.5 pt on paper; lines of words are at most some 75 letters long.
// Tables of numbers and pictures scroll in their own box where the window is too
// narrow, so that the page itself never does, and a shade at the box's edge says that
// there is more; tables of words are laid out row by row.
// All sizes on paper hang from one, 9.5 pt.
const style = `:root { color-scheme: only light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; scroll-padding-top: .5rem; }
body { margin: 0 auto; padding: 0 1rem 4rem; max-width: 62rem; background: #fff; color: #1c1c1c;
  font: 1rem/1.5 Go, "Helvetica Neue", Helvetica, Arial, sans-serif; overflow-wrap: break-word; }
header { border-bottom: 3px solid #1c1c1c; margin-bottom: 2rem; }
h1 { font-size: 2rem; line-height: 1.2; margin: 2rem 0 .4rem; }
h2 { font-size: 1.5rem; line-height: 1.25; margin: 3rem 0 1rem; padding-bottom: .25rem; border-bottom: 1px solid #1c1c1c; }
h3 { font-size: 1.2rem; line-height: 1.3; margin: 2.5rem 0 .75rem; }
h4, h5, h6 { font-size: 1rem; margin: 1.5rem 0 .5rem; }
nav h2 { margin-top: 1.5rem; font-size: 1.2rem; border: 0; padding: 0; }
nav ol { columns: 17rem; column-gap: 2rem; padding-left: 1.9rem; }
nav li { break-inside: avoid; }
nav li a, .up a, th a { display: inline-block; min-height: 24px; min-width: 24px; }
a { color: #0b3d91; text-underline-offset: .15em; }
button { font: inherit; color: inherit; background: #fff; border: 1px solid #1c1c1c; border-radius: .2rem; padding: .2rem .7rem; min-height: 2rem; }
p, ul, ol, dl { margin: 0 0 1rem; }
p, ul, ol { max-width: 42rem; }
nav ol, .lead { max-width: none; }
li { margin-bottom: .25rem; }
ul.tick { list-style: none; padding-left: 0; }
label { display: flex; align-items: flex-start; gap: .65rem; padding: .1rem 0; min-height: 24px; }
label.alone { min-width: 24px; }
label:has(:checked) span { color: #595959; }
input[type=checkbox] { flex: none; width: 1.25rem; height: 1.25rem; margin: .15rem 0 0; accent-color: #1c1c1c; }
dl { max-width: 42rem; border-top: 1px solid #c8c8c8; }
dl div { display: grid; grid-template-columns: 9rem 1fr; gap: 0 1rem; padding: .25rem 0; border-bottom: 1px solid #c8c8c8; }
dt { font-weight: bold; }
dd { margin: 0; min-width: 0; }
.caution { border: 1px solid #1c1c1c; border-left-width: .5rem; padding: .6rem .9rem; }
.wide { overflow-x: auto; }
@media screen { .wide { background:
  linear-gradient(to right, #fff 40%, #fff0) left top / 2.5rem 200%, linear-gradient(to left, #fff 40%, #fff0) right top / 2.5rem 200%,
  linear-gradient(to right, #0004, #0000) left / .6rem 100%, linear-gradient(to left, #0004, #0000) right / .6rem 100%;
  background-repeat: no-repeat; background-attachment: local, local, scroll, scroll; } }
div.wide { margin: 0 0 1.5rem; }
table { border-collapse: collapse; font-size: .95rem; line-height: 1.4; border-bottom: 1px solid #1c1c1c; }
caption { text-align: left; font-weight: bold; padding: 0 0 .4rem; }
th, td { padding: .3rem 1.25rem .3rem 0; text-align: left; vertical-align: top; font-weight: normal; }
th:last-child, td:last-child { padding-right: 0; }
thead th { font-weight: bold; vertical-align: bottom; border-bottom: 1px solid #1c1c1c; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
thead .number { white-space: normal; }
tbody tr + tr > * { border-top: 1px solid #c8c8c8; }
td.tick, th.tick { width: 3.4rem; padding-right: .75rem; }
td.tick label { padding: 0; }
td.tick input { margin-top: 0; }
figure { margin: 0 0 1.5rem; }
figure .wide { margin: 0; }
figure img { display: block; max-width: 100%; height: auto; }
figcaption { font-size: .95rem; margin-top: .4rem; max-width: 42rem; }
.abreast { display: flex; flex-wrap: wrap; gap: 0 2rem; }
.abreast figure { max-width: 100%; }
.abreast figcaption { max-width: 20rem; }
.up { font-size: .95rem; margin: 2rem 0 0; }
@media screen { figure img { min-width: var(--legible, 0); } }
@media screen and (pointer: coarse) { label, nav li a { padding: .25rem 0; } }
@media screen and (max-width: 40rem) {
  h1 { font-size: 1.6rem; margin-top: 1.2rem; }
  h2 { font-size: 1.35rem; margin-top: 2.5rem; }
  dl div { grid-template-columns: 6.2rem 1fr; gap: 0 .75rem; }
  th, td { padding-right: .7rem; }
  td.tick, th.tick { width: 2.6rem; }
  .wordy, .wordy caption, .wordy tbody, .wordy tr, .wordy tbody th, .wordy tbody td { display: block; width: auto; padding: 0; }
  .wordy caption { padding-bottom: .5rem; }
  .wordy thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
  .wordy tbody tr { position: relative; padding: .5rem 0; border-top: 1px solid #c8c8c8; }
  .wordy tbody tr > * { border: 0; }
  .wordy tbody th { font-weight: bold; }
  .wordy .number { text-align: left; white-space: normal; }
  .wordy td[data-head]::before { content: attr(data-head) ": "; color: #595959; }
  .wordy td:empty { display: none; }
  .wordy td.tick { position: absolute; left: 0; }
  .wordy td.tick ~ * { margin-left: 2.1rem; }
}
@page { margin: 14mm 12mm 16mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8.5pt Go, Helvetica, Arial, sans-serif; } }
@media print {
  html { font-size: 9.5pt; }
  body { max-width: none; padding: 0; line-height: 1.4; color: #000; }
  header { margin-bottom: 1rem; }
  h1 { font-size: 20pt; margin: 0 0 .3rem; }
  h2 { font-size: 14pt; margin: 1.8rem 0 .7rem; }
  h3 { font-size: 11.5pt; margin: 1.6rem 0 .5rem; }
  .new-page > h2 { margin-top: 0; }
  nav ol { columns: 3; }
  a { color: inherit; text-decoration: none; }
  nav li a, .up a, th a, label, label.alone { min-height: 0; min-width: 0; }
  p, ul, ol, dl { margin-bottom: .7rem; }
  p, ul, ol { max-width: 42rem; }
  dl { max-width: none; }
  dl div { grid-template-columns: 6.5rem 1fr; padding: .15rem 0; }
  table { font-size: 8.5pt; line-height: 1.35; }
  th, td { padding-top: .2rem; padding-bottom: .2rem; }
  div.wide, figure { margin-bottom: 1rem; }
  .up, #ticks { display: none; }
  .new-page { break-before: page; }
  h2, h3, h4, caption, thead { break-after: avoid; }
  figure, tr, caption, .short, .caution, dl, li, .abreast { break-inside: avoid; }
  p, li { orphans: 3; widows: 3; }
  thead { display: table-header-group; }
  .wide { overflow: visible; }
  figure img { max-height: 205mm; object-fit: contain; object-position: left top; }
  input[type=checkbox] { appearance: none; width: 3.2mm; height: 3.2mm; border: .25mm solid #000; border-radius: 0; background: none; margin-top: .1rem; }
  td.tick input { margin-top: 0; }
  label:has(:checked) span { color: inherit; }
}
`
