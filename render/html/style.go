package html

// style is the whole look. Dark ink on white has a contrast over 12:1; the
// smallest text is 16 px on a screen and 9 pt on paper. Nothing but the width of
// the window and the medium changes it. Wide tables scroll in their own box, so
// that the page itself never does.
const style = `:root { color-scheme: light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; padding: 0 1rem 4rem; max-width: 62rem; background: #fff; color: #1c1c1c;
  font: 1rem/1.5 "Go", "Helvetica Neue", Arial, sans-serif; overflow-wrap: break-word; }
header { border-bottom: 3px solid #1c1c1c; margin-bottom: 1rem; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 1.2rem 0 .3rem; }
.lead { margin: 0 0 1rem; }
h2 { font-size: 1.45rem; border-bottom: 1px solid #767676; margin: 2.2rem 0 .8rem; line-height: 1.25; }
h3 { font-size: 1.2rem; margin: 1.8rem 0 .5rem; line-height: 1.3; }
h4, h5, h6 { font-size: 1rem; margin: 1.2rem 0 .4rem; }
nav ol { columns: 18rem; padding-left: 2rem; }
a { color: #0b3d91; }
p, ul, ol, dl { margin: 0 0 .8rem; }
li { margin-bottom: .2rem; }
ul.tick { list-style: none; padding-left: 0; }
label { display: block; padding-left: 1.9rem; text-indent: -1.9rem; }
input[type=checkbox] { width: 1.25rem; height: 1.25rem; margin: 0 .4rem 0 0; vertical-align: -.2rem; }
dl div { display: grid; grid-template-columns: minmax(7rem, 12rem) 1fr; gap: 0 1rem; padding: .15rem 0; border-bottom: 1px dotted #9a9a9a; }
dt { font-weight: bold; }
dd { margin: 0; min-width: 0; }
.caution { border: 2px solid #1c1c1c; border-left-width: .6rem; padding: .5rem .8rem; }
.wide { overflow-x: auto; margin: 0 0 1rem; }
table { border-collapse: collapse; font-size: .95rem; }
caption { text-align: left; font-weight: bold; padding: .2rem 0; }
th, td { border: 1px solid #767676; padding: .2rem .5rem; text-align: left; vertical-align: top; }
th { background: #eee; }
.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
figure { margin: 0 0 1rem; }
figure img { display: block; max-width: 100%; height: auto; }
figcaption { font-size: .95rem; margin-top: .3rem; }
@media (max-width: 480px) { dl div { grid-template-columns: 1fr; } }
@page { margin: 14mm 12mm 16mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; line-height: 1.35; }
  nav ol { columns: 2; }
  a { color: inherit; text-decoration: none; }
  .new-page { break-before: page; }
  h2, h3, h4, caption { break-after: avoid; }
  figure, tr, .caution, dl div, li { break-inside: avoid; }
  thead { display: table-header-group; }
  .wide { overflow: visible; }
  figure img { max-height: 205mm; object-fit: contain; object-position: left top; }
}
`
