// Type a sheet: each field goes into the queue as it is left, and is answered at its own line.
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const queue = window.gudgeonQueue, say = window.gudgeonWords;
  const form = document.getElementById("typing");
  const fields = [...form.querySelectorAll(".value:not([disabled])")];
  const kind = (field) => field.closest("fieldset");
  const address = (field) => `${kind(field).dataset.measurand}@${field.dataset.place}/${field.dataset.point}`;
  const lines = new Map(); // the id of an entry to its field
  const last = new Map(); // a field to what was sent from it

  const tell = (field, text, ...buttons) => field.closest(".line").querySelector(".said").replaceChildren(text, ...buttons);
  const button = (text, click) => {
    const made = Object.assign(document.createElement("button"), { type: "button", textContent: text });
    made.addEventListener("click", click);
    return made;
  };
  const refused = (field, on) => {
    field.closest(".line").classList.toggle("refused", on);
    field.toggleAttribute("aria-invalid", on);
  };

  const send = (field) => {
    const text = field.value.trim(), before = last.get(field);
    if (before?.text === text || (!text && !before)) return;
    if (before?.aside) queue.forget(before.id);
    else if (before) queue.put({ fact: "retraction/1", entry: before.id, reason: "typed again" }, { label: `${before.label} ${say("typed again")}` });
    last.delete(field);
    refused(field, false);
    tell(field, "");
    if (!text) return;
    const of = kind(field), gauge = of.querySelector("[name=gauge]");
    const body = { fact: "reading/1", measurand: of.dataset.measurand, where: field.dataset.place };
    if (field.dataset.point) body.point = field.dataset.point;
    Object.assign(body, { text, unit: gauge.selectedOptions[0].dataset.unit || "", gauge: gauge.value });
    const label = `${of.querySelector("legend").textContent.split(",")[0]} ${field.closest(".line").querySelector(".where").textContent}`;
    tell(field, say("waits"));
    const id = queue.put(body, { label: `${label}: ${text}` });
    lines.set(id, field);
    last.set(field, { id, text, label });
  };
  const asked = (field, item) => {
    last.set(field, { id: item.id, text: field.value.trim(), aside: true, label: item.label });
    refused(field, true);
    const words = item.problems.map((p) => `${p.what} ${p.remedy}`).join(" ");
    const again = button(say("type again"), () => { field.focus(); field.select?.(); });
    const right = button(say("it is right"), () => {
      const id = queue.confirm(item.id);
      lines.set(id, field);
      last.set(field, { id, text: field.value.trim(), label: item.label });
      refused(field, false);
      tell(field, say("waits"));
    });
    tell(field, words, ...(item.slip ? [right] : []), again);
  };
  queue.on("landed", ({ item, said }) => {
    const field = lines.get(item.id);
    if (field) tell(field, say("kept, entry {n}", { n: said.seq }));
  });
  queue.on("asked", ({ item }) => {
    const field = lines.get(item.id), one = queue.aside().find((other) => other.id === item.id);
    if (field && one) asked(field, one);
  });

  form.addEventListener("change", (event) => {
    if (event.target.classList.contains("value")) send(event.target);
    if (event.target.name === "gauge") {
      const unit = kind(event.target).querySelector(".unit");
      if (unit) unit.textContent = event.target.selectedOptions[0].dataset.unit;
    }
  });
  form.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.classList.contains("value")) return;
    event.preventDefault();
    const next = fields[fields.indexOf(event.target) + 1];
    send(event.target);
    if (next) { next.focus(); next.select?.(); } else event.target.blur();
  });
  form.addEventListener("submit", (event) => event.preventDefault());

  // What still waits, or was refused, stands in its field again after a reload.
  const byAddress = new Map(fields.map((field) => [address(field), field]));
  const fieldOf = (text) => {
    const body = JSON.parse(text).body;
    return body.fact === "reading/1" ? [byAddress.get(`${body.measurand}@${body.where}/${body.point ?? ""}`), body.text] : [];
  };
  for (const item of queue.items()) {
    const [field, text] = item.text ? fieldOf(item.text) : [];
    if (!field) continue;
    field.value = text;
    lines.set(item.id, field);
    last.set(field, { id: item.id, text, label: item.label });
    tell(field, say("waits"));
  }
  for (const item of queue.aside()) {
    const [field, text] = fieldOf(item.text);
    if (field) { field.value = text; asked(field, item); }
  }
  fields.find((field) => !field.value && !field.closest(".line").querySelector(".stands").textContent)?.focus();
});
