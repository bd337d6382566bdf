// Saves everything that is kept to a file and reads it back, on this or another device.
// A file that is damaged, foreign or of a later kind is refused and changes nothing.
(function (walebook) {
  "use strict";
  const texts = TEXTS.carry;
  const { store, merge, isRecord } = walebook;
  const KIND = "walebook-kept";
  const EDITION = 1;
  const MOST = 4000000; // characters of a file that is read at all
  const KEY = /^(?:place\/[a-z0-9_-]+\/[a-z0-9._-]+\/[a-z0-9~_-]+|(?:size|remarks|gauge|typed)\/[a-z0-9_-]+\/[a-z0-9._-]+|settings)$/;

  /** @type {(entries: wb.Entries) => string} */
  const digestOf = (entries) => walebook.steps.digest(JSON.stringify(Object.entries(entries).sort(
    ([a], [b]) => (a < b ? -1 : 1))));

  /** @type {(key: string, value: unknown) => boolean} */
  const isSound = (key, value) => merge.sound(key)(value);

  // Returns the text of the file. What was kept aside goes with it, as it is.
  /** @type {wb.Carry["pack"]} */
  function pack() {
    /** @type {wb.Entries} */
    const entries = {};
    /** @type {Record<string, string | null>} */
    const aside = {};
    for (const key of store.keys()) {
      if (key.startsWith("aside/")) aside[key] = store.text(key);
      const value = KEY.test(key) ? store.get(key) : null;
      if (value !== null && isSound(key, value)) entries[key] = value;
    }
    return `${JSON.stringify({ kind: KIND, edition: EDITION, digest: digestOf(entries), entries, aside },
      null, 1)}\n`;
  }

  // Returns {entries}, or {fault}: what is the matter with a file, in plain words.
  /** @type {wb.Carry["unpack"]} */
  function unpack(text) {
    if (text.length > MOST) return { fault: texts.itIsToo };
    /** @type {unknown} */
    let read;
    try {
      read = JSON.parse(text);
    } catch {
      return { fault: texts.itIsDamaged };
    }
    const entries = isRecord(read) && read.kind === KIND ? read.entries : null;
    if (!isRecord(read) || !isRecord(entries)) return { fault: texts.itIsNo };
    if (read.edition !== EDITION) return { fault: texts.itWasSaved };
    if (read.digest !== digestOf(entries)) return { fault: texts.itIsDamagedOr };
    const bad = Object.entries(entries).some(([key, value]) => !KEY.test(key) || !isSound(key, value));
    return bad ? { fault: texts.itHoldsSomething } : { entries };
  }

  /** @type {(notify: wb.Notify) => void} */
  function save(notify) {
    const { make } = walebook;
    const address = URL.createObjectURL(new Blob([pack()], { type: "application/json" }));
    const link = make("a", { href: address, download: "my-knitting.json", hidden: true });
    document.body.append(link);
    link.click();
    link.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), 10000);
    notify(texts.savedAsMy);
  }

  /** @type {(file: File, notify: wb.Notify, done: () => void) => void} */
  function load(file, notify, done) {
    if (file.size > MOST) {
      notify(texts.refusedItIs);
      return;
    }
    const reader = new FileReader();
    reader.onerror = () => notify(texts.theFileCould);
    reader.onload = () => take(String(reader.result), notify, done);
    reader.readAsText(file);
  }

  /** @type {(text: string, notify: wb.Notify, done: () => void) => void} */
  function take(text, notify, done) {
    const { entries, fault } = unpack(text);
    if (!entries) {
      notify(texts.refusedNothingWas(fault));
      return;
    }
    const found = merge.differences(entries);
    /** @type {(choices: wb.Whose[]) => void} */
    const finish = (choices) => put(merge.merged(entries, found, choices), notify, done);
    if (found.length) merge.ask(found, finish, () => notify(texts.nothingWasChanged));
    else finish([]);
  }

  /** @type {(entries: wb.Entries, notify: wb.Notify, done: () => void) => void} */
  function put(entries, notify, done) {
    if (!merge.putBack(entries)) {
      notify(texts.thereWasNo);
      return;
    }
    const places = Object.keys(entries).filter((key) => key.startsWith("place/")).length;
    notify(texts.loadedWithNotes(places, places === 1 ? "place" : "places"));
    done();
  }

  /** @type {() => string} */
  function asideText() {
    const count = store.keys().filter((key) => key.startsWith("aside/")).length;
    return count ? texts.keptAsideStored(count, count === 1 ? "entry" : "entries") : "";
  }

  // The controls and the line on which they say what came of it.
  /** @type {wb.Carry["controls"]} */
  function controls(done) {
    const { make, button } = walebook;
    const line = make("p", { role: "status" });
    /** @type {wb.Notify} */
    const notify = (text) => { line.textContent = text; };
    const after = () => {
      undo.hidden = !merge.canUndo();
      done();
    };
    const undo = button(texts.undoLoading, () => {
      notify(merge.undo());
      after();
    });
    undo.hidden = !merge.canUndo();
    const field = make("input", { type: "file", id: "wb-carry", accept: ".json,application/json" });
    field.addEventListener("change", () => {
      if (field.files && field.files.length) load(field.files[0], notify, after);
      field.value = "";
    });
    const aside = asideText();
    return make("fieldset", { class: "wb-carry" }, make("legend", {}, texts.savedOnThis),
      make("p", {}, texts.placesNotesAnd), aside ? make("p", {}, aside) : "",
      button(texts.saveAllTo, () => save(notify)),
      make("label", { for: "wb-carry" }, texts.loadFromFile), field, undo, line);
  }

  walebook.carry = { pack, unpack, controls };
}(window.walebook = window.walebook || {}));
