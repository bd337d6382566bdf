// Brings what a file holds together with what is on this device. Where both have a place, a note
// or settings that differ, the knitter chooses; what she does not choose can be had back.
(function (walebook) {
  "use strict";
  const texts = TEXTS.merge;
  const { store, make, button, bookmark, isRecord } = walebook;
  const LOADED = "loaded"; // what was on the device before the last file was loaded
  const SHOWN = 80; // signs of a note that are shown

  /** @type {(key: string) => string} */
  const kindOf = (key) => key.split("/")[0];

  /** @type {Record<string, wb.Sound>} */
  const SOUND = {
    place: bookmark.isPlace, size: bookmark.isSize,
    remarks: walebook.remarks.isRemarks, settings: walebook.settings.isSettings,
    gauge: walebook.myPage.isFigures, typed: walebook.myPage.isTyped,
  };

  /** @type {wb.Merge["sound"]} */
  const sound = (key) => SOUND[kindOf(key)];

  // What is on the device under a key; null where nothing is, or nothing that can be read.
  /** @type {(key: string) => unknown} */
  function mine(key) {
    const kept = store.get(key);
    return kept !== null && sound(key)(kept) ? kept : null;
  }

  /** @type {(key: string, entries: wb.Entries) => string} */
  function titleOf(key, entries) {
    const [, pattern, size, part] = key.split("/");
    const sizeKey = `size/${pattern}/${size}`;
    const known = [mine(sizeKey), entries[sizeKey]].find(bookmark.isSize);
    const title = known ? known.title : texts.size(pattern, size);
    return part ? `${title}: ${partText(part)}` : title;
  }

  /** @type {(part: string) => string} */
  function partText(part) {
    const here = (walebook.bench ? walebook.bench.parts : []).find((each) => each.key === part.split("~")[0]);
    const title = here ? here.title : part.split("~")[0].replace(/^p-/, "").replaceAll("-", " ");
    return part.includes("~") ? `${title}, ${part.split("~")[1]}` : title;
  }

  /** @type {(place: wb.StoredPlace) => string} */
  function placeText({ step, rows, when, digests }) {
    const steps = digests.split(" ").length;
    const date = new Date(when).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
    return `${step >= steps ? texts.allDone : texts.stepOf(step + 1, steps)}${rows
      ? texts.ofItDone(rows, rows === 1 ? "row" : "rows") : ""} (${date})`;
  }

  /** @type {(text: string) => string} */
  const noteText = (text) => `“${text.length > SHOWN ? `${text.slice(0, SHOWN)} …` : text}”`;

  /** @type {(a: wb.StoredPlace, b: wb.StoredPlace) => boolean} */
  const isSamePlace = (a, b) => a.step === b.step && a.rows === b.rows
    && a.version === b.version && a.digests === b.digests;

  /** @type {(key: string, kept: unknown, value: unknown, entries: wb.Entries) => wb.Differing[]} */
  function placesDiffer(key, kept, value, entries) {
    if (!bookmark.isPlace(kept) || !bookmark.isPlace(value) || isSamePlace(kept, value)) return [];
    return [{ key, label: titleOf(key, entries), here: placeText(kept), file: placeText(value),
      newer: value.when > kept.when ? "file" : "here" }];
  }

  /** @type {(key: string, kept: unknown, value: unknown, entries: wb.Entries) => wb.Differing[]} */
  function notesDiffer(key, kept, value, entries) {
    const { isRemarks } = walebook.remarks;
    if (!isRemarks(kept) || !isRemarks(value)) return [];
    return Object.keys(value).filter((step) => step in kept && kept[step] !== value[step]).map((step) => (
      { key, step, label: texts.noteOn(step, titleOf(key, entries)),
        here: noteText(kept[step]), file: noteText(value[step]) }));
  }

  /** @type {(key: string, kept: unknown, value: unknown) => wb.Differing[]} */
  function settingsDiffer(key, kept, value) {
    return JSON.stringify(kept) === JSON.stringify(value) ? []
      : [{ key, label: texts.settings, here: texts.asTheyAre, file: texts.asTheyWere }];
  }

  // Everything on which file and device differ: {key, step, label, here, file, newer}.
  /** @type {wb.Merge["differences"]} */
  function differences(entries) {
    return Object.entries(entries).flatMap(([key, value]) => {
      const kept = mine(key);
      if (kept === null) return [];
      if (kindOf(key) === "place") return placesDiffer(key, kept, value, entries);
      if (kindOf(key) === "remarks") return notesDiffer(key, kept, value, entries);
      return kindOf(key) === "settings" ? settingsDiffer(key, kept, value) : [];
    });
  }

  // What is to be kept: `choices` has, for each difference in its order, "here" or "file".
  /** @type {wb.Merge["merged"]} */
  function merged(entries, found, choices) {
    /** @type {(key: string, step?: string) => boolean} */
    const isFile = (key, step) => found.some((each, n) => each.key === key && each.step === step
      && choices[n] === "file");
    /** @type {wb.Entries} */
    const kept = {};
    for (const [key, value] of Object.entries(entries)) {
      const before = mine(key);
      const isChosen = found.some((each) => each.key === key);
      if (before === null) kept[key] = value;
      else if (kindOf(key) === "remarks") kept[key] = notes(before, value, (step) => isFile(key, step));
      else if (isChosen ? isFile(key) : isNewer(value, before)) kept[key] = moved(before, value);
    }
    return kept;
  }

  // Settings have no date: they are never taken unasked.
  /** @type {(value: unknown, before: unknown) => boolean} */
  function isNewer(value, before) {
    return isRecord(value) && isRecord(before) && Number(value.when) > Number(before.when);
  }

  /** @type {(before: unknown, value: unknown, isFile: (step: string) => boolean) => unknown} */
  function notes(before, value, isFile) {
    if (!isRecord(before) || !isRecord(value)) return before;
    const chosen = Object.entries(value).filter(([step]) => !(step in before) || isFile(step));
    return { ...before, ...Object.fromEntries(chosen) };
  }

  // A place from a file, from which undo leads back to where the knitter was.
  /** @type {(before: unknown, value: unknown) => unknown} */
  function moved(before, value) {
    if (!bookmark.isPlace(before) || !bookmark.isPlace(value)) return value;
    if (before.digests !== value.digests || isSamePlace(before, value)) return value;
    return { ...value, when: Date.now(), past: [before.past, `${before.step}.${before.rows}`]
      .filter(Boolean).join(" ") };
  }

  // Asks about every difference; `then(choices)` is called when she has chosen, `not()` when not.
  /** @type {wb.Merge["ask"]} */
  function ask(found, then, not) {
    let isChosen = false;
    const fields = found.map((each, n) => make("fieldset", { class: "wb-choice" },
      make("legend", {}, each.label), ...choice(each, n, "here", texts.thisDevice), ...choice(each, n, "file", texts.theFile)));
    const sheet = walebook.sheet(texts.thisDeviceAnd, [
      make("p", {}, texts.chooseWhatTo), ...fields,
      button(texts.load, () => {
        isChosen = true;
        sheet.close();
        then(found.map((_, n) => (sheet.querySelector(`#wb-choice-${n}-file:checked`) ? "file" : "here")));
      }, { class: "wb-main-button" })], { id: "wb-load" });
    sheet.addEventListener("close", () => { if (!isChosen) not(); });
  }

  /** @type {(each: wb.Differing, n: number, value: wb.Whose, whose: string) => HTMLElement[]} */
  function choice(each, n, value, whose) {
    const id = `wb-choice-${n}-${value}`;
    const box = make("input", { type: "radio", name: `wb-choice-${n}`, id, value });
    box.checked = value === (each.newer || "here");
    return [make("p", { class: "wb-set" }, box, make("label", { for: id },
      `${whose}: ${each[value]}${each.newer === value ? texts.theNewer : ""}`))];
  }

  // Keeps all entries or, where one cannot be kept, none. Returns true when all are kept. What was
  // there before is remembered, so that all can be undone.
  /** @type {wb.Merge["putBack"]} */
  function putBack(entries) {
    const keys = Object.keys(entries);
    /** @type {wb.Texts} */
    const before = keys.map((key) => [key, store.text(key)]);
    const last = store.text(LOADED);
    const kept = keys.every((key) => store.set(key, entries[key], sound(key)))
      && store.set(LOADED, { before, after: keys.map((key) => digestOf(key)) });
    if (!kept) restore([...before, [LOADED, last]]);
    return kept;
  }

  // Tells whether what is under a key is as it was left.
  /** @type {(key: string) => string} */
  const digestOf = (key) => walebook.steps.digest(store.text(key) || "");

  /** @type {(entries: wb.Texts) => void} */
  function restore(entries) {
    for (const [key, text] of entries) {
      if (text === null) store.remove(key);
      else store.put(key, text);
    }
  }

  /** @type {(kept: unknown) => kept is wb.Loaded} */
  function isLoaded(kept) {
    return isRecord(kept) && Array.isArray(kept.before) && Array.isArray(kept.after)
      && kept.before.length === kept.after.length && kept.before.every((pair) => Array.isArray(pair)
        && typeof pair[0] === "string" && (pair[1] === null || typeof pair[1] === "string"));
  }

  const canUndo = () => isLoaded(store.get(LOADED));

  // Undoes the last loading; what was changed since then stays. Returns what to tell.
  /** @type {wb.Merge["undo"]} */
  function undo() {
    const loaded = store.get(LOADED);
    if (!isLoaded(loaded)) return "";
    const { before, after } = loaded;
    const same = before.filter(([key], n) => digestOf(key) === after[n]);
    restore(same);
    store.remove(LOADED);
    const stays = before.length - same.length;
    return texts.theLoadingIs(stays ? texts.changedSinceThen(stays, stays === 1 ? texts.entryWas : texts.entriesWere, stays === 1 ? "stays" : "stay") : "");
  }

  walebook.merge = { differences, merged, ask, putBack, undo, canUndo, sound };
}(window.walebook = window.walebook || {}));
