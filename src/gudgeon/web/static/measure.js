// The bench's field: Return keeps the reading, empties the field and goes on, whatever the network does.
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const queue = window.gudgeonQueue;
  const say = window.gudgeonWords;
  const $ = (id) => document.getElementById(id);
  const field = $("value"), panel = $("panel");
  let asks = [], at = null, facts = {}, ways = {}, refreshing = 0;
  const justTyped = [];

  const takeFacts = () => {
    const element = $("facts");
    facts = element ? { ...element.dataset } : {};
    const asked = JSON.parse($("asks")?.textContent || "[]");
    ways = JSON.parse($("ways")?.textContent || "{}");
    asks = queue.untyped(asked, Number(facts.head || 0));
    at = facts.measurand ? { measurand: facts.measurand, place: facts.place, point: facts.point, name: facts.name, place_words: facts.placeWords, point_words: facts.pointWords } : null;
    if (at && asks.length < asked.length && !asks.some((a) => a.measurand === at.measurand && a.place === at.place && a.point === at.point)) at = asks[0] ?? null;
    queue.seen(Number(facts.head || 0));
    const cell = $("ledger-cell");
    if (cell) cell.textContent = `${facts.head} · ${facts.digest}`;
    document.querySelector(".top h1").textContent = facts.title || "";
    document.querySelector(".top .subtitle").textContent = facts.subtitle || "";
    const words = (facts.words || "").split("|").filter(Boolean);
    $("keys").hidden = words.length > 0;
    $("words").hidden = words.length === 0;
    $("words").replaceChildren(...words.map((word) => key(word, () => { field.value = word; enter(); })));
    const strips = $("strips-new");
    if (strips && !justTyped.length) $("strips").replaceChildren(strips.content.cloneNode(true));
    const asking = $("zero");
    if (asking && withoutZero.has(asking.dataset.gauge)) asking.closest("p").hidden = true;
    document.querySelectorAll("[data-need]").forEach(marked);
    $("enters").hidden = !facts.pin;
    document.querySelector(".return").hidden = Boolean(facts.pin);
    $("keys").classList.toggle("single", !facts.pair);
    warm();
    question();
  };
  // How what is asked now is read: by the panel, or, while the network keeps the next panel away, by what came with the last.
  const way = () => (!at || at.measurand === facts.measurand ? facts : ways[at.measurand] ?? facts);
  // What must be so now; what is tapped off lands with the reading, which is then kept and not used.
  const off = new Set();
  const marked = (button) => button.setAttribute("aria-pressed", String(!off.has(button.dataset.need)));
  const needs = () => (way().needs || "").split(" ").filter(Boolean).map((need) => (off.has(need) ? `not ${need}` : need));
  const withoutZero = new Set();
  const key = (text, click) => {
    const button = document.createElement("button");
    button.type = "button"; button.textContent = text; button.addEventListener("click", click);
    return button;
  };
  const cap = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);
  const question = () => {
    $("question").textContent = at ? cap([at.point_words || at.place_words, at.point_words && at.place_words !== "cylinder" ? at.place_words : ""].filter(Boolean).join(", ")) : "";
    $("limit").textContent = at && at.measurand === facts.measurand && at.place === facts.place ? facts.limit || "" : "";
    $("page").textContent = $("limit").textContent && facts.page ? `${say("page")} ${facts.page}` : "";
    $("value").disabled = !at;
    document.querySelector(".hand").classList.toggle("idle", !at);
    size();
    if (at) field.focus({ preventScroll: true });
  };
  const size = () => {
    const out = $("size"), text = field.value.trim();
    const { unit, deviation, master: set } = way();
    out.textContent = unit || "";
    const [goes, not] = facts.pair && !facts.pin ? text.split("/") : [];
    if (not) out.textContent = say("{a} goes, {b} not", { a: goes, b: not });
    if (deviation && /^[+\-−]?\d+([.,]\d+)?$/.test(text) && unit === "µm") {
      const master = parseFloat(set);
      const value = master + parseFloat(text.replace("−", "-").replace(",", ".")) / 1000;
      if (Number.isFinite(value)) out.textContent = `${value.toFixed(3)} mm`;
    }
  };

  const tone = (high) => {
    try {
      const audio = (tone.audio ??= new AudioContext());
      const sound = audio.createOscillator(), gain = audio.createGain();
      sound.frequency.value = high ? 880 : 330; gain.gain.value = 0.06;
      sound.connect(gain).connect(audio.destination); sound.start(); sound.stop(audio.currentTime + (high ? 0.09 : 0.25));
    } catch { /* a bench without sound still works */ }
  };

  const next = () => {
    const here = asks.findIndex((a) => a.measurand === at.measurand && a.place === at.place && a.point === at.point);
    asks = asks.filter((_, n) => n !== here);
    at = asks[here >= 0 && here < asks.length ? here : 0] ?? null;
  };
  const enter = () => {
    const text = field.value.trim();
    if (!text || !at) return;
    if (facts.pin && at.measurand === facts.measurand && !text.includes("/")) { document.querySelector("[data-enters]").focus(); return; }
    const body = { fact: "reading/1", ...there(), text, unit: way().unit || "", gauge: way().gauge };
    if (temperature) body.temperature = temperature;
    if (way().needs) body.needs = needs();
    land(body, text);
  };
  const there = () => ({ measurand: at.measurand, where: at.place, ...(at.point ? { point: at.point } : {}) });
  // A pin of a stated size that enters, or does not.
  const pin = (enters, words) => {
    const size = field.value.trim();
    if (!size || !at) { field.focus(); return; }
    land({ fact: "go_no_go/1", ...there(), gauge: facts.gauge, size, unit: facts.unit || "", enters, needs: needs() }, `${size} ${words}`);
    field.focus({ preventScroll: true });
  };
  const land = (body, text) => {
    const label = `${at.name} ${at.place_words} ${at.point_words}: ${text}`;
    const id = queue.put(body, { label });
    field.value = "";
    typedCount += 1;
    flash(text, body.unit);
    last = { id, label };
    lastAddress = `${at.measurand}@${at.place}`;
    next();
    if (at && at.measurand !== facts.measurand) refresh(at); else question();
  };
  let last = null, lastAddress = "", flashing = 0, typedCount = 0;
  const flash = (text, unit) => {
    clearTimeout(flashing);
    justTyped.push(text);
    const big = document.createElement("p");
    big.className = "just"; big.textContent = `${text} ${unit || ""}`;
    $("strips").replaceChildren(big);
    flashing = setTimeout(() => { justTyped.length = 0; const strips = $("strips-new"); if (strips) $("strips").replaceChildren(strips.content.cloneNode(true)); }, 1000);
  };

  // The panel is fetched when nothing waits: entries never travel with it, and the field is never replaced.
  const refresh = (to, just = lastAddress) => {
    const mine = ++refreshing, before = typedCount;
    const query = new URLSearchParams();
    if (just) query.set("just", just);
    if (to) { query.set("m", to.measurand); query.set("at", to.place); query.set("point", to.point); }
    fetch(`${location.pathname}?${query}`, { headers: { "HX-Request": "true" }, credentials: "same-origin" })
      .then((answer) => (answer.ok ? answer.text() : Promise.reject()))
      .then((html) => {
        if (mine !== refreshing || before !== typedCount) return; // typed on meanwhile: the next answer asks again
        const kept = halfTyped();
        panel.innerHTML = html;
        takeFacts();
        kept();
      })
      .catch(() => question());
  };
  // Cells of a limit that somebody is typing stay as they are when the panel around them comes anew.
  const halfTyped = () => {
    const form = $("new-limit"), focused = document.activeElement?.id;
    if (!form) return () => {};
    const about = `${form.dataset.measurand} ${form.dataset.place}`, cells = [...new FormData(form)];
    return () => {
      const fresh = $("new-limit");
      if (!fresh || `${fresh.dataset.measurand} ${fresh.dataset.place}` !== about) return;
      for (const [name, value] of cells) if (fresh.elements[name] && !fresh.elements[name].value) fresh.elements[name].value = value;
      if (focused && fresh.querySelector(`#${focused}`)) $(focused).focus();
    };
  };
  queue.on("landed", () => {
    tone(true);
    if (!queue.items().length) refresh(at);
  });
  queue.on("asked", () => { tone(false); refresh(at); });
  queue.on("again", (item) => { const body = JSON.parse(item.text).body; if (body.measurand) refresh({ measurand: body.measurand, place: body.where, point: body.point || "" }); });
  queue.on("moved", () => { if (!queue.items().length && !field.value) refresh(at); });

  $("reading").addEventListener("submit", (event) => { event.preventDefault(); enter(); });
  field.addEventListener("input", size);
  $("keys").addEventListener("click", (event) => {
    const pressed = event.target.closest("[data-key]")?.dataset.key;
    if (!pressed) return;
    if (pressed === "⌫") field.value = field.value.slice(0, -1);
    else if (pressed === "±") field.value = /^[-−]/.test(field.value) ? "+" + field.value.slice(1) : /^\+/.test(field.value) ? "−" + field.value.slice(1) : "+" + field.value;
    else if (pressed === "no gap") { field.value = "no gap"; }
    else field.value += pressed;
    size(); field.focus({ preventScroll: true });
  });
  const heard = (button) => {
    const { kind, quiet, where } = button.dataset, there = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(there));
    queue.put({ fact: "finding/1", kind: there ? kind : quiet, where }, { label: button.textContent });
    field.focus({ preventScroll: true });
  };
  const note = async () => {
    const where = at?.place;
    const given = await window.gudgeonAsk({ title: say("Note"), photo: location.pathname.replace(/measure$/, "photo") });
    if (given) queue.put({ fact: "note/1", words: given.words, photos: given.photos, ...(where ? { where } : {}) }, { label: `${say("note")}: ${given.words}` });
    field.focus();
  };
  const skip = async () => {
    const left = at;
    const given = await window.gudgeonAsk({ title: say("Skipped: why?"), choices: [say("not reachable"), say("gauge missing"), say("later")], label: say("another reason") });
    field.focus();
    if (!given) return;
    queue.put({ fact: "note/1", words: say("skipped {what}: {why}", { what: [left.name, left.point_words].filter(Boolean).join(" "), why: given.words }), where: left.place }, { label: say("skip") });
    if (at !== left) return; // another bench moved on meanwhile
    next();
    if (at && at.measurand !== facts.measurand) refresh(at); else question();
  };
  // Another reading than the one that is asked: another point of this place, or whatever else is wanted now.
  const another = async () => {
    const ways = new Map();
    for (const point of at ? (facts.points || "").split("|").filter(Boolean) : []) ways.set(`${at.name}, ${point}`, { ...at, point });
    for (const ask of asks) if (!ways.has(ask.name)) ways.set(ask.name, ask);
    const given = await window.gudgeonAsk({ title: say("Which reading?"), choices: [...ways.keys()], label: say("or some letters of its name"), most: 40 });
    const named = given && ([...ways.keys()].find((name) => name === given.words) ?? [...ways.keys()].find((name) => name.toLowerCase().includes(given.words.toLowerCase())));
    if (named) refresh(ways.get(named), ""); else field.focus();
  };
  // Taken once with a thermometer, written with every reading until it is taken again.
  let temperature = "";
  const warmth = async () => {
    const none = say("not taken");
    const given = await window.gudgeonAsk({ title: say("Temperature of the engine or part, °C"), choices: [none], label: "°C", most: 12 });
    if (given) temperature = given.words === none ? "" : /[a-z°]/i.test(given.words) ? given.words : `${given.words} °C`;
    warm();
    field.focus();
  };
  const warm = () => { const button = $("temperature"); if (button) { button.textContent = temperature ? say("at {degrees}", { degrees: temperature }) : say("temperature"); button.hidden = !temperature && !/\b(cold|room)\b/.test(facts.needs || ""); } };
  const zero = async ({ gauge, unit, title }) => {
    const given = await window.gudgeonAsk({ title, choices: ["0"], label: say("it shows"), most: 20 });
    field.focus();
    if (given) queue.put({ fact: "zero_checked/1", gauge, text: given.words, unit, holds: true }, { label: `${title}: ${given.words}` });
  };
  document.addEventListener("click", (event) => {
    const { need, size: pinned, kind, enters } = event.target.dataset ?? {};
    if (need) { if (!off.delete(need)) off.add(need); marked(event.target); field.focus({ preventScroll: true }); }
    if (pinned) { field.value = pinned; size(); field.focus({ preventScroll: true }); }
    if (kind && event.target.closest(".heard")) heard(event.target);
    if (enters !== undefined) pin(Boolean(enters), event.target.textContent);
    if (event.target.id === "undo") undo();
    if (event.target.id === "zero") zero(event.target.dataset);
    if (event.target.id === "without-zero") { withoutZero.add($("zero").dataset.gauge); event.target.closest("p").hidden = true; field.focus(); }
    if (event.target.id === "note") note();
    if (event.target.id === "temperature") warmth();
    if (event.target.id === "another") another();
    if (event.target.id === "skip" && at) skip();
  });
  const undo = () => {
    if (!last) return;
    queue.put({ fact: "retraction/1", entry: last.id, reason: "undone at once" }, { label: `undo ${last.label}` });
    last = null;
    field.focus();
  };
  document.addEventListener("submit", (event) => {
    const form = event.target.closest("#new-limit");
    if (!form) return;
    event.preventDefault();
    const body = new URLSearchParams(new FormData(form));
    body.set("measurand", form.dataset.measurand); body.set("place", form.dataset.place); body.set("unit", form.dataset.unit);
    fetch(form.action, { method: "POST", headers: { "X-CSRFToken": queue.token() }, body, credentials: "same-origin" })
      .then(async (answer) => {
        const said = await answer.json();
        if (answer.ok) { refresh(at); return; }
        const line = form.querySelector("p");
        line.textContent = said.problems.map((p) => `${p.what} ${p.remedy}`).join(" ");
        line.setAttribute("role", "alert");
      });
  });
  // A gauge on the wire types wherever the cursor is: the field always has it.
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.target.closest?.("input, textarea, select, button, a")) return;
    if (event.key.length === 1) field.focus();
  });
  takeFacts();
});
