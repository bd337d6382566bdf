/* Keeping patterns on the device: registers the worker, asks it to keep or let go, shows what is
   kept and how much room it takes, and offers an update without ever taking it unasked. */
(() => {
  "use strict";
  const ROOT = new URL("../", document.currentScript.src);
  const HELP = new URL("offline.html", ROOT).href;
  const place = location.href.startsWith(ROOT.href) ? location.pathname.slice(ROOT.pathname.length) : "";
  const pattern = (/^patterns\/([^/]+)\//.exec(place) || [])[1];

  const WHY_NOT = {
    disk: "This site was opened from disk: it is on this device already, and needs no keeping. "
      + "What cannot be done from disk: to be told of a newer edition.",
    insecure: "This address does not begin with https, so the browser keeps no pages of it. "
      + "Take the one file of your size instead: it opens without a connection.",
    absent: "This browser keeps no pages for this site. It may be a private window, or a setting. "
      + "Take the one file of your size instead: it opens without a connection.",
    none: "This copy of the site brings nothing to keep pages with.",
    preview: "This is a preview of the site. It saves nothing offline. What you saved before stays "
      + "on this device.",
  };
  const REFUSED = {
    full: "There is no room for it: nothing new was kept, and what was kept before is still here. "
      + "Let another pattern go, or free room on the device, and try again.",
    unreachable: "The connection broke off: nothing new was kept. Try again where there is a signal.",
    changed: "The site has an update, and the two versions are not mixed. Nothing new was saved. "
      + "Reload the page, press Update, and try again.",
    foreign: "The answer was not this site's file. Some networks answer in a site's place until you "
      + "log in. Nothing new was saved. Log in to the network and try again.",
    missing: "A file of it was not found on the site: nothing new was kept.",
    refused: "The browser refused to keep it: nothing new was kept.",
  };

  const element = (tag, text, attributes = {}) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(text);
    return made;
  };

  const button = (text, does) => {
    const made = element("button", text, { type: "button", class: "wb-button" });
    made.addEventListener("click", () => does(made));
    return made;
  };

  const room = (bytes) => bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB`
    : `${(bytes / 1e6).toFixed(1)} MB`;

  /* -- The worker ----------------------------------------------------------------------------- */

  function ask(worker, what, name) {
    return new Promise((answer) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = (event) => answer(event.data);
      worker.postMessage({ ask: what, name }, [channel.port2]);
    });
  }

  /* Resolves once the worker has come to one of the states. */
  const come = (worker, ...states) => new Promise((done) => {
    const look = () => states.includes(worker.state) && done(worker.state);
    worker.addEventListener("statechange", look);
    look();
  });

  async function register() {
    if (location.protocol === "file:") throw WHY_NOT.disk;
    if (document.querySelector("meta[name=walebook-preview]")) throw WHY_NOT.preview;
    if (!window.isSecureContext) throw WHY_NOT.insecure;
    if (!navigator.serviceWorker || !window.caches) throw WHY_NOT.absent;
    const registration = await navigator.serviceWorker
      .register(new URL("sw.js", ROOT), { scope: ROOT.pathname })
      .catch((fault) => { throw fault.name === "SecurityError" ? WHY_NOT.absent : WHY_NOT.none; });
    if (!registration.active) await come(registration.installing || registration.waiting,
                                         "activated", "redundant");
    if (!registration.active) throw WHY_NOT.none;
    return registration;
  }

  /* A page from disk has no manifest: the browser would complain that it may not read it. */
  function nameManifest() {
    if (location.protocol === "file:") return;
    const href = new URL("manifest.webmanifest", ROOT).href;
    document.head.append(element("link", "", { rel: "manifest", href }));
  }

  /* -- One pattern, on its own pages ----------------------------------------------------------- */

  class Box {
    constructor(name, before) {
      this.name = name;
      this.said = element("p", "", { role: "status" });
      this.pressed = button("", () => this.change());
      this.pressed.hidden = true;
      const link = element("a", "What is kept on this device", { href: HELP });
      this.element = element("section", "", { class: "wb-keep", "aria-label": "Without a signal" });
      this.element.append(this.said, this.pressed, " ", link);
      before.after(this.element);
    }

    say(text) { this.said.textContent = text; }

    async start(registration) {
      this.registration = registration;
      this.show(await ask(registration.active, "state"));
    }

    show(state) {
      const group = state.groups.find((each) => each.name === this.name);
      this.element.hidden = !group;
      if (!group) return;
      this.kept = group.kept;
      this.say(group.kept
        ? `Kept on this device in all its sizes: ${room(group.bytes)}. It opens without a signal.`
        : `In all its sizes, with the techniques it names: ${room(group.bytes)}.`);
      this.pressed.hidden = false;
      this.pressed.textContent = group.kept ? "Let it go from this device"
        : "Keep this pattern on this device";
    }

    async change() {
      this.pressed.disabled = true;
      if (!this.kept) this.say("Keeping it …");
      const answer = await change(this.registration, this.kept ? "drop" : "keep", this.name);
      this.pressed.disabled = false;
      if (answer.refused) this.say(REFUSED[answer.refused]);
      else this.show(answer);
    }
  }

  /* The browser is asked to clear nothing of its own accord; it answers as it likes. */
  async function change(registration, what, name) {
    if (what === "keep" && navigator.storage && navigator.storage.persist) {
      await navigator.storage.persist().catch(() => false);
    }
    const answer = await ask(registration.active, what, name);
    if (answer.refused === "changed") offer(registration, true);
    return answer;
  }

  /* -- All that is kept, on the page about it --------------------------------------------------- */

  class List {
    constructor(before) {
      this.said = element("p", "", { role: "status" });
      this.list = element("ul", "", { class: "wb-kept" });
      this.room = element("p", "");
      before.append(this.said, this.list, this.room);
    }

    say(text) { this.said.textContent = text; }

    async start(registration) {
      this.registration = registration;
      await this.show(await ask(registration.active, "state"));
    }

    async show(state) {
      this.list.replaceChildren(...state.groups.map((group) => this.line(group)));
      this.room.textContent = await this.roomTaken(state.bytes);
    }

    line(group) {
      const frame = group.name === "frame";
      const what = group.version ? `${group.title}, version ${group.version}` : group.title;
      const made = element("li", element("span", `${what}: ${room(group.bytes)}. `
        + `${group.kept ? "Kept." : "Not kept."} ${group.left ? stateLeft(group) : ""}`));
      if (!frame) {
        const does = group.kept ? "drop" : "keep";
        const pressed = button(group.kept ? "Let go" : "Keep", () => this.change(pressed, does, group));
        pressed.setAttribute("aria-label", `${group.kept ? "Let go" : "Keep"} ${group.title}`);
        pressed.dataset.group = group.name;
        made.append(pressed);
      }
      return made;
    }

    async roomTaken(bytes) {
      const storage = navigator.storage || {};
      const all = storage.estimate ? await storage.estimate().catch(() => null) : null;
      const lasting = storage.persisted ? await storage.persisted().catch(() => false) : false;
      return `Kept in all, what is shared counted once: ${room(bytes)}.`
        + (all && all.quota ? ` The browser counts ${room(all.usage)} for everything from this `
          + `address, and allows ${room(all.quota)}.` : "")
        + (lasting ? " It has promised not to clear it of its own accord."
          : " It may clear it when room runs short, or after long disuse.");
    }

    async change(pressed, what, group) {
      pressed.disabled = true;
      this.say(what === "keep" ? `Keeping ${group.title} …` : "");
      const answer = await change(this.registration, what, group.name);
      pressed.disabled = false;
      if (answer.refused) return this.say(REFUSED[answer.refused]);
      this.say(`${group.title}: ${what === "keep" ? "kept" : "let go"}.`);
      await this.show(answer);
      (this.list.querySelector(`[data-group="${group.name}"]`) || this.list.querySelector("button")).focus();
    }
  }

  const stateLeft = (group) => group.name.startsWith("older ")
    ? "This is the version you saved. Its update could not be loaded yet. "
    : "It is no longer on the site. ";

  const titleOf = (state, name) => (state.groups.find((each) => each.name === name) || {}).title || name;

  /* -- A newer edition --------------------------------------------------------------------------- */

  /* Tells that a newer edition is ready, what it changes of what is kept, and waits. Where nothing
     is kept the newest is read anyway, and it is offered only once it is in the way of keeping. */
  async function offer(registration, inTheWay = false) {
    const waiting = registration.waiting;
    if (!waiting || document.querySelector(".wb-newer")) return;
    const [mine, theirs] = await Promise.all(
      [registration.active, waiting].map((worker) => ask(worker, "state")));
    if (mine.refused || theirs.refused) return;
    if (!inTheWay && !mine.groups.some((group) => group.kept && group.version)) return;
    const said = element("p", `The site has an update. What you saved stays as it is until you press `
      + `Update. ${changes(mine, theirs)}`, { role: "status" });
    const bar = element("section", said, { class: "wb-newer", "aria-label": "Update" });
    const later = button("Not now", () => bar.remove());
    bar.append(button("Update", () => accept(registration, said)), " ", later);
    (document.querySelector(".md-content") || document.body).append(bar);
  }

  function changes(mine, theirs) {
    const kept = mine.groups.filter((group) => group.kept && group.version);
    const changed = kept.map((old) => [old, theirs.groups.find((each) => each.name === old.name)])
      .filter(([old, next]) => next && next.version !== old.version)
      .map(([old, next]) => `${old.title}: version ${old.version} becomes ${next.version}.`);
    const gone = (theirs.left || []).map((name) => `${titleOf(mine, name)} is no longer on the site. It `
      + "stays saved on this device, as it is, until you remove it.");
    return [...changed, ...gone].join(" ");
  }

  async function accept(registration, said) {
    const taken = registration.waiting;
    come(taken, "activated").then(() => location.reload());
    const answer = await ask(taken, "take");
    if (answer.refused !== "open") return;
    said.textContent = `The site is open in ${answer.pages === 1 ? "another tab" : `${answer.pages} `
      + "other tabs"}. The update waits, so that nothing changes there while you knit. Close the other `
      + "tabs, then press Update. The update also comes by itself after all tabs are closed.";
  }

  function watch(registration) {
    registration.addEventListener("updatefound", async () => {
      const found = registration.installing;
      if (registration.active && await come(found, "installed", "redundant") === "installed") {
        offer(registration);
      }
    });
    offer(registration);
  }

  /* -- Start --------------------------------------------------------------------------------------- */

  function mount() {
    const list = document.getElementById("kept-here");
    if (list) return new List(list);
    const top = pattern && document.querySelector("article .wb-hand-over, article .wb-edition, "
      + "article .wb-summary");
    return top ? new Box(pattern, top) : null;
  }

  async function start() {
    nameManifest();
    const shown = mount();
    try {
      const registration = await register();
      if (!navigator.serviceWorker.controller) await ask(registration.active, "visit", place || "index.html");
      if (shown) await shown.start(registration);
      watch(registration);
    } catch (why) {
      if (typeof why !== "string") throw why;
      if (shown) shown.say(why);
    }
  }

  if (document.readyState === "complete") start();
  else window.addEventListener("load", start);
})();
