// A study is read with one hand on the gauge: Return goes on to the next reading. Whose hand it is, the tablet knows.
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const by = window.gudgeonQueue?.by() ?? "";
  document.querySelectorAll("input[name=by]").forEach((field) => { field.value ||= by; });
  const study = document.querySelector("form[data-study]");
  if (study) {
    const fields = [...study.querySelectorAll(".ten input")];
    (study.querySelector("[aria-invalid]") ?? fields.find((field) => !field.value) ?? fields[0]).focus();
    study.addEventListener("keydown", (event) => {
      const at = fields.indexOf(event.target);
      if (event.key !== "Enter" || at < 0 || at === fields.length - 1) return;
      event.preventDefault();
      fields[at + 1].focus();
    });
    return;
  }
  document.querySelector("[aria-invalid]")?.focus();
});
