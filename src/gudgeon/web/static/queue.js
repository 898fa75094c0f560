// The tablet's queue: what was typed is kept first, then sent, one entry at a time and in order.
// An item leaves only on an answer that names its id and a digest. A refused item steps aside and blocks nobody.
"use strict";
(() => {
  const job = document.body.dataset.job;
  const words = window.gudgeonWords;
  const keyOf = (name) => `gudgeon:${name}`;
  const unsaved = new Set(); // what storage did not take is read from memory: the older copy there is not what was typed
  const read = (name, otherwise) => {
    if (unsaved.has(name)) return memory[name];
    try { const text = localStorage.getItem(keyOf(name)); return text === null ? otherwise : JSON.parse(text); }
    catch { return memory[name] ?? otherwise; }
  };
  const memory = {};
  const listeners = {};
  const emit = (name, detail) => (listeners[name] ?? []).forEach((listener) => listener(detail));
  const write = (name, value) => {
    memory[name] = value;
    try { localStorage.setItem(keyOf(name), JSON.stringify(value)); unsaved.delete(name); return true; }
    catch { unsaved.add(name); emit("full", null); return false; }
  };
  const hex = (bytes) => [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
  const newId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 0x0f) | 0x40; bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const text = hex(bytes);
    return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join("-");
  };
  let bench = read("bench", "");
  if (!bench) { bench = "tablet-" + hex(crypto.getRandomValues(new Uint8Array(3))); write("bench", bench); }
  let head = Number(document.body.dataset.head || 0);
  let sending = false, pause = 0, timer = 0, why = "";
  const name = () => `queue:${job}`;
  const items = () => read(name(), []);
  const aside = () => read(`aside:${job}`, []);
  const cookie = (wanted) => document.cookie.split("; ").find((c) => c.startsWith(wanted + "="))?.slice(wanted.length + 1) ?? "";

  // A page that this tablet kept while cut off asks again for what was typed since: `untyped` leaves that out.
  const addressOf = (reading) => `${reading.measurand}@${reading.where ?? reading.place}/${reading.point ?? ""}`;
  const untyped = (asks, pageHead) => {
    if (!items().length && pageHead >= read(`landed:${job}`, 0)) { write(`since:${job}`, []); return asks; }
    const since = read(`since:${job}`, []);
    return asks.filter((ask) => !since.includes(addressOf(ask)));
  };

  // `before` gives what stands in front of it in the queue a chance to land: a decision is stamped when it is sent.
  const put = (body, { decided = false, label = "" } = {}) => {
    const nth = read("nth", 0) + 1;
    write("nth", nth);
    const typed = { id: newId(), typed_at: new Date().toISOString().slice(0, 19) + "Z", by: read("by", "bench"), bench, nth, seen: head, body };
    if (body.fact === "reading/1") write(`since:${job}`, [...read(`since:${job}`, []), addressOf(body)].slice(-400));
    const item = { id: typed.id, text: decided ? null : JSON.stringify(typed), typed: decided ? typed : null, label };
    write(name(), [...items(), item]);
    show();
    send();
    return typed.id;
  };

  const textOf = (item) => {
    if (item.text !== null) return item.text;
    // A decision is made on the head that was seen; own entries that landed since were seen as they were typed.
    return JSON.stringify({ ...item.typed, seen: Math.max(item.typed.seen, ownHead) });
  };
  let ownHead = head;

  const send = async () => {
    const [item] = items();
    if (sending || !item) return;
    sending = true;
    clearTimeout(timer);
    const text = textOf(item);
    try {
      const answer = await fetch(`/job/${encodeURIComponent(job)}/entries`, {
        method: "POST", redirect: "error", credentials: "same-origin",
        headers: { "Content-Type": "application/json", "X-CSRFToken": cookie("csrftoken") }, body: text,
      });
      const said = await answer.json().catch(() => null);
      if (answer.ok && said && said.id === item.id && said.digest) {
        landed(item, said);
      } else if ((answer.status === 422 || answer.status === 409 || answer.status === 413) && said?.problems) {
        refused(item, said, text);
      } else {
        wait(answer.status === 401 ? words("this bench is not paired any more: pair it again, nothing is lost") : answer.status === 403 ? words("this page is from before a restart or sign-in: load it again") : words("the bench answered {status}", { status: answer.status }));
      }
    } catch { wait(words("no network")); }
    sending = false;
    show();
    if (items().length && !pause) send();
  };
  const drop = (id) => write(name(), items().filter((other) => other.id !== id));
  const landed = (item, said) => {
    pause = 0; why = "";
    if (ownHead + 1 >= said.seq || said.again) ownHead = Math.max(ownHead, said.head);
    write(`landed:${job}`, said.seq);
    drop(item.id);
    emit("landed", { item, said });
  };
  const refused = (item, said, text) => {
    pause = 0; why = "";
    write(`aside:${job}`, [...aside(), { ...item, text, problems: said.problems, slip: said.slip ?? "", meant: said.meant ?? null }]);
    drop(item.id);
    emit("asked", { item, said });
  };
  const wait = (reason) => {
    why = reason;
    pause = Math.min(pause ? pause * 2 : 500, 8000);
    timer = setTimeout(() => { pause = 0; send(); }, pause);
  };

  const forget = (id) => { write(`aside:${job}`, aside().filter((item) => item.id !== id)); show(); };
  const confirmSlip = (id) => {
    const item = aside().find((other) => other.id === id);
    if (!item) return "";
    const body = JSON.parse(item.text).body;
    forget(id);
    return put({ ...body, confirmed: [...(body.confirmed ?? []), item.slip] }, { label: item.label });
  };

  const show = () => {
    const waiting = items().length;
    const cell = document.getElementById("queue-state");
    if (cell) cell.textContent = waiting ? words("{n} waiting", { n: waiting }) + (why ? `: ${why}` : "") : words("empty");
    const box = document.getElementById("aside");
    if (!box) return;
    const stepped = aside();
    box.hidden = !stepped.length && !told.length;
    box.replaceChildren(...told.map(asSentence), ...stepped.map(asItem));
  };
  // What is said once and put away by hand: it is about this tablet, not about an entry.
  const told = [];
  const tell = (text) => { if (!told.includes(text)) { told.push(text); show(); } };
  const asSentence = (text) => {
    const row = document.createElement("div");
    row.className = "item told";
    row.append(make("span", text), make("button", window.gudgeonWords("put away"), () => { told.splice(told.indexOf(text), 1); show(); }));
    return row;
  };
  // Entries keep the tablet's time beside the bench's: a clock that is wrong is said, and nothing is turned away.
  const FAR = 10 * 60 * 1000;
  const clock = (answer) => {
    const theirs = Date.parse(answer.headers.get("Date") ?? "");
    if (!Number.isFinite(theirs) || Math.abs(theirs - Date.now()) < FAR || clock.said) return;
    clock.said = true;
    const plain = (time) => new Date(time).toISOString().slice(0, 16).replace("T", " ");
    tell(window.gudgeonWords("This tablet's clock says {mine}, the bench's {theirs} (UTC): set it right. What is typed lands all the same.", { mine: plain(Date.now()), theirs: plain(theirs) }));
  };
  const make = (tag, text, click) => {
    const element = document.createElement(tag);
    element.textContent = text;
    if (click) { element.type = "button"; element.addEventListener("click", click); }
    return element;
  };
  const asItem = (item) => {
    const row = document.createElement("div");
    row.className = "item";
    row.append(make("strong", item.label || JSON.parse(item.text).body.fact));
    for (const problem of item.problems) row.append(make("span", `${problem.what} ${problem.remedy}`));
    if (item.slip) row.append(make("button", words("it is right"), () => confirmSlip(item.id)));
    row.append(make("button", item.slip ? words("type again") : words("put away"), () => { forget(item.id); emit("again", item); }));
    return row;
  };

  // Other benches: their entries are seen by looking at the head each second.
  const look = async () => {
    if (!job || document.hidden) return;
    try {
      const answer = await fetch(`/job/${encodeURIComponent(job)}/head`, { credentials: "same-origin" });
      if (!answer.ok) return;
      clock(answer);
      const said = await answer.json();
      if (said.head < read(`landed:${job}`, 0)) write(`landed:${job}`, said.head); // an older copy was put back
      if (said.head !== head) emit("moved", said);
    } catch { /* the queue says that the network is away */ }
  };

  const queue = {
    put, send, items, aside, forget, confirm: confirmSlip, tell, bench, untyped, by: () => read("by", ""), setBy: (by) => { write("by", by); showBy(); },
    on: (event, listener) => { (listeners[event] ??= []).push(listener); },
    token: () => cookie("csrftoken"), head: () => head, seen: (number) => { head = number; ownHead = Math.max(ownHead, number); },
  };
  window.gudgeonQueue = queue;
  const showBy = () => { const cell = document.getElementById("by"); if (cell) cell.textContent = read("by", "") || words("who?"); };
  document.addEventListener("DOMContentLoaded", () => {
    showBy();
    document.getElementById("by")?.addEventListener("click", async () => {
      const known = read("people", []);
      const given = await window.gudgeonAsk({ title: words("Who types?"), choices: known, label: words("initials"), most: 20 });
      if (given) { write("people", [given.words, ...known.filter((other) => other !== given.words)].slice(0, 8)); queue.setBy(given.words); }
    });
    queue.on("full", () => tell(window.gudgeonWords("this tablet's storage is full: keep the page open")));
    document.addEventListener("paste", (event) => {
      const most = event.target.maxLength ?? 0, size = event.clipboardData?.getData("text").length ?? 0;
      if (most <= 0 || size <= most) return;
      event.preventDefault();
      tell(window.gudgeonWords("What was pasted has {n} signs, the field takes {most}: nothing was taken.", { n: size, most }));
    });
    show();
    if (job) { send(); setInterval(look, 1000); }
    window.addEventListener("online", () => { pause = 0; send(); });
    document.body.addEventListener("click", (event) => {
      const button = event.target.closest("[data-entry]");
      if (!button) return;
      const body = JSON.parse(button.dataset.entry);
      if (button.dataset.reason !== undefined) {
        const field = document.getElementById(button.dataset.reason);
        const words = field ? field.value.trim() : "";
        if (!words) { field?.focus(); field?.setAttribute("aria-invalid", "true"); return; }
        body[button.dataset.field || "reason"] = words;
      }
      button.disabled = true;
      put(body, { decided: true, label: button.textContent.trim() });
    });
    if (document.body.dataset.reload !== undefined) queue.on("landed", () => { if (!items().length) location.reload(); });
  });
})();
