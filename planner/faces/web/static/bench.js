// Sliders beside the figures. The page works without this file: it only saves a press of a button.
"use strict";
(function () {
  function changed(field) {
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }
  document.querySelectorAll("input.slide").forEach(function (slide) {
    const field = document.getElementById(slide.dataset.for);
    slide.hidden = false;
    let waiting = 0;
    slide.addEventListener("input", function () {
      const unit = field.value.trim().split(/\s+/).slice(1).join(" ") || slide.dataset.unit;
      field.value = slide.value + " " + unit;
      window.clearTimeout(waiting);
      waiting = window.setTimeout(function () { changed(field); }, 60);
    });
    slide.addEventListener("change", function (event) { event.stopPropagation(); });
    field.addEventListener("change", function () {
      const number = parseFloat(field.value);
      if (!Number.isNaN(number)) { slide.value = String(number); }
    });
  });
  document.querySelectorAll("#goals input").forEach(function (field) {
    field.addEventListener("keydown", function (event) {
      if (event.key === "Enter") { event.preventDefault(); changed(field); }
    });
  });
  document.documentElement.classList.add("scripted");
})();
// Entries at the machine: kept in the browser until the job has them, and the gauge's next point
// one key away.
(function () {
  const form = document.getElementById("entry");
  const job = document.body.dataset.job;
  if (!form || !job) { return; }
  const name = "entries of " + job + " " + form.dataset.part;
  const boxes = Array.from(form.querySelectorAll("input[inputmode]"));
  function read() {
    try { return JSON.parse(window.localStorage.getItem(name)) || {}; } catch (error) { return {}; }
  }
  function keep() {
    const unsent = {};
    boxes.forEach(function (box) {
      const open = box.value !== box.dataset.savedValue;
      box.classList.toggle("unsent", open);
      if (open) { unsent[box.name] = box.value; }
    });
    try {
      if (Object.keys(unsent).length) {
        window.localStorage.setItem(name, JSON.stringify(unsent));
      } else {
        window.localStorage.removeItem(name);
      }
    } catch (error) { /* a browser that keeps nothing still sends */ }
  }
  const held = read();
  if (document.getElementById("saved")) {
    // What the job took is now what stands in the boxes; what it did not take is put back below.
    boxes.forEach(function (box) { if (held[box.name] === box.dataset.savedValue) { delete held[box.name]; } });
  }
  let back = 0;
  boxes.forEach(function (box) {
    if (box.name in held && held[box.name] !== box.value) { box.value = held[box.name]; back += 1; }
  });
  document.getElementById("draft").hidden = back === 0;
  document.getElementById("forget").addEventListener("click", function () {
    boxes.forEach(function (box) { box.value = box.dataset.savedValue; });
    keep();
    document.getElementById("draft").hidden = true;
    boxes[0].focus();
  });
  keep();
  form.addEventListener("input", keep);
  boxes.forEach(function (box, at) {
    box.addEventListener("keydown", function (event) {
      const step = { Enter: 1, ArrowDown: 1, ArrowUp: -1 }[event.key];
      if (!step) { return; }
      event.preventDefault();
      const next = boxes[at + (event.shiftKey ? -step : step)];
      if (next) { next.focus(); next.select(); }
    });
  });
  document.addEventListener("htmx:afterSwap", function () {
    const wrong = new Set(Array.from(document.querySelectorAll("#checked [data-box]"), function (line) { return line.dataset.box; }));
    boxes.forEach(function (box) {
      if (wrong.has(box.name)) { box.setAttribute("aria-invalid", "true"); } else { box.removeAttribute("aria-invalid"); }
    });
  });
})();
