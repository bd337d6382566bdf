// What is kept on this device: every access may throw, and then the page's own memory serves.
// The state is "works", "refused" (nothing is kept) or "full" (the last thing was not kept).
(function (walebook) {
  "use strict";
  const texts = TEXTS.store;
  const PREFIX = "walebook:";
  /** @type {Map<string, string>} */
  const memory = new Map();
  // What is sound under a key.
  /** @type {Map<string, wb.Sound>} */
  const checks = new Map();
  /** @type {wb.State} */
  let state = "works";
  /** @type {((state: wb.State) => void)[]} */
  const watchers = [];

  const shelf = () => window.localStorage;

  /** @type {(next: wb.State) => void} */
  function become(next) {
    if (next === state) return;
    state = next;
    watchers.forEach((watcher) => watcher(state));
  }

  /** @type {(fault: unknown) => boolean} */
  function isFull(fault) {
    return fault instanceof DOMException && (fault.name === "QuotaExceededError"
      || fault.name === "NS_ERROR_DOM_QUOTA_REACHED" || fault.code === 22);
  }

  /** @type {wb.Store["text"]} */
  function text(key) {
    const held = memory.get(key);
    if (held !== undefined) return held;
    try {
      return shelf().getItem(PREFIX + key);
    } catch {
      become("refused");
      return null;
    }
  }

  /** @type {(written: string) => unknown} */
  function parsed(written) {
    try {
      return JSON.parse(written);
    } catch {
      return null;
    }
  }

  // Returns the value kept under `key`, or null; what cannot be read counts as not there.
  /** @type {wb.Store["get"]} */
  function get(key) {
    const written = text(key);
    return written === null ? null : parsed(written);
  }

  // Keeps `value`; returns false when it is held in memory only, until the page is closed.
  // What is stored and is not sound is not written over: it is kept aside first.
  /** @type {wb.Store["set"]} */
  function set(key, value, isSound) {
    if (isSound) checks.set(key, isSound);
    return put(key, JSON.stringify(value));
  }

  /** @type {(key: string, written: string) => void} */
  function write(key, written) {
    const isSound = checks.get(key);
    const before = isSound ? shelf().getItem(PREFIX + key) : null;
    if (isSound && before !== null && !isSound(parsed(before))) setAside(key, before);
    shelf().setItem(PREFIX + key, written);
  }

  /** @type {(key: string, written: string) => void} */
  function setAside(key, written) {
    let n = 1;
    const name = () => `${PREFIX}aside/${n}/${key}`;
    /** @type {(there: string | null) => boolean} */
    const isTaken = (there) => there !== null && there !== written;
    while (isTaken(shelf().getItem(name()))) n += 1;
    shelf().setItem(name(), written);
  }

  // Keeps aside, as it is, what is under a key and will be written over by choice.
  /** @type {wb.Store["keepAside"]} */
  function keepAside(key) {
    const written = text(key);
    try {
      if (written !== null) setAside(key, written);
    } catch (fault) {
      become(isFull(fault) ? "full" : "refused");
    }
  }

  // Writes what could not be written before; true when nothing is left in memory only.
  function flush() {
    for (const [key, written] of [...memory]) {
      try {
        write(key, written);
        memory.delete(key);
      } catch {
        return false;
      }
    }
    return true;
  }

  /** @type {wb.Store["put"]} */
  function put(key, written) {
    try {
      write(key, written);
      memory.delete(key);
      if (flush()) become("works");
      return true;
    } catch (fault) {
      memory.set(key, written);
      become(isFull(fault) ? "full" : "refused");
      return false;
    }
  }

  /** @type {wb.Store["remove"]} */
  function remove(key) {
    memory.delete(key);
    try {
      shelf().removeItem(PREFIX + key);
    } catch {
      become("refused");
    }
  }

  /** @type {wb.Store["keys"]} */
  function keys() {
    const found = new Set(memory.keys());
    try {
      const on = shelf();
      for (let n = 0; n < on.length; n += 1) {
        const name = on.key(n);
        if (name && name.startsWith(PREFIX)) found.add(name.slice(PREFIX.length));
      }
    } catch {
      become("refused");
    }
    return [...found].sort();
  }

  // Tries once, so that the reader learns of it before she relies on it.
  /** @type {wb.Store["probe"]} */
  function probe() {
    try {
      const on = shelf();
      on.setItem(`${PREFIX  }probe`, "1");
      on.removeItem(`${PREFIX  }probe`);
    } catch (fault) {
      become(isFull(fault) ? "full" : "refused");
    }
    return state;
  }

  // Calls `tell(key)` when another tab has changed what is kept under a key.
  /** @type {wb.Store["onOtherTab"]} */
  function onOtherTab(watcher) {
    window.addEventListener("storage", (event) => {
      if (event.key && event.key.startsWith(PREFIX)) watcher(event.key.slice(PREFIX.length));
    });
  }

  const STATE_TEXTS = {
    works: "",
    refused: texts.thisBrowserKeeps,
    full: texts.thereIsNo,
  };

  walebook.store = {
    get, set, put, text, keepAside, remove, keys, probe, onOtherTab,
    state: () => state,
    stateText: () => STATE_TEXTS[state],
    onState: (watcher) => { watchers.push(watcher); },
  };
}(window.walebook = window.walebook || {}));
