// What is kept on this device: every access may throw, and then the page's own memory serves.
// The state is "works", "refused" (nothing is kept) or "full" (the last thing was not kept).
(function (walebook) {
  "use strict";
  const PREFIX = "walebook:";
  const memory = new Map();
  const checks = new Map(); // what is sound under a key
  let state = "works";
  const watchers = [];

  function shelf() {
    try {
      return window.localStorage;
    } catch (refusal) {
      return null;
    }
  }

  function become(next) {
    if (next === state) return;
    state = next;
    watchers.forEach((tell) => tell(state));
  }

  function isFull(fault) {
    return fault && (fault.name === "QuotaExceededError" || fault.name === "NS_ERROR_DOM_QUOTA_REACHED"
      || fault.code === 22);
  }

  function text(key) {
    if (memory.has(key)) return memory.get(key);
    try {
      return shelf().getItem(PREFIX + key);
    } catch (refusal) {
      become("refused");
      return null;
    }
  }

  function parsed(written) {
    try {
      return JSON.parse(written);
    } catch (damage) {
      return null;
    }
  }

  // Returns the value kept under `key`, or null; what cannot be read counts as not there.
  function get(key) {
    const written = text(key);
    return written === null ? null : parsed(written);
  }

  // Keeps `value`; returns false when it is held in memory only, until the page is closed.
  // What is there and is not sound is not written over: it is kept aside first.
  function set(key, value, isSound) {
    if (isSound) checks.set(key, isSound);
    return put(key, JSON.stringify(value));
  }

  function write(key, written) {
    const before = checks.has(key) ? shelf().getItem(PREFIX + key) : null;
    if (before !== null && !checks.get(key)(parsed(before))) setAside(key, before);
    shelf().setItem(PREFIX + key, written);
  }

  function setAside(key, written) {
    let n = 1;
    const name = () => `${PREFIX}aside/${n}/${key}`;
    while (![null, written].includes(shelf().getItem(name()))) n += 1;
    shelf().setItem(name(), written);
  }

  // Keeps aside, as it is, what is under a key and will be written over by choice.
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
      } catch (fault) {
        return false;
      }
    }
    return true;
  }

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

  function remove(key) {
    memory.delete(key);
    try {
      shelf().removeItem(PREFIX + key);
    } catch (refusal) {
      become("refused");
    }
  }

  function keys() {
    const found = new Set(memory.keys());
    try {
      const on = shelf();
      for (let n = 0; n < on.length; n += 1) {
        if (on.key(n).startsWith(PREFIX)) found.add(on.key(n).slice(PREFIX.length));
      }
    } catch (refusal) {
      become("refused");
    }
    return [...found].sort();
  }

  // Tries once, so that the reader is told before she relies on it.
  function probe() {
    try {
      const on = shelf();
      on.setItem(PREFIX + "probe", "1");
      on.removeItem(PREFIX + "probe");
    } catch (fault) {
      become(isFull(fault) ? "full" : "refused");
    }
    return state;
  }

  // Calls `tell(key)` when another tab has changed what is kept under a key.
  function onOtherTab(tell) {
    window.addEventListener("storage", (event) => {
      if (event.key && event.key.startsWith(PREFIX)) tell(event.key.slice(PREFIX.length));
    });
  }

  const SAID = {
    works: "",
    refused: "This browser keeps nothing for this page. Your place is held only while the page "
      + "stays open. Save it to a file before you close it.",
    full: "There is no room left to keep your place. It is held only while the page stays open. "
      + "Save it to a file, or make room on this device.",
  };

  walebook.store = {
    get, set, put, text, keepAside, remove, keys, probe, onOtherTab,
    state: () => state,
    said: () => SAID[state],
    onState: (tell) => watchers.push(tell),
  };
}(window.walebook = window.walebook || {}));
