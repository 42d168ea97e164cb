// The page works without this. With it an answer follows every change: the same
// address is fetched as a fragment, and what comes back takes the old one's place.
"use strict";
(() => {
  const form = document.querySelector("form[data-live], form[data-form]");
  if (!form) return;
  const live = form.hasAttribute("data-live"); // it answers; otherwise it is sent once
  const answer = document.getElementById("answer");
  const short = document.querySelector(".short");
  let timer = 0, flight = null, shown = query();

  // query is what the form says, without what it leaves empty.
  function query() {
    const q = new URLSearchParams();
    const is = new FormData(form).get("body.is");
    for (const [k, v] of new FormData(form)) {
      if (k === "token" || k === "once" || v === "" && !k.endsWith(".beside")) continue;
      if (k === "body.ratio" && is !== "ratio") continue;
      q.append(k, v);
    }
    // What stands beside a name keeps its place, but not beside no name.
    for (const k of new Set([...q.keys()].filter(k => k.endsWith(".beside")))) {
      const rows = [...form.querySelectorAll(`[name="${CSS.escape(k)}"]`)];
      const names = rows.map(r => r.closest("[data-row]").querySelector("input").value.trim());
      q.delete(k);
      q.delete(k.slice(0, -".beside".length));
      rows.forEach((r, i) => {
        const beside = r.value.trim();
        if (names[i] || beside) q.append(k.slice(0, -".beside".length), names[i] + (beside ? "=" + beside : ""));
      });
    }
    return q.toString();
  }

  // keep puts the form into the address, so that a reload loses nothing.
  const path = new URL(form.action).pathname;
  function keep(q) { history.replaceState(null, "", path + (q ? "?" + q : "")); }

  async function fetchAnswer() {
    const q = query();
    if (q === shown) return;
    if (flight) flight.abort();
    flight = new AbortController();
    const mine = flight;
    answer.setAttribute("aria-busy", "true");
    keep(q);
    try {
      const r = await fetch(path + "?" + q + (q ? "&" : "") + "fragment=1", { signal: mine.signal, headers: { Accept: "text/html" } });
      const text = await r.text();
      if (mine !== flight) return;
      const part = new DOMParser().parseFromString(text, "text/html").body.firstElementChild;
      if (!part || r.status >= 500) throw new Error(text);
      const open = [...answer.querySelectorAll("details[open] > summary")].map(s => s.textContent);
      for (const s of part.querySelectorAll("details > summary")) if (open.includes(s.textContent)) s.parentElement.open = true;
      answer.replaceChildren(document.adoptNode(part));
      shown = q;
      settle(part);
    } catch (e) {
      if (e.name !== "AbortError") say("No answer: is the program still running?");
    } finally {
      if (mine === flight) { flight = null; answer.removeAttribute("aria-busy"); }
    }
  }

  // settle puts what an answer says of the form where it belongs.
  function settle(part) {
    const faults = [...part.querySelectorAll("[data-field]")];
    for (const box of form.querySelectorAll("[data-in]")) {
      const fields = box.dataset.fields.split(" ");
      const fault = faults.find(f => fields.includes(f.dataset.field));
      const error = document.getElementById(box.dataset.in + "-error");
      if (!error) continue;
      error.textContent = fault ? fault.dataset.text : "";
      error.hidden = !fault;
      const told = box.querySelector("[aria-describedby]");
      if (told) fault ? told.setAttribute("aria-invalid", "true") : told.removeAttribute("aria-invalid");
    }
    if (part.dataset.title) document.title = part.dataset.title + " · mullwright";
    say(part.dataset.short || (faults.length || part.querySelector(".faults") ? part.querySelector(".faults").innerText : ""));
    for (const link of form.querySelectorAll("[data-pick]")) link.href = link.dataset.pick + "&with=" + encodeURIComponent(shown);
  }

  function say(text) {
    if (!short) return;
    (short.querySelector("a") || short).textContent = text;
  }

  function later(ms) {
    if (!live) return keep(query());
    clearTimeout(timer); 
    timer = setTimeout(fetchAnswer, ms);
  }

  // The body: a named step, or the slider between them.
  const body = form.querySelector("[data-body]");
  const radio = value => form.querySelector(`input[name="body.is"][value="${value}"]`);
  function showBody() { body.parentElement.querySelector("output").textContent = Number(body.value).toFixed(2); }
  function bodyMoved(target) {
    if (target === body) {
      const step = [...form.querySelectorAll("[data-at]")].find(s => s.dataset.at === Number(body.value).toFixed(2));
      (step || radio("ratio")).checked = true;
    } else if (target.dataset.at) body.value = target.dataset.at;
    else if (target.dataset.choose && target.value) radio(target.dataset.choose).checked = true;
    else return;
    showBody();
  }

  // The amount's slider: round numbers, or a count of tubes.
  const rounds = [5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 80, 100, 120, 150, 200, 250, 300, 400, 500, 750, 1000];
  const units = { "paint-volume": "ml", "paint-mass": "g", "pigment-mass": "g", "oil-mass": "g" };
  const slide = form.querySelector("[data-slide]");
  const amount = slide && document.getElementById(slide.dataset.slide);
  const amountOf = amount && form.querySelector(`[name="${amount.name.replace(".is", ".of")}"]`);
  const number = /^\s*(\d+(?:[.,]\d+)?)\s*([a-z ]*)$/i, count = /^\s*(\d+)\s*[x×]\s*(.+)$/i;
  const tubes = () => amountOf.value === "tubes";
  function showAmount() {
    const m = amount.value.match(tubes() ? count : number);
    const list = tubes() ? null : rounds;
    slide.min = list ? 0 : 1;
    slide.max = list ? list.length - 1 : 24;
    if (m) {
      const v = parseFloat(m[1].replace(",", "."));
      slide.value = list ? list.findLastIndex(r => r <= v) : v;
    }
    slide.setAttribute("aria-valuetext", amount.value);
  }
  function amountMoved(target) {
    if (target === slide) {
      if (tubes()) {
        const m = amount.value.match(count);
        amount.value = slide.value + "x" + (m ? m[2] : "40ml");
      } else {
        const m = amount.value.match(number);
        amount.value = rounds[slide.value] + " " + (m && m[2].trim() || units[amountOf.value] || "g");
      }
      slide.setAttribute("aria-valuetext", amount.value);
    } else if (target === amountOf) {
      // Another kind of amount: keep the number where the unit fits.
      const m = amount.value.match(number);
      const mass = /^(g|kg|mg|oz|lb)$/i;
      if (tubes()) amount.value = count.test(amount.value) ? amount.value : "1x40ml";
      else if (!m) amount.value = "40 " + (units[amountOf.value] || "g");
      else if (units[amountOf.value] === "g" && !mass.test(m[2].trim())) amount.value = m[1] + " g";
      else if (units[amountOf.value] === "ml" && mass.test(m[2].trim())) amount.value = m[1] + " ml";
      showAmount();
    } else if (target === amount) showAmount();
  }

  // A list grows by an empty line as its last is filled.
  function grow(target) {
    const row = target.closest("[data-row]");
    if (!row || row.nextElementSibling || !target.value.trim()) return;
    const next = row.cloneNode(true);
    const n = row.parentElement.querySelectorAll("[data-row]").length + 1;
    for (const i of next.querySelectorAll("input")) {
      i.value = "";
      if (i.id) i.id = i.id.replace(/\d+$/, n);
      i.setAttribute("aria-label", i.getAttribute("aria-label").replace(/\d+$/, n));
    }
    for (const x of next.querySelectorAll(".found, .clear, .chip")) x.remove();
    row.after(next);
    crosses();
  }

  // A cross empties a line.
  function crosses() {
    for (const row of form.querySelectorAll("[data-row]")) {
      if (row.querySelector(".clear") || !row.querySelector("input").value) continue;
      const b = document.createElement("button");
      b.type = "button";
      b.className = "clear";
      b.textContent = "×";
      b.setAttribute("aria-label", "Empty " + row.querySelector("input").getAttribute("aria-label"));
      const found = row.querySelector(".found");
      found ? found.before(b) : row.append(b);
    }
  }

  form.addEventListener("input", e => {
    const t = e.target;
    if (body) bodyMoved(t);
    if (slide) amountMoved(t);
    grow(t);
    later(t.type === "text" || t.type === "search" || t.tagName === "TEXTAREA" ? 300 : t.type === "range" ? 30 : 0);
  });
  form.addEventListener("change", () => later(0));
  form.addEventListener("submit", e => { if (!live) return; e.preventDefault(); later(0); answer.scrollIntoView(); answer.focus({ preventScroll: true }); });
  form.addEventListener("click", e => {
    if (!e.target.matches(".clear")) return;
    const row = e.target.closest("[data-row]");
    const last = row.parentElement.querySelectorAll("[data-row]").length === 1 || !row.nextElementSibling;
    for (const i of row.querySelectorAll("input")) i.value = "";
    const next = row.nextElementSibling || row.previousElementSibling;
    if (!last) row.remove();
    const f = row.querySelector(".found");
    if (f) f.remove();
    (last ? row : next).querySelector("input").focus();
    later(0);
  });
  // A link to a field of the form goes to what can be filled in.
  document.addEventListener("click", e => {
    const to = e.target.closest && e.target.closest("[data-to]");
    if (!to) return;
    const box = form.querySelector(`[data-in="${CSS.escape(to.dataset.to)}"]`);
    const input = box && box.querySelector("input:checked, input:not([type=radio]), select, textarea");
    if (!input) return;
    e.preventDefault();
    for (let d = input.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    input.focus();
  });

  if (slide) { slide.hidden = false; showAmount(); }
  if (body) showBody();
  crosses();
})();
