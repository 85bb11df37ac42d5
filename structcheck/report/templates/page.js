"use strict";
const working = document.querySelectorAll("details.working");
const button = document.getElementById("open-all");
if (button && working.length) {
  button.hidden = false;
  button.addEventListener("click", () => {
    const open = [...working].some((one) => !one.open);
    working.forEach((one) => { one.open = open; });
    button.textContent = open ? "Fold all working" : "Open all working";
  });
}
