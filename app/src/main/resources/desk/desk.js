// Comfort only: every page works without this file.
"use strict";

// Up and down walk through the entries of a list, from one that has the focus.
document.addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const here = document.activeElement;
  if (event.key === "Escape" && here && here.matches("input[type=search]")) {
    here.value = "";
    return;
  }
  if (!here || !here.matches("a.step") || (event.key !== "ArrowDown" && event.key !== "ArrowUp")) return;
  const steps = Array.from(document.querySelectorAll("a.step"));
  const next = steps[steps.indexOf(here) + (event.key === "ArrowDown" ? 1 : -1)];
  if (next) {
    next.focus();
    event.preventDefault();
  }
});

// One button unfolds all that is folded on a page that has several folds.
const folds = Array.from(document.querySelectorAll("main details"));
if (folds.length > 1) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "fold";
  button.textContent = "Unfold all";
  button.addEventListener("click", () => {
    const open = button.textContent === "Unfold all";
    for (const fold of folds) fold.open = open;
    button.textContent = open ? "Fold all" : "Unfold all";
  });
  document.querySelector("main .help").after(button);
}

// Paper cannot be unfolded: open everything while printing.
let closed = [];
window.addEventListener("beforeprint", () => {
  closed = folds.filter((fold) => !fold.open);
  for (const fold of closed) fold.open = true;
});
window.addEventListener("afterprint", () => {
  for (const fold of closed) fold.open = false;
});
