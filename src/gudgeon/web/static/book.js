// The grid is typed with two keys: Tab to the next cell, Return to the next row. What does not fit is said while typing.
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const grid = document.getElementById("grid");
  if (!grid) return;
  const fields = (row) => [...row.querySelectorAll("input:not([tabindex='-1']), select")];
  const rows = [...grid.querySelectorAll(".cells")];
  let dirty = false, asked = 0, timer = 0;

  // The page is typed once: a row below shows what it will take from above.
  const pages = () => {
    let last = "";
    for (const row of rows) {
      const page = row.querySelector(".leaf input");
      if (!page) continue;
      const filled = fields(row).some((f) => f !== page && f.value.trim());
      page.placeholder = page.value.trim() || !filled ? "" : last;
      last = page.value.trim() || last;
    }
  };
  const line = (list, kind, bold, text, grey) => {
    const item = document.createElement("li");
    item.className = kind;
    if (bold) { const b = document.createElement("strong"); b.textContent = bold; item.append(b, " "); }
    item.append(text);
    if (grey) { const g = document.createElement("span"); g.className = "grey"; g.textContent = ` (${grey})`; item.append(g); }
    list.append(item);
    return item;
  };
  const show = (answer) => {
    for (const body of grid.querySelectorAll("tbody[data-key]")) {
      const list = body.querySelector(".said");
      list.replaceChildren();
      for (const field of body.querySelectorAll(".cells input, .cells select")) {
        const why = answer.cells[field.name];
        if (why) { field.setAttribute("aria-invalid", "true"); line(list, "why", "", `${field.getAttribute("aria-label")}: ${why}`); }
        else field.removeAttribute("aria-invalid");
      }
      for (const f of answer.rows[body.dataset.key] ?? []) line(list, "", f.severity, f.what, f.sums).append(` ${f.remedy}`);
    }
  };
  const check = async () => {
    if (!grid.dataset.check) return;
    const mine = ++asked;
    try {
      const answer = await fetch(grid.dataset.check, { method: "POST", body: new FormData(grid) });
      const said = await answer.json();
      if (mine === asked && said.cells) show(said);
    } catch { /* cut off: what is typed is checked when it is kept */ }
  };

  grid.addEventListener("input", () => { dirty = true; pages(); });
  grid.addEventListener("change", () => { clearTimeout(timer); timer = setTimeout(check, 120); });
  grid.addEventListener("keydown", (event) => {
    const field = event.target;
    const row = field.closest(".cells");
    if (!row || event.isComposing) return;
    const step = { Enter: 1, ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step || (event.key !== "Enter" && field.tagName === "SELECT")) return;
    event.preventDefault();
    const next = rows[rows.indexOf(row) + step];
    if (!next) { if (step > 0) document.getElementById("keep").focus(); return; }
    const column = event.key === "Enter" ? 0 : fields(row).indexOf(field);
    const to = fields(next)[Math.min(Math.max(column, 0), fields(next).length - 1)];
    to.focus();
    to.select?.();
  });
  grid.addEventListener("submit", () => { dirty = false; });
  window.addEventListener("beforeunload", (event) => { if (dirty) event.preventDefault(); });
  pages();
  const wrong = grid.querySelector("[aria-invalid=true]");
  (wrong ?? fields(rows[0] ?? grid).find((f) => !f.value) ?? fields(rows[0] ?? grid)[0])?.focus();
});

// Bolts are tapped on the drawing in the order they are tightened; the places stand beside it as text, which is what is sent.
document.addEventListener("DOMContentLoaded", () => {
  const plate = document.getElementById("plate"), places = document.getElementById("places");
  const svg = plate?.querySelector("svg");
  if (!svg) return;
  const [left, top, side] = ["left", "top", "side"].map((key) => Number(plate.dataset[key]));
  const SCALE = 100; // mm across the drawing: tapped places are not to scale
  let tapped = null;
  const drawn = document.createElementNS(svg.namespaceURI, "g");
  const mark = (name, text, attributes) => {
    const one = document.createElementNS(svg.namespaceURI, name);
    for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, value);
    if (text) one.textContent = text;
    drawn.append(one);
  };
  const show = () => {
    drawn.replaceChildren();
    tapped.forEach(([x, y], n) => {
      const at = { cx: left + (x / SCALE + 0.5) * side, cy: top + (y / SCALE + 0.5) * side };
      mark("circle", "", { ...at, r: 25, class: "blue", fill: "none", stroke: "currentColor", "stroke-width": 2.6 });
      mark("text", String(n + 1), { x: at.cx, y: at.cy + 9, class: "blue", fill: "currentColor", "text-anchor": "middle", "font-size": 25, "font-weight": 600 });
    });
    places.value = tapped.map(([x, y]) => `${x} ${y}`).join("\n");
    document.getElementById("tapped").textContent = `${tapped.length} / ${plate.dataset.count}`;
  };
  const anew = () => {
    tapped = [];
    // What the book had goes off the plate; plate, centre line and the stages, the last group, stay.
    if (!drawn.isConnected) [...svg.querySelectorAll(":scope > g")].slice(0, -1).forEach((old) => old.remove());
    svg.append(drawn);
    show();
  };
  document.getElementById("anew").addEventListener("click", anew);
  document.getElementById("back").addEventListener("click", () => { if (tapped?.length) { tapped.pop(); show(); } });
  svg.addEventListener("click", (event) => {
    if (!tapped) anew();
    if (tapped.length >= Number(plate.dataset.count)) return;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const part = (value, from) => Math.round(Math.min(1, Math.max(0, (value - from) / side)) * SCALE * 10) / 10 - SCALE / 2;
    tapped.push([part(at.x, left), part(at.y, top)].map((v) => Math.round(v * 10) / 10));
    show();
  });
});
