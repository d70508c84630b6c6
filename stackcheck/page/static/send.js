// Every form is sent without leaving the page, every link looks first whether the bench can be reached: without network no
// tap leaves what is on the screen. What could not be sent is kept here and sent again; each form carries a mark of its own.
"use strict";
(() => {
  const box = document.getElementById("network"), kept = [];
  let busy = false;
  const tell = (words, again) => { box.hidden = false; box.querySelector("p").textContent = words; box.querySelector("button").hidden = !again; };
  const call = (address, more) => {
    const stop = new AbortController();
    setTimeout(() => stop.abort(), more ? 60000 : 8000);
    return fetch(address, { signal: stop.signal, ...more });
  };

  async function deliver() {
    if (busy || !kept.length) return;
    busy = true;
    const slow = setTimeout(() => tell("Being sent to the bench.", false), 700);
    try {
      while (kept.length) {
        const reply = await call(kept[0].action, { method: "POST", body: kept[0].body });
        kept.shift();
        if (reply.redirected) { if (!kept.length) location.assign(reply.url); continue; }
        const page = new DOMParser().parseFromString(await reply.text(), "text/html");
        if (page.querySelector("main form")) { clearTimeout(slow); box.hidden = true; document.querySelector("main").replaceWith(page.querySelector("main")); window.scrollTo(0, 0); continue; }
        tell([...page.querySelectorAll(".said")].map((line) => line.textContent).join(" ") || page.body.textContent.trim(), false);
      }
    } catch (problem) {
      const photo = kept.some((each) => each.photo);
      tell(photo ? "No network: the photo is kept on this page, not yet at the bench." : "No network: kept on this page, not yet at the bench.", true);
    } finally {
      clearTimeout(slow);
      busy = false;
    }
  }

  document.addEventListener("submit", (event) => {
    if (event.defaultPrevented) return;
    event.preventDefault();
    const form = event.target, said = new FormData(form);
    if (event.submitter && event.submitter.name) said.append(event.submitter.name, event.submitter.value);
    if (said.has("sent")) said.set("sent", crypto.getRandomValues(new Uint32Array(4)).join("-"));
    const whole = form.enctype === "multipart/form-data";
    if (kept.length) { tell("The last one is still being sent.", true); return; }
    kept.push({ action: form.action, body: whole ? said : new URLSearchParams(said), photo: whole });
    deliver();
  });

  document.addEventListener("click", async (event) => {
    const link = event.target.closest("a[href]");
    if (!link || link.getAttribute("href").startsWith("#") || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    try {
      if (kept.length) throw new Error("unsent");
      await call("/here");
      location.assign(link.href);
    } catch (problem) {
      tell("No network: this page stays. What was said is kept; leave the page open until it is at the bench.", true);
    }
  });

  document.querySelector("[data-here]")?.scrollIntoView({ block: "center" }); // what was just decided, and the next one below it

  box.querySelector("button").addEventListener("click", async () => {
    if (kept.length) { deliver(); return; }
    try { await call("/here"); box.hidden = true; } catch (problem) { /* it still says so */ }
  });
  window.addEventListener("online", () => { if (kept.length) deliver(); else box.hidden = true; });
  setInterval(deliver, 5000);
})();
