// A number pad of our own under every field that takes a size: large keys, and the phone's keyboard stays away.
"use strict";
for (const pad of document.querySelectorAll(".pad")) {
  const field = document.getElementById(pad.dataset.for);
  for (const sign of pad.dataset.keys.split(" ")) {
    const key = document.createElement("button");
    key.type = "button"; key.textContent = sign;
    if (sign === "DEL") key.setAttribute("aria-label", "delete the last sign");
    key.addEventListener("click", () => {
      if (sign === "DEL") field.value = field.value.replace(/( [a-z]+|.)$/, "");
      else field.value += /[a-z°·]{2,}/i.test(sign) ? " " + sign : sign;
    });
    pad.append(key);
  }
  pad.hidden = pad.dataset.off !== undefined;
}
