// A number pad of our own under every field that takes a size: large keys, and the phone's keyboard stays away. The unit that a
// bare figure will have stands behind it while it is typed, until another one is tapped.
"use strict";
const UNITS = ["mm", "in", "thou"];
function fillPad(pad) {
  const field = document.getElementById(pad.dataset.for);
  const bare = () => (pad.dataset.auto && field.value.endsWith(" " + pad.dataset.auto) ? field.value.slice(0, -pad.dataset.auto.length - 1) : field.value);
  const press = (sign) => {
    let typed = bare();
    pad.dataset.auto = "";
    if (sign === "DEL") typed = typed.replace(/( [a-z]+|.)$/, "");
    else if (UNITS.includes(sign)) typed = typed.replace(/ (mm|in|thou)$/, "") + " " + sign;
    else if (/[a-z°·]{2,}/i.test(sign)) typed = field.value + " " + sign;
    else typed += sign;
    if (pad.dataset.unit && /^[\d.,/]*\d$/.test(typed)) { pad.dataset.auto = pad.dataset.unit; typed += " " + pad.dataset.unit; }
    field.value = typed;
  };
  pad.replaceChildren(...pad.dataset.keys.split(" ").map((sign) => {
    const key = document.createElement("button");
    key.type = "button"; key.textContent = sign;
    if (sign === "DEL") key.setAttribute("aria-label", "delete the last sign");
    key.addEventListener("click", () => press(sign));
    return key;
  }));
}
for (const pad of document.querySelectorAll(".pad")) {
  fillPad(pad);
  pad.hidden = pad.dataset.off !== undefined;
}
