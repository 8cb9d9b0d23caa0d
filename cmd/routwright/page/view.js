"use strict";

// What is shown: the state of the design as the program tells it, the sheet that
// is chosen, and how large it is drawn (0: whole).
let state = null;
let chosen = decodeURIComponent(location.hash.slice(1)) || "layout";
let zoom = 0;

const $ = (id) => document.getElementById(id);
const picture = $("picture"), desk = $("desk");

function element(name, text, className) {
  const e = document.createElement(name);
  if (text) e.textContent = text;
  if (className) e.className = className;
  return e;
}

function choice(id, ...parts) {
  const li = document.createElement("li"), b = document.createElement("button");
  b.type = "button";
  b.dataset.id = id;
  b.append(...parts);
  b.addEventListener("click", () => { location.hash = encodeURIComponent(id); });
  li.append(b);
  return li;
}

function lists() {
  const count = { stop: 0, warn: 0, note: 0 };
  const findings = state.findings.map((f, i) => {
    count[f.level]++;
    const li = choice("finding:" + i, element("span", f.level + "  ", "level"), f.message,
      element("span", (f.line ? "line " + f.line + ": " : "") + f.cure, "cure"));
    li.className = f.level;
    return li;
  });
  if (findings.length === 0) findings.push(element("li", state.name ? "Every check passes." : ""));
  $("finding-list").replaceChildren(...findings);
  $("sheet-list").replaceChildren(...state.sheets.map((s) => choice(s.id, s.title)));
  $("error-list").replaceChildren(...state.errors.map((e) => element("li", e)));
  $("errors").hidden = state.errors.length === 0;
  $("name").textContent = state.name || state.file;
  document.title = (state.errors.length ? "✗ " : "") + (state.name || state.file);
  $("status").textContent = state.errors.length
    ? state.errors.length + (state.errors.length === 1 ? " error" : " errors") + " in " + state.file
    : count.stop + " stop, " + count.warn + " warn, " + count.note + " note; solved and checked in " + state.took_ms + " ms";
}

// title returns the words for the chosen picture; empty when it is there no more.
function title(id) {
  const s = state.sheets.find((s) => s.id === id);
  if (s) return s.title;
  const f = id.startsWith("finding:") && state.findings[Number(id.slice(8))];
  return f ? f.level + ": " + f.message : "";
}

async function show() {
  if (!state || state.sheets.length === 0) return;
  if (!title(chosen)) chosen = state.sheets[0].id;
  for (const b of document.querySelectorAll(".choices button")) {
    b.setAttribute("aria-current", String(b.dataset.id === chosen));
  }
  const next = new Image();
  next.src = "/sheet/" + encodeURIComponent(chosen) + "?v=" + state.version;
  const want = next.src;
  try { await next.decode(); } catch { return; } // the next save brings another
  if (!next.src.includes("v=" + state.version)) return;
  picture.src = want;
  picture.alt = title(chosen);
  picture.hidden = false;
  await picture.decode().catch(() => {});
  size();
}

function size() {
  const w = picture.naturalWidth, h = picture.naturalHeight;
  if (!w || !h) return;
  const whole = Math.min((desk.clientWidth - 34) / w, (desk.clientHeight - 34) / h);
  const k = zoom || whole;
  picture.style.width = Math.max(40, w * k) + "px";
  $("scale").textContent = Math.round(100 * k) + " %";
}

function enlarge(by) {
  const before = zoom || picture.clientWidth / picture.naturalWidth;
  const x = (desk.scrollLeft + desk.clientWidth / 2) / desk.scrollWidth, y = (desk.scrollTop + desk.clientHeight / 2) / desk.scrollHeight;
  zoom = Math.min(12, Math.max(0.05, before * by));
  size();
  desk.scrollLeft = x * desk.scrollWidth - desk.clientWidth / 2;
  desk.scrollTop = y * desk.scrollHeight - desk.clientHeight / 2;
}

async function load() {
  try {
    const r = await fetch("/state");
    state = await r.json();
  } catch {
    $("status").textContent = "routwright view has ended. Start it again, and this page goes on.";
    return;
  }
  lists();
  await show();
}

$("whole").addEventListener("click", () => { zoom = 0; size(); });
$("smaller").addEventListener("click", () => enlarge(1 / 1.4));
$("larger").addEventListener("click", () => enlarge(1.4));
desk.addEventListener("wheel", (e) => {
  if (!e.ctrlKey) return;
  e.preventDefault();
  enlarge(e.deltaY < 0 ? 1.15 : 1 / 1.15);
}, { passive: false });
addEventListener("resize", size);
addEventListener("hashchange", () => {
  chosen = decodeURIComponent(location.hash.slice(1));
  show();
  $("name").scrollIntoView({ block: "nearest" }); // on a telephone the picture stands above the lists
});

const events = new EventSource("/events");
events.addEventListener("message", load);
events.addEventListener("error", () => { $("status").textContent = "The connection is lost; trying again."; });
