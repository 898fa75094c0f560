// With a certificate the tablet keeps the pages it saw, so that a reload while cut off shows them again. The queue is its own.
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const away = location.protocol === "http:" && !["localhost", "127.0.0.1", "[::1]"].includes(location.hostname);
  const cell = document.getElementById("keep-open");
  if (cell) cell.hidden = !away;
  if (location.protocol === "https:" && "serviceWorker" in navigator) navigator.serviceWorker.register("/worker.js");
});
