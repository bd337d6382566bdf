// Saves everything that is kept to a file and reads it back, on this or another device.
// A file that is damaged, foreign or of a later kind is refused and changes nothing.
(function (walebook) {
  "use strict";
  const { store } = walebook;
  const KIND = "walebook-kept";
  const EDITION = 1;
  const MOST = 4000000; // characters of a file that is read at all
  const KEY = /^(?:place\/[a-z0-9_-]+\/[a-z0-9._-]+\/[a-z0-9~_-]+|(?:size|remarks)\/[a-z0-9_-]+\/[a-z0-9._-]+|settings)$/;

  const digestOf = (entries) => walebook.steps.digest(JSON.stringify(Object.entries(entries).sort(
    ([a], [b]) => (a < b ? -1 : 1))));

  const isSound = (key, value) => ({
    place: walebook.bookmark.isPlace, size: walebook.bookmark.isSize,
    remarks: walebook.remarks.isRemarks, settings: walebook.settings.isSettings,
  })[key.split("/")[0]](value);

  // Returns the text of the file.
  function pack() {
    const entries = {};
    for (const key of store.keys()) {
      const value = KEY.test(key) ? store.get(key) : null;
      if (value !== null && isSound(key, value)) entries[key] = value;
    }
    return `${JSON.stringify({ kind: KIND, edition: EDITION, digest: digestOf(entries), entries },
      null, 1)}\n`;
  }

  // Returns {entries}, or {fault}: what is the matter with a file, in plain words.
  function unpack(text) {
    if (text.length > MOST) return { fault: "It is too large to be a file saved here." };
    let read;
    try {
      read = JSON.parse(text);
    } catch (damage) {
      return { fault: "It is damaged, or no file that was saved here." };
    }
    if (!read || read.kind !== KIND || typeof read.entries !== "object" || !read.entries) {
      return { fault: "It is no file that was saved here." };
    }
    if (read.edition !== EDITION) return { fault: "It was saved by a later edition of this page." };
    if (read.digest !== digestOf(read.entries)) return { fault: "It is damaged or was changed." };
    const bad = Object.entries(read.entries).some(([key, value]) => !KEY.test(key) || !isSound(key, value));
    return bad ? { fault: "It holds something that this page cannot read." } : { entries: read.entries };
  }

  // Keeps all entries or, where one cannot be kept, none. Returns true when all are kept.
  function putBack(entries) {
    const before = Object.keys(entries).map((key) => [key, store.text(key)]);
    const kept = Object.entries(entries).every(([key, value]) => store.set(key, value));
    if (!kept) {
      for (const [key, text] of before) {
        if (text === null) store.remove(key);
        else store.put(key, text);
      }
    }
    return kept;
  }

  function save(tell) {
    const { make } = walebook;
    const address = URL.createObjectURL(new Blob([pack()], { type: "application/json" }));
    const link = make("a", { href: address, download: "my-knitting.json", hidden: true });
    document.body.append(link);
    link.click();
    link.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), 10000);
    tell("Saved as my-knitting.json, where this browser puts its downloads.");
  }

  function load(file, tell, done) {
    if (file.size > MOST) {
      tell("Refused: it is too large to be a file saved here. Nothing was changed.");
      return;
    }
    const reader = new FileReader();
    reader.onerror = () => tell("The file could not be read. Nothing was changed.");
    reader.onload = () => take(String(reader.result), tell, done);
    reader.readAsText(file);
  }

  function take(text, tell, done) {
    const { entries, fault } = unpack(text);
    if (fault) {
      tell(`Refused. ${fault} Nothing was changed.`);
    } else if (!putBack(entries)) {
      tell("There was no room for all of it. Nothing was changed.");
    } else {
      const places = Object.keys(entries).filter((key) => key.startsWith("place/")).length;
      tell(`Read back: ${places} ${places === 1 ? "place" : "places"}, with remarks and settings.`);
      done();
    }
  }

  // Two controls and the line on which they say what came of it.
  function controls(done) {
    const { make, button } = walebook;
    const line = make("p", { role: "status" });
    const tell = (text) => { line.textContent = text; };
    const field = make("input", { type: "file", id: "wb-carry", accept: ".json,application/json" });
    field.addEventListener("change", () => {
      if (field.files.length) load(field.files[0], tell, done);
      field.value = "";
    });
    return make("fieldset", { class: "wb-carry" }, make("legend", {}, "What is kept on this device"),
      make("p", {}, "Places, remarks and settings. Save them to a file to have them on another "
        + "phone, or in case this browser forgets."),
      button("Save all to a file", () => save(tell)),
      make("label", { for: "wb-carry" }, "Read a file back"), field, line);
  }

  walebook.carry = { pack, unpack, putBack, controls };
}(window.walebook = window.walebook || {}));
