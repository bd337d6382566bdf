/* Saving patterns on the device: asks the worker to save or remove one, shows what is saved and how much
   room it takes, and offers an update without ever taking it unasked. */
(function (walebook) {
  "use strict";
  const texts = TEXTS.keep;
  const { ROOT, ask, come, register, goneText, headingOf } = walebook.worker;
  const OLDER = "older "; // before the name of what the worker has set aside of a pattern of the site
  const HELP = new URL("offline.html", ROOT).href;
  const place = location.href.startsWith(ROOT.href) ? location.pathname.slice(ROOT.pathname.length) : "";
  const pattern = (/^patterns\/([^/]+)\//.exec(place) || [])[1];

  /** @type {Record<kept.Why, string>} */
  const REFUSED = {
    full: texts.thereIsNo,
    unreachable: texts.theConnectionBroke,
    changed: texts.theSiteHas,
    foreign: texts.theAnswerWas,
    missing: texts.aFileOf,
    refused: texts.theBrowserRefused,
  };

  /** @type {<Tag extends keyof HTMLElementTagNameMap>(tag: Tag, text: string | Node, attributes?: Record<string, string>) => HTMLElementTagNameMap[Tag]} */
  const element = (tag, text, attributes = {}) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(text);
    return made;
  };

  /** @type {(text: string, does: () => void) => HTMLButtonElement} */
  const button = (text, does) => {
    const made = element("button", text, { type: "button", class: "wb-button" });
    made.addEventListener("click", does);
    return made;
  };

  /** @type {(bytes: number) => string} */
  const room = (bytes) => bytes < 1e6 ? texts.kb(Math.max(1, Math.round(bytes / 1e3)))
    : texts.mb((bytes / 1e6).toFixed(1));

  /* What went with the last of what was saved: it is kept by itself, and asked for by nobody. */
  /** @type {(state: kept.State) => string} */
  const startText = ({ start: bytes }) => bytes ? texts.theKeptStart(room(bytes)) : "";

  /* A page from disk has no manifest: the browser would complain that it may not read it. */
  function nameManifest() {
    if (location.protocol === "file:") return;
    const href = new URL("manifest.webmanifest", ROOT).href;
    document.head.append(element("link", "", { rel: "manifest", href }));
  }

  /* -- One pattern, on its own pages ----------------------------------------------------------- */

  class Box {
    /**
     * @param {string} name
     * @param {Element} before
     */
    constructor(name, before) {
      this.name = name;
      this.status = element("p", "", { role: "status" });
      this.pressed = button("", () => this.change());
      this.kept = false;
      this.isAside = false; // of this page the site has no more
      /** @type {ServiceWorkerRegistration | null} */
      this.registration = null;
      this.pressed.hidden = true;
      const link = element("a", texts.allThatIs, { href: HELP });
      this.element = element("section", "", { class: "wb-keep", "aria-label": texts.withoutASignal });
      this.element.append(this.status, this.pressed, " ", link);
      before.after(this.element);
    }

    /** @type {kept.Shown["say"]} */
    say(text) { this.status.textContent = text; }

    /** @type {kept.Shown["start"]} */
    async start(registration) {
      this.registration = registration;
      const state = await ask(registration.active, "state");
      if (!state.refused && (state.aside || []).includes(place)) this.isAside = true;
      this.show(state);
      const gone = this.element.hidden ? "" : await goneText(registration, place);
      if (gone) this.element.prepend(element("p", element("strong", gone)));
    }

    /** @type {(state: kept.State | kept.Refused) => void} */
    show(state) {
      if (state.refused) return;
      const shown = this.isAside ? `${OLDER}${this.name}` : this.name;
      const group = state.groups.find((each) => each.name === shown);
      this.element.hidden = !group;
      if (!group) return;
      this.kept = group.kept;
      this.say(group.kept
        ? (this.isAside ? texts.thisPageIs : texts.savedOfflineIn)(room(group.bytes))
        : texts.allItsSizes(room(group.bytes)));
      this.pressed.hidden = false;
      this.pressed.textContent = group.kept ? texts.removeFromThis
        : texts.saveOffline;
    }

    async change() {
      if (!this.registration) return;
      this.pressed.disabled = true;
      if (!this.kept) this.say("Saving …");
      const answer = await change(this.registration, this.kept ? "drop" : "keep",
        this.isAside ? `${OLDER}${this.name}` : this.name);
      this.pressed.disabled = false;
      if (answer.refused) this.say(REFUSED[answer.refused]);
      else {
        this.show(answer);
        this.say(`${this.status.textContent} ${startText(answer)}`.trim());
      }
    }
  }

  /* The browser is asked to clear nothing unasked; it answers as it likes, or asks the reader, for
     whom nothing waits. */
  /** @type {(registration: ServiceWorkerRegistration, what: "keep" | "drop", name: string) => Promise<kept.State | kept.Refused>} */
  async function change(registration, what, name) {
    if (what === "keep" && navigator.storage && navigator.storage.persist) {
      navigator.storage.persist().catch(() => false);
    }
    const answer = await ask(registration.active, what, name);
    if (answer.refused === "changed") offer(registration, true);
    return answer;
  }

  /* -- All that is kept, on the page about it --------------------------------------------------- */

  class List {
    /** @param {Element} before */
    constructor(before) {
      this.status = element("p", "", { role: "status" });
      this.list = element("ul", "", { class: "wb-kept" });
      this.room = element("p", "");
      /** @type {ServiceWorkerRegistration | null} */
      this.registration = null;
      before.append(this.status, this.list, this.room);
    }

    /** @type {kept.Shown["say"]} */
    say(text) { this.status.textContent = text; }

    /** @type {kept.Shown["start"]} */
    async start(registration) {
      this.registration = registration;
      await this.show(await ask(registration.active, "state"));
    }

    /** @type {(state: kept.State | kept.Refused) => Promise<void>} */
    async show(state) {
      if (state.refused) return;
      this.list.replaceChildren(...state.groups.map((group) => this.line(group)));
      this.room.textContent = await this.roomTaken(state.bytes);
    }

    /** @type {(group: kept.Group) => HTMLElement} */
    line(group) {
      const frame = group.name === "frame";
      const what = group.version ? texts.version(group.title, group.version) : group.title;
      const made = element("li", element("span", `${what}: ${room(group.bytes)}. `
        + `${group.kept ? texts.saved : texts.notSaved} ${group.left ? stateLeft(group) : ""}`));
      if (!frame) {
        const does = group.kept ? "drop" : "keep";
        const pressed = button(group.kept ? texts.remove : texts.saveOffline, () => this.change(pressed, does, group));
        pressed.setAttribute("aria-label", group.kept ? texts.remove2(group.title) : texts.saveOffline2(group.title));
        pressed.dataset.group = group.name;
        made.append(pressed);
      }
      return made;
    }

    /** @type {(bytes: number) => Promise<string>} */
    async roomTaken(bytes) {
      /** @type {Partial<StorageManager>} */
      const storage = navigator.storage || {};
      const all = storage.estimate ? await storage.estimate().catch(() => null) : null;
      const lasting = storage.persisted ? await storage.persisted().catch(() => false) : false;
      const allowed = all && all.quota ? texts.theBrowserCounts(room(all.usage || 0), room(all.quota)) : "";
      const promised = lasting ? texts.itHasPromised
        : texts.itMayClear;
      return texts.savedInAll(room(bytes), allowed, promised);
    }

    /** @type {(pressed: HTMLButtonElement, what: "keep" | "drop", group: kept.Group) => Promise<void>} */
    async change(pressed, what, group) {
      if (!this.registration) return;
      pressed.disabled = true;
      this.say(what === "keep" ? texts.saving(group.title) : "");
      const answer = await change(this.registration, what, group.name);
      pressed.disabled = false;
      if (answer.refused) {
        this.say(REFUSED[answer.refused]);
        return;
      }
      this.say(`${group.title}: ${what === "keep" ? "saved" : "removed"}. ${startText(answer)}`.trim());
      await this.show(answer);
      /** @type {HTMLElement | null} */
      const again = this.list.querySelector(`[data-group="${group.name}"]`);
      (again || this.list.querySelector("button"))?.focus();
    }
  }

  /** @type {(group: kept.Group) => string} */
  function stateLeft(group) {
    if (group.aside) return texts.thesePages;
    return group.name.startsWith(OLDER) ? texts.thisIsThe : texts.itIsNo;
  }

  /** @type {(state: kept.State, name: string) => string} */
  const titleOf = (state, name) => state.groups.find((each) => each.name === name)?.title || name;

  /* -- A newer edition --------------------------------------------------------------------------- */

  /* Tells that a newer edition is ready, what it changes of what is kept, and waits. Where nothing
     is kept the newest is read anyway, and it is offered only once it is in the way of keeping. */
  /** @type {(registration: ServiceWorkerRegistration, isBlocking?: boolean) => Promise<void>} */
  async function offer(registration, isBlocking = false) {
    const waiting = registration.waiting;
    if (!waiting || document.querySelector(".wb-newer")) return;
    const [mine, theirs] = await Promise.all(
      [registration.active, waiting].map((worker) => ask(worker, "state")));
    if (mine.refused || theirs.refused) return;
    if (!isBlocking && !mine.groups.some((group) => group.kept && group.version)) return;
    const status = element("p", texts.theSiteHasAn(await changes(mine, theirs)), { role: "status" });
    const bar = element("section", status, { class: "wb-newer", "aria-label": texts.update });
    const later = button(texts.notNow, () => bar.remove());
    bar.append(button(texts.update, () => accept(registration, status)), " ", later);
    (document.querySelector(".wb-main") || document.body).append(bar);
  }

  /** @type {(mine: kept.State, theirs: kept.State) => Promise<string>} */
  async function changes(mine, theirs) {
    const kept = mine.groups.filter((group) => group.kept && group.version);
    const changed = kept.flatMap((old) => {
      const next = theirs.groups.find((each) => each.name === old.name);
      return next && next.version !== old.version
        ? [texts.versionBecomes(old.title, old.version, next.version)] : [];
    });
    const gone = (theirs.left || []).map((name) => texts.isNoLonger(titleOf(mine, name)));
    const pages = (theirs.aside || []).filter((path) => !(mine.aside || []).includes(path));
    const headings = await Promise.all(pages.map(headingOf));
    return [...changed, ...gone, ...headings.map(texts.isNoLonger)].join(" ");
  }

  /** @type {(registration: ServiceWorkerRegistration, status: HTMLElement) => Promise<void>} */
  async function accept(registration, status) {
    const taken = registration.waiting;
    if (!taken) return;
    come(taken, "activated").then(() => location.reload());
    const answer = await ask(taken, "take");
    if (answer.refused !== "open") return;
    status.textContent = texts.theSiteIs(answer.pages === 1 ? texts.anotherTab : texts.otherTabs(answer.pages));
  }

  /** @type {(registration: ServiceWorkerRegistration) => void} */
  function watch(registration) {
    registration.addEventListener("updatefound", async () => {
      const found = registration.installing;
      if (registration.active && found && await come(found, "installed", "redundant") === "installed") {
        offer(registration);
      }
    });
    offer(registration);
  }

  /* -- Start --------------------------------------------------------------------------------------- */

  /** @type {() => kept.Shown | null} */
  function mount() {
    const list = document.getElementById("kept-here");
    if (list) return new List(list);
    const top = document.querySelector("article .wb-keep-place")
      || document.querySelector("article .wb-hand-over, article .wb-edition, article .wb-summary");
    return top && pattern ? new Box(pattern, top) : null;
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
}(window.walebook = window.walebook || {}));
