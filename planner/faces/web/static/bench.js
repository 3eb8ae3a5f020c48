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
