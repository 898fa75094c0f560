// A question in the page: big buttons for the usual answers, a field for any other, and where it helps a photo.
// Never a window of the browser: that one is small, in the browser's words, and stops a gauge in mid-burst.
"use strict";
(() => {
  const say = (text, values) => (window.gudgeonWords ?? ((plain) => plain))(text, values);
  const make = (tag, values = {}, ...inside) => {
    const element = Object.assign(document.createElement(tag), values);
    element.append(...inside);
    return element;
  };

  // A photo is sent at once and comes back as a digest; what goes wrong is a sentence, and the photo stays chosen.
  const send = async (address, file) => {
    const body = new FormData();
    body.append("photo", file);
    let answer;
    try { answer = await fetch(address, { method: "POST", headers: { "X-CSRFToken": window.gudgeonQueue.token() }, body, credentials: "same-origin", redirect: "error" }); }
    catch { throw new Error(say("The photo could not be sent: no network. It is kept here: press again when the network is back.")); }
    const said = await answer.json().catch(() => null);
    if (said?.problems) throw new Error(said.problems.map((p) => `${p.what} ${p.remedy}`).join(" "));
    if (!answer.ok || !said?.photo) throw new Error(say("The photo could not be sent. It is kept here: press again."));
    return said.photo;
  };

  window.gudgeonPhoto = send;

  // Answers with { words, photos }, or with nothing when it is left.
  window.gudgeonAsk = ({ title, choices = [], label = "", photo = "", most = 400 }) => new Promise((answer) => {
    const before = document.activeElement;
    const problem = make("p", { className: "problem", hidden: true });
    problem.setAttribute("role", "alert");
    const field = make("input", { name: "words", maxLength: most, autocomplete: "off" });
    const camera = make("input", { type: "file", name: "photo", accept: "image/*" });
    camera.setAttribute("capture", "environment");
    const box = make("dialog", { className: "asking" });
    const leave = (given) => { box.close(); box.remove(); before?.focus?.({ preventScroll: true }); answer(given); };
    const keep = async (words) => {
      const [file] = camera.files;
      if (!words && !file) { field.focus(); return; }
      if (!file) { leave({ words, photos: [] }); return; }
      box.setAttribute("aria-busy", "true");
      try { leave({ words: words || say("photo"), photos: [await send(photo, file)] }); }
      catch (wrong) { problem.textContent = wrong.message; problem.hidden = false; box.removeAttribute("aria-busy"); }
    };
    const buttons = choices.map((text) => {
      const button = make("button", { type: "button", textContent: text });
      button.addEventListener("click", () => keep(text));
      return button;
    });
    const away = make("button", { type: "button", className: "leave", textContent: say("leave it") });
    away.addEventListener("click", () => leave(null));
    const shown = make("span", { className: "grey" });
    camera.addEventListener("change", () => { shown.textContent = camera.files[0]?.name ?? ""; problem.hidden = true; });
    const form = make("form", {}, make("label", {}, label || title, field),
      ...(photo ? [make("label", { className: "camera" }, say("photo"), camera, shown)] : []),
      make("div", { className: "row" }, make("button", { type: "submit", className: "go", textContent: say("keep") }), away));
    form.addEventListener("submit", (event) => { event.preventDefault(); keep(field.value.trim()); });
    const heading = make("h2", { textContent: title, id: "asking-title" });
    box.setAttribute("aria-labelledby", "asking-title");
    box.append(heading, problem, make("div", { className: "choices" }, ...buttons), form);
    box.addEventListener("cancel", (event) => { event.preventDefault(); leave(null); });
    document.body.append(box);
    box.showModal();
    (buttons[0] ?? field).focus();
  });
})();
