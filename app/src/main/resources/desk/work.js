// Keeps what was typed until the desk has stored it, and pages young. The forms work without this file.
"use strict";

(() => {
  const POLL_MS = 1000;
  const PATIENCE_MS = 4000;
  const FORM = "application/x-www-form-urlencoded";

  const now = document.getElementById("now");
  const unsent = document.getElementById("unsent");
  const say = document.createElement("p");
  say.className = "hidden";
  say.setAttribute("role", "status");
  document.body.append(say);

  let reachable = true;
  let sending = false;
  const underWay = new Set();

  const main = () => document.querySelector("main");
  const typing = () => document.getElementById("typing");
  const job = () => document.body.dataset.job;
  const entriesOfPage = () => Number(document.body.dataset.entries);

  // ---- What is not yet stored: in the browser's own database, on disk before anything is sent.

  let opened = null;
  const kept = new Map(); // what a browser without a database remembers while the page is open

  function database() {
    if (!opened) {
      opened = new Promise((resolve) => {
        let request;
        try {
          request = indexedDB.open("ferrule", 1);
        } catch (fault) {
          resolve(null);
          return;
        }
        request.onupgradeneeded = () => request.result.createObjectStore("unsent", { keyPath: "key" });
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => resolve(null);
        request.onblocked = () => resolve(null);
      });
    }
    return opened;
  }

  async function change(what, value) {
    if (what === "put") kept.set(value.key, value); else kept.delete(value);
    const db = await database();
    if (!db) return false;
    return new Promise((resolve) => {
      const transaction = db.transaction("unsent", "readwrite", { durability: "strict" });
      transaction.objectStore("unsent")[what](value);
      transaction.oncomplete = () => resolve(true);
      transaction.onerror = () => resolve(false);
      transaction.onabort = () => resolve(false);
    });
  }

  async function waiting() {
    const db = await database();
    const list = db
      ? await new Promise((resolve) => {
          const request = db.transaction("unsent").objectStore("unsent").getAll();
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => resolve(Array.from(kept.values()));
        })
      : Array.from(kept.values());
    return list.sort((a, b) => a.at.localeCompare(b.at) || a.key.localeCompare(b.key));
  }

  // ---- Sending: each under its key, so that what is sent twice is stored once.

  async function send(entry) {
    let response;
    try {
      response = await fetch("/enter", {
        method: "POST",
        body: entry.body,
        headers: { "Content-Type": FORM },
        signal: AbortSignal.timeout(PATIENCE_MS),
      });
    } catch (fault) {
      return { state: "waiting" };
    }
    const html = await response.text().catch(() => "");
    if (response.ok && response.redirected) return { state: "stored", html, url: response.url };
    if (response.status >= 500) return { state: "waiting", html };
    return { state: "answer", html, url: response.url, status: response.status };
  }

  async function deliver(entry) {
    underWay.add(entry.key);
    try {
      const result = await send(entry);
      if (result.state === "stored") await change("delete", entry.key);
      if (result.state === "answer") await change("put", { ...entry, state: "answer" });
      return result;
    } finally {
      underWay.delete(entry.key);
      await show();
    }
  }

  async function drain() {
    if (sending || !reachable) return;
    sending = true;
    try {
      for (const entry of await waiting()) {
        if (entry.job !== job() || entry.state === "answer" || underWay.has(entry.key)) continue;
        const result = await deliver(entry);
        if (result.state === "waiting") break;
      }
    } finally {
      sending = false;
    }
  }

  async function show() {
    const asked = typing()?.dataset.answers; // stands in the form already
    const list = (await waiting()).filter((entry) => entry.key !== asked && (!underWay.has(entry.key) || !reachable));
    unsent.hidden = list.length === 0;
    unsent.replaceChildren();
    if (list.length === 0) return;
    const head = document.createElement("h2");
    head.textContent = list.length === 1 ? "1 entry not yet stored" : list.length + " entries not yet stored";
    const items = document.createElement("ul");
    items.className = "plain";
    for (const entry of list) items.append(item(entry));
    unsent.append(head, items);
  }

  function item(entry) {
    const li = document.createElement("li");
    const what = document.createElement("p");
    what.textContent = entry.label + ", typed " + entry.at.replace("T", " ").slice(0, 19) + " UTC: " + stateOf(entry);
    li.append(what);
    if (entry.state === "answer" && entry.job === job()) {
      const buttons = document.createElement("p");
      buttons.append(
        button("Look at it", async () => {
          const result = await deliver(entry);
          if (result.state === "waiting") return;
          swap(result, entry.key);
        }),
        " ",
        button("Throw it away", (event) => {
          if (event.target.dataset.sure) change("delete", entry.key).then(show);
          event.target.dataset.sure = "yes";
          event.target.textContent = "Really throw it away";
        })
      );
      li.append(buttons);
    }
    return li;
  }

  function stateOf(entry) {
    if (entry.job !== job()) return "of another job; kept until the desk is opened on that.";
    return entry.state === "answer"
      ? "the desk asks something before it can be stored."
      : "kept in this browser, sent as soon as the desk can be reached.";
  }

  function button(text, action) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", action);
    return made;
  }

  // ---- Typing.

  document.addEventListener("keydown", (event) => {
    const form = typing();
    if (event.key !== "Enter" || event.isComposing || !form || !form.contains(event.target)) return;
    if (!event.target.matches("input[type=text]")) return;
    const fields = Array.from(form.querySelectorAll("input[type=text]"));
    const next = fields[fields.indexOf(event.target) + 1];
    if (next) {
      event.preventDefault();
      next.focus();
      next.select();
    }
  });

  document.addEventListener("submit", (event) => {
    if (event.target !== typing()) return;
    event.preventDefault();
    submit(event.target);
  });

  async function submit(form) {
    if (form.dataset.busy) return;
    form.dataset.busy = "yes";
    const fields = new URLSearchParams(new FormData(form));
    const typed = Array.from(form.querySelectorAll(".number input[type=text]")).filter((f) => f.value.trim());
    const at = new Date().toISOString();
    const key = crypto.randomUUID();
    fields.set("key", key);
    fields.set("at", at);
    const entry = {
      key,
      job: fields.get("job"),
      at,
      state: "waiting",
      body: fields.toString(),
      label: form.dataset.fibre + " " + fields.get("direction") + ": "
        + (typed.map((f) => f.name.slice(1) + " nm " + f.value.trim()).join(", ") || "nothing"),
    };
    if (typed.length > 0) {
      underWay.add(key);
      await change("put", entry);
      if (form.dataset.answers) await change("delete", form.dataset.answers);
    }
    const result = typed.length > 0 ? await deliver(entry) : await send(entry);
    if (result.state === "waiting" && typed.length > 0) {
      reach(false);
      goOn(form);
    } else if (result.state !== "waiting") {
      swap(result, key);
    }
    delete form.dataset.busy;
  }

  // The desk cannot be reached: the next fibre comes from what the page brought along.
  async function goOn(form) {
    const held = new Set((await waiting()).map((entry) => new URLSearchParams(entry.body).get("fibre")));
    held.add(form.dataset.fibre);
    const templates = Array.from(document.querySelectorAll("template.coming"));
    const next = templates.find((t) => !held.has(t.content.querySelector("form").dataset.fibre));
    document.getElementById("stored")?.replaceChildren();
    if (next) {
      const made = next.content.querySelector("form").cloneNode(true);
      form.replaceWith(made);
      next.remove();
      focusFirst();
    } else {
      const end = document.createElement("p");
      end.textContent = "This page knows of no further fibre; it goes on when the desk can be reached.";
      form.replaceWith(end);
    }
    say.textContent = "Kept in this browser, not yet stored. " + (typing() ? typing().querySelector("h2").textContent : "");
    await show();
  }

  function focusFirst() {
    const form = typing();
    const field = form && (form.querySelector("[aria-invalid]") || form.querySelector("input[type=text]"));
    if (field) field.focus();
  }

  // Puts the page that the desk has answered with in the place of this one.
  function swap(result, key) {
    const page = new DOMParser().parseFromString(result.html, "text/html");
    const content = page.querySelector("main");
    if (!content) {
      say.textContent = "";
      return;
    }
    main().replaceWith(document.adoptNode(content));
    take(page);
    if (result.state === "stored") {
      history.replaceState(null, "", result.url);
      say.textContent = Array.from(document.querySelectorAll("#stored li > p:first-child, #stored .doubt"))
        .map((p) => p.textContent.trim()).join(" ");
    } else if (typing()) {
      typing().dataset.answers = key;
      say.textContent = "Not stored yet. "
        + Array.from(typing().querySelectorAll(".wrong")).map((p) => p.textContent.trim()).join(" ");
    }
    document.title = page.title;
    show();
    focusFirst();
  }

  function take(page) {
    document.body.dataset.entries = page.body.dataset.entries;
    document.body.dataset.judged = page.body.dataset.judged;
  }

  // ---- Keeping the page young: two browsers on one job see each other's entries.

  function reach(can) {
    if (can === reachable) return;
    reachable = can;
    document.body.classList.toggle("apart", !can);
    if (can) drain();
    show();
  }

  async function poll() {
    try {
      const response = await fetch("/changes", { signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-store" });
      if (!response.ok) throw new Error();
      const state = await response.json();
      reach(true);
      await follow(state);
    } catch (fault) {
      reach(false);
      tell("The desk cannot be reached. What is typed here is kept in this browser and sent when the desk is back.");
    }
  }

  async function follow(state) {
    if (state.job !== job()) {
      tell("The desk now shows another job.", "Load this page anew");
    } else if (state.entries !== entriesOfPage()) {
      if (document.getElementById("last")) await refresh();
      else tell("Entries were added since this page was made.", "Show them");
    } else if (state.judged < state.entries) {
      tell("New entries are being judged; what stands here does not know of them yet.");
    } else if (Number(document.body.dataset.judged) < state.judged && !document.getElementById("last")) {
      tell("The new entries are judged.", "Show what follows from them");
    } else {
      tell("");
    }
    await drain();
  }

  let told = null;
  function tell(text, link) {
    if (told === text) return;
    told = text;
    now.replaceChildren();
    if (!text) return;
    const p = document.createElement("p");
    p.textContent = text + " ";
    if (link) {
      const a = document.createElement("a");
      a.href = location.pathname + location.search;
      a.textContent = link;
      p.append(a);
    }
    now.append(p);
  }

  // The lists of the page for typing, without disturbing who is typing.
  async function refresh() {
    const address = new URL(location.href);
    address.searchParams.delete("stored");
    const form = typing();
    if (form) address.searchParams.set("fibre", form.dataset.fibre);
    const response = await fetch(address, { signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-store" });
    const page = new DOMParser().parseFromString(await response.text(), "text/html");
    for (const id of ["last", "coming"]) {
      const fresh = page.getElementById(id);
      if (fresh) document.getElementById(id)?.replaceWith(document.adoptNode(fresh));
    }
    take(page);
    const fresh = page.getElementById("typing");
    if (form && form === typing() && !form.dataset.busy && fresh && known(fresh) !== known(form)) {
      const focused = document.activeElement?.name;
      for (const field of form.querySelectorAll("input[type=text]")) {
        const same = fresh.elements[field.name];
        if (same) same.value = field.value;
      }
      form.replaceWith(document.adoptNode(fresh));
      if (focused) typing().elements[focused]?.focus();
      say.textContent = "Another reading of this fibre has just come in; it stands beside the field.";
    }
  }

  const known = (form) =>
    Array.from(form.querySelectorAll("input[type=hidden]"))
      .filter((f) => /^k\d+$/.test(f.name)).map((f) => f.name + f.value).join();

  async function tick() {
    if (!document.hidden) await poll();
    setTimeout(tick, POLL_MS);
  }
  document.addEventListener("visibilitychange", () => { if (!document.hidden) poll(); });

  if (document.referrer.includes("/enter")) focusFirst();
  show().then(drain);
  setTimeout(tick, POLL_MS);
})();
