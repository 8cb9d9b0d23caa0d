// What a page shows, measured in the page. Each function returns a list of
// complaints, empty where all is well.
globalThis.look = (() => {
  "use strict";
  const all = (q, root = document) => [...root.querySelectorAll(q)];
  const shown = e => e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length > 0;
  const name = e => e.tagName.toLowerCase() + (e.id ? "#" + e.id : "") + " “" + (e.getAttribute("alt") || e.textContent).trim().replace(/\s+/g, " ").slice(0, 40) + "”";
  const scrolls = e => /auto|scroll/.test(getComputedStyle(e).overflowX);
  const hides = e => /hidden|clip/.test(getComputedStyle(e).overflowX) || /hidden|clip/.test(getComputedStyle(e).overflowY);
  const within = (e, test) => { for (let p = e; p && p !== document.documentElement; p = p.parentElement) if (test(p)) return p; return null; };
  // Text that is put out of sight for those who hear the page.
  const unseen = e => within(e, p => { const r = p.getBoundingClientRect(); return r.width <= 1 && r.height <= 1; });
  const texts = () => {
    const out = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const n = walk.currentNode, e = n.parentElement;
      if (!n.data.trim() || /^(SCRIPT|STYLE)$/.test(e.tagName) || !shown(e) || unseen(e)) continue;
      out.push([n, e]);
    }
    return out;
  };
  const boxes = n => { const r = document.createRange(); r.selectNodeContents(n); return [...r.getClientRects()]; };

  return {
    // The page scrolls downwards only, and nothing but what lies in a box that
    // scrolls stands out of it.
    width() {
      const bad = [], root = document.documentElement, w = root.clientWidth;
      if (root.scrollWidth > w) bad.push(`the page is ${root.scrollWidth} px wide in a window of ${w}`);
      for (const e of all("body *")) {
        if (!shown(e) || within(e.parentElement, scrolls) || unseen(e)) continue;
        const r = e.getBoundingClientRect();
        if (r.right > w + 0.5 || r.left < -0.5) bad.push(`${name(e)} reaches from ${r.left} to ${r.right} px of ${w}`);
      }
      return bad;
    },
    // No words are cut off, and none run out of the box that holds them.
    clipped() {
      const bad = [];
      for (const [n, e] of texts()) {
        const cell = within(e, p => /^(block|flex|grid|table-cell|list-item|table-caption)$/.test(getComputedStyle(p).display)) || e;
        const holder = within(e, hides);
        for (const t of boxes(n)) {
          if (t.width < 1) continue;
          const c = cell.getBoundingClientRect();
          if (t.right > c.right + 1 || t.left < c.left - 1) { bad.push(`${name(e)} runs out of its box by ${Math.max(t.right - c.right, c.left - t.left)} px`); break; }
          if (!holder) continue;
          const h = holder.getBoundingClientRect();
          if (t.right > h.right + 1 || t.left < h.left - 1 || t.bottom > h.bottom + 1 || t.top < h.top - 1) { bad.push(`${name(e)} is cut off`); break; }
        }
      }
      return bad;
    },
    // Words do not lie on one another.
    overlaid() {
      const bad = [], line = [];
      for (const [n, e] of texts()) for (const r of boxes(n)) if (r.width > 1) line.push([r.top, r.bottom, r.left, r.right, e, n]);
      line.sort((a, b) => a[0] - b[0]);
      for (let i = 0; i < line.length; i++) {
        for (let k = i + 1; k < line.length && line[k][0] < line[i][1]; k++) {
          const a = line[i], b = line[k];
          if (a[5] === b[5] || within(a[4], scrolls) !== within(b[4], scrolls)) continue;
          const high = Math.min(a[1], b[1]) - b[0], wide = Math.min(a[3], b[3]) - Math.max(a[2], b[2]);
          // Boxes of lines are taller than their letters, and may touch.
          if (high > 0.4 * Math.min(a[1] - a[0], b[1] - b[0]) && wide > 2) bad.push(`${name(a[4])} and ${name(b[4])} lie on one another`);
        }
      }
      return bad;
    },
    // WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels; a link in a
    // sentence is excepted.
    targets() {
      const bad = [];
      for (const e of all("a[href], button, input, select, textarea, summary")) {
        if (!shown(e)) continue;
        const prose = e.tagName === "A" && /^inline$/.test(getComputedStyle(e).display) && e.parentElement.textContent.trim() !== e.textContent.trim();
        if (prose) continue;
        const r = (e.closest("label") || e).getBoundingClientRect();
        if (r.width < 23.99 || r.height < 23.99) bad.push(`${name(e)} is ${r.width} × ${r.height} px`);
      }
      return bad;
    },
    // WCAG 2.2: 1.1.1 Non-text Content, 1.3.1 Info and Relationships, 2.4.1 Bypass
    // Blocks, 2.4.2 Page Titled, 2.4.6 Headings and Labels, 3.1.1 Language of Page.
    structure() {
      const bad = [], root = document.documentElement;
      if (!root.lang) bad.push("the page has no language");
      if (!document.title.trim()) bad.push("the page has no title");
      if (all("h1").length !== 1) bad.push(`${all("h1").length} headings of the first rank`);
      let rank = 0;
      for (const h of all("h1, h2, h3, h4, h5, h6")) {
        const r = +h.tagName[1];
        if (r > rank + 1) bad.push(`${name(h)} follows a heading of rank ${rank}`);
        if (!h.textContent.trim()) bad.push(`an empty heading of rank ${r}`);
        rank = r;
      }
      for (const e of all("img")) if (!(e.alt || "").trim()) bad.push("a picture without words");
      for (const e of all("img")) if (!e.complete || !e.naturalWidth) bad.push(`${name(e)} does not show`);
      for (const e of all("svg")) if (!e.getAttribute("aria-label") && !e.querySelector("title")) bad.push("a drawing without words");
      for (const t of all("table")) {
        if (!t.caption || !t.caption.textContent.trim()) bad.push(`${name(t)} has no caption`);
        for (const h of all("th", t)) if (!h.scope) bad.push(`${name(h)} heads neither column nor row`);
        const wide = new Set([...t.rows].map(r => r.cells.length));
        if (wide.size > 1) bad.push(`${name(t.caption || t)} has rows of ${[...wide].join(" and ")} cells`);
      }
      for (const e of all("input")) if (!e.getAttribute("aria-label") && !(e.closest("label") || e).textContent.trim()) bad.push("a box without words");
      for (const q of ["main", "nav", "header"]) if (all(q).length !== 1) bad.push(`${all(q).length} elements ${q}`);
      for (const a of all("a")) {
        const to = a.getAttribute("href") || "";
        if (to[0] !== "#") bad.push(`${name(a)} leads to ${to}`);
        else if (!document.getElementById(decodeURIComponent(to.slice(1)))) bad.push(`${name(a)} leads to ${to}, which is not there`);
      }
      for (const s of all("main > section")) if (!document.querySelector(`nav a[href="#${s.id}"]`)) bad.push(`${name(s.firstElementChild || s)} is not in the contents`);
      const ids = new Set();
      for (const e of all("[id]")) { if (ids.has(e.id)) bad.push(`two elements #${e.id}`); ids.add(e.id); }
      return bad;
    },
    // The size of the smallest letters in each drawing as it is shown, CSS pixels.
    letters() {
      const out = [];
      for (const e of all('img[src^="data:image/svg+xml;base64,"]')) {
        const svg = new DOMParser().parseFromString(new TextDecoder().decode(Uint8Array.from(atob(e.src.split(",")[1]), c => c.charCodeAt(0))), "image/svg+xml");
        const box = svg.documentElement.viewBox.baseVal, r = e.getBoundingClientRect();
        const scale = Math.min(r.width / box.width, r.height / box.height);
        const sizes = [...svg.querySelectorAll("text")].map(t => parseFloat(t.getAttribute("font-size")) * scale);
        if (sizes.length) out.push({ name: name(e), px: Math.min(...sizes), scrolls: r.width > (within(e, scrolls) || document.body).clientWidth + 1 });
      }
      return out;
    },
    // WCAG 2.2, 1.4.3 Contrast (Minimum): 4.5 to 1. The larger letters that need
    // less are held to the same.
    contrast() {
      const bad = [];
      const colour = c => { const m = c.match(/[\d.]+/g).map(Number); return m.length === 3 ? [...m, 1] : m; };
      const light = ([r, g, b]) => [r, g, b].map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4).reduce((s, v, i) => s + v * [0.2126, 0.7152, 0.0722][i], 0);
      const over = (a, b) => [0, 1, 2].map(i => a[i] * a[3] + b[i] * (1 - a[3]));
      const ground = e => {
        let c = [255, 255, 255];
        const up = [];
        for (let p = e; p; p = p.parentElement) up.unshift(colour(getComputedStyle(p).backgroundColor));
        for (const b of up) c = over(b, c);
        return c;
      };
      for (const [n, e] of texts()) for (const pseudo of [null, "::before"]) {
        const style = getComputedStyle(e, pseudo);
        if (pseudo && style.content === "none") continue;
        const g = ground(e), a = light(over(colour(style.color), g)), b = light(g);
        const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
        if (ratio < 4.5) bad.push(`${name(e)} has a contrast of ${ratio.toFixed(2)} to 1`);
      }
      return bad;
    },
    // axe: violations of WCAG 2.2 A and AA and of its good practice. Where it cannot
    // decide a contrast, the function above does.
    async axe() {
      const found = await axe.run(document, { resultTypes: ["violations"],
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] });
      return found.violations.flatMap(r => r.nodes.slice(0, 5).map(n => `${r.id}: ${n.failureSummary.replace(/\s+/g, " ")} ${n.html.slice(0, 120)}`));
    },
  };
})();
