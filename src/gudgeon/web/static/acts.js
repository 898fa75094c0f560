// Forms that become entries. The page follows what landed; what a bench elsewhere wrote is shown when nothing is half typed.
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const queue = window.gudgeonQueue;
  const DECIDED = new Set(["disposition/1", "hold_passed/1", "ordered/1", "estimate_approved/1", "scope_widened/1", "retraction/1", "job_closed/1", "paper_issued/1"]);
  const LATE = new Set(["operation_done/1", "part_removed/1", "part_fitted/1", "parts_swapped/1"]);
  document.querySelectorAll("input[type=hidden][name=by]").forEach((field) => { field.value = queue.by(); });
  const pressed = [];
  let dirty = false, then = "";

  const place = (body, name, value) => {
    const dot = name.indexOf(".");
    if (dot < 0) { body[name] = value; return; }
    body[name.slice(0, dot)] ??= {};
    body[name.slice(0, dot)][name.slice(dot + 1)] = value;
  };
  const bodyOf = (form, submitter) => {
    const body = JSON.parse(form.dataset.fact);
    for (const field of form.elements) {
      if (!field.name || field.type === "submit" || field.type === "file" || field.disabled) continue;
      const text = field.value.trim();
      if (!text && !field.required) continue;
      if (field.dataset.count !== undefined) { if (Number(text) > 0) place(body, field.name, Number(text)); }
      else place(body, field.name, text);
    }
    if (submitter?.name) place(body, submitter.name, submitter.value);
    // Work remembered late names the entry it came before, and how that is known.
    const before = document.getElementById("late-before")?.value;
    if (before && LATE.has(body.fact)) Object.assign(body, { before, because: document.getElementById("late-because").value.trim() });
    return body;
  };
  // A photo goes first: the entry names it. What goes wrong is said in the form, where photo and words stay.
  const withPhoto = async (form, body) => {
    const file = form.querySelector("input[type=file]")?.files[0];
    if (!file) return true;
    form.querySelector(".problem")?.remove();
    try { body.photos = [await window.gudgeonPhoto(`/job/${document.body.dataset.job}/photo`, file)]; return true; }
    catch (wrong) {
      const line = Object.assign(document.createElement("p"), { className: "problem wide", textContent: wrong.message });
      line.setAttribute("role", "alert");
      form.prepend(line);
      return false;
    }
  };
  document.addEventListener("submit", async (event) => {
    const form = event.target.closest("form[data-fact]");
    if (!form) return;
    event.preventDefault();
    const button = event.submitter ?? form.querySelector("button");
    const body = bodyOf(form, event.submitter);
    button.disabled = true;
    if (form.querySelector("input[type=file]") && !(await withPhoto(form, body))) { button.disabled = false; return; }
    pressed.push(button);
    dirty = false;
    then = form.dataset.then ?? "";
    queue.put(body, { decided: DECIDED.has(body.fact), label: form.dataset.label || button.textContent.trim() });
  });

  // Several decisions of one plan, one entry each, in their order.
  document.addEventListener("click", (event) => {
    const step = event.target.closest("[data-entry]");
    if (step) pressed.push(step);
    const button = event.target.closest("[data-entries]");
    if (!button) return;
    button.disabled = true;
    pressed.push(button);
    for (const body of JSON.parse(button.dataset.entries)) queue.put(body, { decided: DECIDED.has(body.fact), label: button.textContent.trim() });
  });

  // An address that is folded away is unfolded first.
  const wanted = decodeURIComponent(location.hash.slice(1));
  if (wanted && !document.getElementById(wanted)) {
    document.querySelectorAll("details.folded").forEach((folded) => { folded.open = true; });
    document.addEventListener("htmx:afterSwap", () => document.getElementById(wanted)?.scrollIntoView());
  }
  if (wanted && document.getElementById(wanted)?.tagName === "DETAILS") document.getElementById(wanted).open = true;

  // The page that comes back has open what was open, and the cursor where the hand was: nobody tabs from the top each time.
  const KEPT = `gudgeon:open:${location.pathname}`;
  const summaries = () => [...document.querySelectorAll("#work details > summary")];
  const named = (summary) => (summary.parentElement.id || summary.textContent.replace(/[\d✓]+/g, "").trim().replace(/\s+/g, " "));
  const hand = (button) => {
    const form = button?.closest("form[data-fact]"), step = button?.closest(".holds > li");
    return step ? { step: true } : form ? { fact: form.dataset.fact, label: form.dataset.label ?? "", value: button.value ?? "" } : null;
  };
  const keep = () => {
    const open = summaries().filter((s) => s.parentElement.open).map(named);
    try { sessionStorage.setItem(KEPT, JSON.stringify({ open, hand: hand(pressed.at(-1)), y: scrollY })); } catch { /* the page comes back folded */ }
  };
  const restore = () => {
    let kept = null;
    try { kept = JSON.parse(sessionStorage.getItem(KEPT)); sessionStorage.removeItem(KEPT); } catch { /* nothing kept */ }
    if (!kept) return;
    for (const summary of summaries()) {
      if (summary.closest(".holds")) continue; // the steps say themselves which is next
      if (kept.open.includes(named(summary))) summary.parentElement.open = true;
    }
    if (!kept.hand) return;
    const forms = [...document.querySelectorAll("form[data-fact]")].filter((f) => f.dataset.fact === kept.hand.fact && (f.dataset.label ?? "") === kept.hand.label);
    const within = kept.hand.step ? document.querySelector(".holds > li.now") : forms[0];
    const wanted = [...(within?.querySelectorAll("button, input:not([type=hidden]), select, a[href]") ?? [])];
    const same = wanted.find((e) => e.value && e.value === kept.hand.value) ?? wanted.find((e) => e.checkVisibility());
    scrollTo(0, kept.y);
    same?.focus({ preventScroll: !kept.hand.step });
  };
  restore();

  const again = () => { keep(); if (then) location.assign(then); else location.reload(); };
  queue.on("landed", () => { if (!queue.items().length) again(); });
  queue.on("asked", () => {
    then = "";
    pressed.splice(0).forEach((button) => { button.disabled = false; });
    document.querySelectorAll("[data-entry]:disabled").forEach((button) => { button.disabled = false; });
  });
  document.addEventListener("input", (event) => { if (event.target.closest("form[data-fact], .reason")) dirty = true; });
  queue.on("moved", () => {
    if (queue.items().length) return;
    if (!dirty) { again(); return; }
    const line = document.getElementById("moved");
    if (line) line.hidden = false;
  });
});
