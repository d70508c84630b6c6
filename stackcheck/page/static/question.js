// Answers go to the bench one after the other; those that could not be sent wait on this device and are counted.
// Without this script the page is a plain form.
"use strict";
(() => {
  const form = document.getElementById("question");
  if (!form) return;
  const job = form.dataset.job, key = "unsent:" + job, mark = form.elements.mark.value;
  const undoing = document.querySelector("footer form");
  const typing = document.getElementById("typing"), entry = document.getElementById("entry"), pad = document.getElementById("pad");
  const main = document.querySelector("main"), name = main.querySelector("h1").textContent;
  let number = Number(form.dataset.number), current = null, sending = false, settling;
  const before = []; // the questions that were answered on this page, for UNDO without network
  let ahead = JSON.parse(document.getElementById("ahead").textContent);

  const waiting = () => JSON.parse(localStorage.getItem(key) || "[]");
  const keep = (list) => { localStorage.setItem(key, JSON.stringify(list)); count(); };
  const count = () => {
    const left = waiting().length, line = document.getElementById("unsent");
    line.hidden = left === 0; // it lies over the head of the page: it says the job's name itself
    line.textContent = name + (left === 1 ? ": 1 answer not yet at the bench" : ": " + left + " answers not yet at the bench");
  };
  const say = (lines, again) => {
    const place = document.getElementById("said");
    place.replaceChildren(...lines.map((words) => { const p = document.createElement("p"); p.className = again ? "said again" : "said"; p.textContent = words; return p; }));
  };
  const button = (words, value, main) => {
    const b = document.createElement("button");
    b.name = "text"; b.value = value; b.textContent = words;
    if (main) b.className = "main";
    return b;
  };
  const tap = (words, done) => { const b = button(words, ""); b.type = "button"; b.addEventListener("click", done); return b; };
  const pair = (...buttons) => { const d = document.createElement("div"); d.className = "two"; d.append(...buttons); return d; };
  const face = (words, value, shape) => {
    const b = button("", value), svg = document.createElementNS("http://www.w3.org/2000/svg", "svg"), use = document.createElementNS(svg.namespaceURI, "use");
    svg.setAttribute("viewBox", "0 0 120 60"); svg.setAttribute("aria-hidden", "true");
    if (value !== "1") svg.setAttribute("class", "turned");
    use.setAttribute("href", "#" + shape);
    svg.append(use); b.append(svg, "toward " + words);
    return b;
  };
  const tick = (words, i) => {
    const label = document.createElement("label"), box = document.createElement("input");
    label.className = "tick"; box.type = "checkbox"; box.name = "tick"; box.value = String(i + 1);
    label.append(box, words.toUpperCase());
    return label;
  };

  function show(question) {
    current = question;
    if (!question) { location.reload(); return; }
    document.getElementById("where").textContent = question.where;
    document.getElementById("text").textContent = question.text;
    document.getElementById("text").classList.toggle("wordy", question.text.length > 44);
    document.getElementById("name").value = document.getElementById("typing-name").value = question.name;
    lay(question);
    settle();
    entry.value = "";
    window.scrollTo(0, 0);
    document.getElementById("text").focus({ preventScroll: true }); // the next key or swipe goes to the first choice
    pad.dataset.keys = question.pad || ""; pad.dataset.auto = ""; pad.dataset.unit = question.kind === "count" ? "" : form.dataset.unit;
    if (question.pad) fillPad(pad);
    if (!question.name.startsWith("before:") && !question.offered) document.querySelector(".mind")?.remove();
  }

  // The second tap of a thumb that trembles must not answer what has only just appeared under it.
  function settle() {
    main.classList.add("fresh");
    clearTimeout(settling);
    settling = setTimeout(() => main.classList.remove("fresh"), 400);
  }

  // The answers to a question; a part that is offered has its field and pad behind a tap, so that each screen is whole,
  // but not on a wide tablet, which has room for both.
  const roomy = matchMedia("(min-width: 900px) and (min-height: 501px)");
  function lay(question) {
    const choices = [];
    if (question.kind === "asked") {
      choices.push(...question.lines.map(([words, line]) => button(words, line, true)), button("SAY IT ANOTHER WAY", "another way"));
    } else if (question.offered) {
      const other = roomy.matches ? [] : [tap("A SIZE, OR SOMETHING ELSE", () => type(question))];
      choices.push(button("YES, THIS IS IT", "", true), pair(...other, button("NOT THERE", "1"), button("STUCK TOGETHER", "2"), button("NOT SEEN", "0")));
      if (question.other_end) choices.push(button("BEGIN AT THE OTHER END: " + question.other_end.toUpperCase(), question.other_end));
    } else if (question.kind === "several") {
      choices.push(pair(...question.choices.map(tick)), button("DONE", "ticks", true), button(question.zero.toUpperCase(), "0"));
    } else if (question.choices.length) {
      const own = question.choices.map((words, i) => question.facing ? face(words, String(i + 1), question.shape) : button(words.toUpperCase(), String(i + 1)));
      const two = pair(...own);
      if (question.facing) two.className = "two faces";
      choices.push(two, button(question.zero.toUpperCase(), "0"));
    } else if (question.kind !== "wait") {
      if (question.quick && question.quick.length) choices.push(pair(...question.quick.map((words) => button(words.toUpperCase(), words))));
      choices.push(button(question.zero.toUpperCase(), "0"));
    }
    document.getElementById("choices").replaceChildren(...choices);
    document.getElementById("entry-label").textContent = question.offered ? "Something else, or a size" : "In words or figures";
    const behind = question.offered && !roomy.matches;
    typing.hidden = behind || question.kind === "wait" || question.kind === "asked";
    pad.hidden = behind || (!question.offered && !question.sized);
  }
  roomy.addEventListener("change", () => { if (current && current.offered) lay(current); }); // the tablet was turned

  function type(question) {
    const back = tap("BACK", () => { entry.value = ""; lay(question); settle(); });
    document.getElementById("choices").replaceChildren(back);
    typing.hidden = pad.hidden = false;
  }

  const newMark = () => crypto.getRandomValues(new Uint32Array(4)).join("-");

  function answered(text, name, typed) {
    if (current) before.push(current.question || current);
    keep([...waiting(), { name, text, sent: newMark(), ...(typed ? { typed } : {}) }]);
    send();
  }

  // Numbered like an answer: one that still waits here is taken back by its mark, else the last one at the bench.
  function undone() {
    const open = waiting().filter((each) => !waiting().some((other) => other.of === each.sent)), last = open.filter((each) => !each.undo).at(-1);
    keep([...waiting(), { undo: true, of: last ? last.sent : "", sent: newMark() }]);
    send();
  }

  async function send() {
    if (sending) return;
    sending = true;
    try {
      let next, asked = false, refused = "";
      while (waiting().length) {
        const answer = waiting()[0];
        const reply = await fetch("/job/" + job + (answer.undo ? "/undo" : "/answer"), {
          method: "POST", headers: { Accept: "application/json" }, body: new URLSearchParams({ ...answer, mark }),
        });
        if (reply.status === 403) { say(["This device must say the code again. The answers are kept: load the page."]); return; }
        if (!reply.ok && reply.status !== 422) throw new Error(String(reply.status));
        const told = await reply.json();
        keep(waiting().slice(1));
        if (told.go) { location.assign(told.go); return; }
        if (told.asked) { asked = true; askAbout(told.asked, current); return; }
        say(told.said, told.again);
        refused = told.again ? answer.text : "";
        history.replaceState(null, "", location.pathname); // what the page was opened with is said no longer
        ahead = told.ahead || ahead; number = told.number || number; next = told.next;
        document.getElementById("saved").textContent = "saved " + told.saved;
        document.getElementById("row").textContent = "on the rag: " + told.row;
      }
      if (!asked && next !== undefined) show(next);
      if (refused && next) { if (next.offered) type(next); entry.value = refused; }
    } catch (problem) {
      onward();
    } finally {
      sending = false;
    }
  }

  // The network is gone: the next question is the likely one; something else leaves the question standing.
  function onward() {
    const last = waiting().at(-1);
    if (last && last.undo) { backward(last); return; }
    if (!last || (current && last.name !== current.name)) return;
    const plain = current && current.offered && !["", "0", "1", "2"].includes(last.text) && !/^[\d.,/ ]+/.test(last.text);
    if (plain) { entry.value = ""; return; }
    if (current && current.offered && ["0", "1"].includes(last.text)) while (ahead.length && !ahead[0].offered) ahead.shift();
    if (ahead.length) { say([]); show(ahead.shift()); }
    else say(["The rest cannot be asked without the bench. What was said is kept on this device."]);
  }

  function backward(last) {
    if (last.shown) return;
    last.shown = true;
    keep([...waiting().slice(0, -1), last]);
    const asked = before.pop();
    if (current && asked) ahead.unshift(current);
    show(asked || { name: "", text: "The last answer at the bench is taken back when the network is there again.", where: "", kind: "wait", choices: [], zero: "" });
    say(["Undone: kept on this device, not yet at the bench."]);
  }

  // A question about the answer itself: its choices are lines that stand for what was typed.
  function askAbout(asked, question) {
    show({ name: asked.name, text: asked.text, where: "", kind: "asked", choices: [], zero: "", lines: asked.choices, typed: asked.typed, question });
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const said = event.submitter ? event.submitter.value : "";
    if (current.kind === "asked") {
      if (said === "another way") { say([]); show(current.question); } else answered(said, current.name, current.typed);
      return;
    }
    if (said === "ticks" && !form.querySelector("input[name=tick]:checked")) { say(["Tick all that fit, then DONE; or tap " + current.zero.toUpperCase() + "."], true); return; }
    const ticked = [...form.querySelectorAll("input[name=tick]:checked")].map((box) => box.value).join("");
    answered(said === "ticks" ? ticked : said, document.getElementById("name").value);
  });
  typing.addEventListener("submit", (event) => { event.preventDefault(); if (entry.value.trim()) answered(entry.value, document.getElementById("name").value); });
  if (undoing) undoing.addEventListener("submit", (event) => { event.preventDefault(); undone(); });
  window.addEventListener("online", send);
  setInterval(async () => {
    if (waiting().length) { send(); return; }
    try {
      const reply = await fetch("/job/" + job + "/state", { headers: { Accept: "application/json" } });
      const told = await reply.json();
      if (told.number > number && !entry.value && !waiting().length) location.reload();
    } catch (problem) { /* no network: nothing to learn */ }
  }, 5000);
  const first = JSON.parse(document.getElementById("first").textContent);
  current = first;
  if (first.offered) lay(first);
  else pad.hidden = !first.sized;
  count();
  if (waiting().length) send();
})();
