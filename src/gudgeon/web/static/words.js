// What scripts say, in the language of the page: a sentence is looked up as it stands, and {n} is filled in.
"use strict";
(() => {
  const known = JSON.parse(document.getElementById("script-words")?.textContent || "{}");
  window.gudgeonWords = (text, values = {}) => (known[text] ?? text).replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
})();
