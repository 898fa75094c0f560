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
        if (why) { field.setAttribute("aria-invalid", "true"); line(list, "why", "", `${field.dataset.word ?? ""} ${why}`.trim()); }
        else field.removeAttribute("aria-invalid");
      }
      for (const f of answer.rows[body.dataset.key] ?? []) line(list, "", f.severity, f.what, f.sums).append(` ${f.remedy}`);
    }
  };
  const check = async () => {
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
