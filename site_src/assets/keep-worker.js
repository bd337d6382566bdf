/* Registers the worker of the site, and asks it. Where there can be none, the reason is thrown as
   a text for the reader. */
(function (walebook) {
  "use strict";
  const texts = TEXTS.keepWorker;
  const script = document.currentScript;
  if (!(script instanceof HTMLScriptElement)) return;
  const ROOT = new URL("../", script.src);

  const WHY_NOT = {
    disk: texts.thisSiteWas,
    insecure: texts.thisAddressDoes,
    absent: texts.thisBrowserSaves,
    none: texts.thisCopyOf,
    preview: texts.thisIsA,
  };

  /** @type {kept.Ask} */
  function ask(worker, what, name) {
    return new Promise((answer, fail) => {
      if (!worker) {
        fail(new TypeError("no worker to ask"));
        return;
      }
      const channel = new MessageChannel();
      channel.port1.onmessage = (event) => answer(event.data);
      worker.postMessage({ ask: what, name }, [channel.port2]);
    });
  }

  // Resolves once the worker has come to one of the states.
  /** @type {(worker: ServiceWorker, ...states: ServiceWorkerState[]) => Promise<ServiceWorkerState>} */
  const come = (worker, ...states) => new Promise((done) => {
    const look = () => { if (states.includes(worker.state)) done(worker.state); };
    worker.addEventListener("statechange", look);
    look();
  });

  /** @type {() => Promise<ServiceWorkerRegistration>} */
  async function register() {
    if (location.protocol === "file:") throw WHY_NOT.disk;
    if (document.querySelector("meta[name=walebook-preview]")) throw WHY_NOT.preview;
    if (!window.isSecureContext) throw WHY_NOT.insecure;
    if (!navigator.serviceWorker || !window.caches) throw WHY_NOT.absent;
    const registration = await navigator.serviceWorker
      .register(new URL("sw.js", ROOT), { scope: ROOT.pathname })
      .catch((fault) => { throw fault.name === "SecurityError" ? WHY_NOT.absent : WHY_NOT.none; });
    const coming = registration.installing || registration.waiting;
    if (!registration.active && coming) await come(coming, "activated", "redundant");
    if (!registration.active) throw WHY_NOT.none;
    return registration;
  }

  /** @type {(html: string) => Document} */
  const parsed = (html) => new DOMParser().parseFromString(html, "text/html");

  /* What became of a page that she saved and the site has no more: what the site says in its place, where
     there is a signal, and that the page stays. Nothing for a page that the site has. */
  /** @type {kept.Worker["goneText"]} */
  async function goneText(registration, place) {
    const answer = await ask(registration.active, "instead", place);
    if (answer.refused || !answer.aside) return "";
    const former = parsed(answer.html).querySelector(".wb-former");
    return `${former ? former.textContent : ""} ${texts.theSiteNo}`.trim();
  }

  /* The heading of a page that is saved. */
  /** @type {kept.Worker["headingOf"]} */
  async function headingOf(path) {
    const held = await caches.match(new URL(path, ROOT));
    const facts = held && parsed(await held.text()).getElementById("wb-facts");
    return facts ? JSON.parse(facts.textContent || "").heading : path;
  }

  walebook.worker = { ROOT, ask, come, register, goneText, headingOf };
}(window.walebook = window.walebook || {}));
