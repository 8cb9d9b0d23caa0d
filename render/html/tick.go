package html

import (
	"fmt"
	"hash/fnv"
)

// tickNote stands under the contents where the browser keeps ticks; the script shows
// it.
const tickNote = `<p id="ticks" hidden="hidden">Ticks stay in this browser. <button type="button">Clear all ticks</button></p>
`

// script keeps the ticks of the page where it lies, so that a browser that drops the
// page and loads it again loses none. A browser that keeps nothing for a file, or runs
// no scripts, shows boxes that are ticked until it closes. It holds no < and no &, so
// that the file stays well-formed XML.
const script = `"use strict";
(() => {
  const boxes = Array.from(document.querySelectorAll("input[type=checkbox]"));
  const key = "ticks " + location.pathname;
  const note = document.getElementById("ticks");
  const show = () => {
    const kept = new Set(JSON.parse(localStorage.getItem(key) || "[]"));
    for (const b of boxes) b.checked = kept.has(b.id);
  };
  const keep = () => localStorage.setItem(key, JSON.stringify(boxes.filter(b => b.checked).map(b => b.id)));
  try { show(); keep(); } catch { return; }
  note.hidden = false;
  addEventListener("change", keep);
  addEventListener("storage", show);
  addEventListener("pageshow", show);
  note.querySelector("button").addEventListener("click", () => {
    if (!confirm("Clear all ticks?")) return;
    for (const b of boxes) b.checked = false;
    keep();
  });
})();
`

// tick returns a box to tick, with its label.
func (p *page) tick(label string) string {
	return fmt.Sprintf(`<label><input type="checkbox" id="%s"/> <span>%s</span></label>`, p.tickID(label), esc(label))
}

// tickAlone returns a box whose label is for one who hears the page only; what is
// what its row says.
func (p *page) tickAlone(label, what string) string {
	return fmt.Sprintf(`<label class="alone"><input type="checkbox" id="%s" aria-label="%s"/></label>`, p.tickID(what), esc(label))
}

// tickID names a box by its section and its words. In a new edition of the document
// the ticks stay with the words that they were given to, and what reads otherwise is
// to be done again.
func (p *page) tickID(what string) string {
	p.ticks++
	for n := 0; ; n++ {
		h := fnv.New64a()
		fmt.Fprintf(h, "%s\n%s\n%d", p.at, what, n)
		id := fmt.Sprintf("tick-%016x", h.Sum64())
		if !p.keys[id] {
			p.keys[id] = true
			return id
		}
	}
}
