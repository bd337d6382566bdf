// Brings what a file holds together with what is on this device. Where both have a place, a note
// or settings that differ, the knitter chooses; what she does not choose can be had back.
(function (walebook) {
  "use strict";
  const { store, make, button } = walebook;
  const LOADED = "loaded"; // what was on the device before the last file was loaded
  const SHOWN = 80; // signs of a note that are shown

  const sound = (key) => ({
    place: walebook.bookmark.isPlace, size: walebook.bookmark.isSize,
    remarks: walebook.remarks.isRemarks, settings: walebook.settings.isSettings,
  })[key.split("/")[0]];

  // What is on the device under a key; null where nothing is, or nothing that can be read.
  function mine(key) {
    const kept = store.get(key);
    return kept !== null && sound(key)(kept) ? kept : null;
  }

  function titleOf(key, entries) {
    const [, pattern, size, part] = key.split("/");
    const known = mine(`size/${pattern}/${size}`) || entries[`size/${pattern}/${size}`];
    const title = known ? known.title : `${pattern}, size ${size}`;
    return part ? `${title}: ${partSaid(part)}` : title;
  }

  function partSaid(part) {
    const here = (walebook.bench ? walebook.bench.parts : []).find((each) => each.key === part.split("~")[0]);
    const title = here ? here.title : part.split("~")[0].replace(/^p-/, "").replaceAll("-", " ");
    return part.includes("~") ? `${title}, ${part.split("~")[1]}` : title;
  }

  function placeSaid({ step, rows, when, digests }) {
    const steps = digests.split(" ").length;
    const date = new Date(when).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
    return `${step >= steps ? "all done" : `step ${step + 1} of ${steps}`}${rows
      ? `, ${rows} ${rows === 1 ? "row" : "rows"} of it done` : ""} (${date})`;
  }

  const noteSaid = (text) => `“${text.length > SHOWN ? `${text.slice(0, SHOWN)} …` : text}”`;

  const isSamePlace = (a, b) => ["step", "rows", "version", "digests"].every((name) => a[name] === b[name]);

  // Everything on which file and device differ: {key, step, label, here, file, newer}.
  function differences(entries) {
    const found = [];
    for (const [key, value] of Object.entries(entries)) {
      const kept = mine(key);
      if (kept === null) continue;
      const [kind] = key.split("/");
      if (kind === "place" && !isSamePlace(kept, value)) {
        found.push({ key, label: titleOf(key, entries), here: placeSaid(kept), file: placeSaid(value),
          newer: value.when > kept.when ? "file" : "here" });
      } else if (kind === "remarks") {
        for (const step of Object.keys(value).filter((each) => each in kept && kept[each] !== value[each])) {
          found.push({ key, step, label: `Note on ${step}, ${titleOf(key, entries)}`,
            here: noteSaid(kept[step]), file: noteSaid(value[step]) });
        }
      } else if (kind === "settings" && JSON.stringify(kept) !== JSON.stringify(value)) {
        found.push({ key, label: "Settings", here: "as they are now", file: "as they were saved" });
      }
    }
    return found;
  }

  // What is to be kept: `choices` has, for each difference in its order, "here" or "file".
  function merged(entries, found, choices) {
    const isFile = (key, step) => found.some((each, n) => each.key === key && each.step === step
      && choices[n] === "file");
    const kept = {};
    for (const [key, value] of Object.entries(entries)) {
      const before = mine(key);
      const [kind] = key.split("/");
      const asked = found.some((each) => each.key === key);
      if (before === null) kept[key] = value;
      else if (kind === "remarks") kept[key] = notes(before, value, (step) => isFile(key, step));
      else if (asked ? isFile(key) : kind !== "settings" && value.when > before.when) {
        kept[key] = kind === "place" ? moved(before, value) : value;
      }
    }
    return kept;
  }

  function notes(before, value, isFile) {
    const chosen = Object.entries(value).filter(([step]) => !(step in before) || isFile(step));
    return { ...before, ...Object.fromEntries(chosen) };
  }

  // A place from a file, from which undo leads back to where the knitter was.
  function moved(before, value) {
    if (before.digests !== value.digests || isSamePlace(before, value)) return value;
    return { ...value, when: Date.now(), past: [before.past, `${before.step}.${before.rows}`]
      .filter(Boolean).join(" ") };
  }

  // Asks about every difference; `then(choices)` is called when she has chosen, `not()` when not.
  function ask(found, then, not) {
    let isChosen = false;
    const fields = found.map((each, n) => make("fieldset", { class: "wb-choice" },
      make("legend", {}, each.label), ...choice(each, n, "here", "This device"), ...choice(each, n, "file", "The file")));
    const sheet = walebook.sheet("This device and the file differ", [
      make("p", {}, "Choose what to keep. Nothing is changed before you press Load."), ...fields,
      button("Load", () => {
        isChosen = true;
        sheet.close();
        then(found.map((each, n) => sheet.querySelector(`[name=wb-choice-${n}]:checked`).value));
      }, { class: "wb-main-button" })], { id: "wb-load" });
    sheet.addEventListener("close", () => isChosen || not());
  }

  function choice(each, n, value, whose) {
    const id = `wb-choice-${n}-${value}`;
    const box = make("input", { type: "radio", name: `wb-choice-${n}`, id, value });
    box.checked = value === (each.newer || "here");
    return [make("p", { class: "wb-set" }, box, make("label", { for: id },
      `${whose}: ${each[value]}${each.newer === value ? ", the newer" : ""}`))];
  }

  // Keeps all entries or, where one cannot be kept, none. Returns true when all are kept. What was
  // there before is remembered, so that all can be undone.
  function putBack(entries) {
    const keys = Object.keys(entries);
    const before = keys.map((key) => [key, store.text(key)]);
    const last = store.text(LOADED);
    const kept = keys.every((key) => store.set(key, entries[key], sound(key)))
      && store.set(LOADED, { before, after: keys.map((key) => walebook.steps.digest(store.text(key))) });
    if (!kept) restore([...before, [LOADED, last]]);
    return kept;
  }

  function restore(texts) {
    for (const [key, text] of texts) {
      if (text === null) store.remove(key);
      else store.put(key, text);
    }
  }

  function isLoaded(kept) {
    return Boolean(kept) && Array.isArray(kept.before) && Array.isArray(kept.after)
      && kept.before.length === kept.after.length && kept.before.every((pair) => Array.isArray(pair)
        && typeof pair[0] === "string" && (pair[1] === null || typeof pair[1] === "string"));
  }

  const canUndo = () => isLoaded(store.get(LOADED));

  // Undoes the last loading; what was changed since then stays. Returns what to tell.
  function undo() {
    const { before, after } = store.get(LOADED);
    const same = before.filter(([key], n) => walebook.steps.digest(store.text(key) || "") === after[n]);
    restore(same);
    store.remove(LOADED);
    const stays = before.length - same.length;
    return `The loading is undone.${stays ? ` ${stays} ${stays === 1 ? "entry was" : "entries were"} `
      + `changed since then and ${stays === 1 ? "stays" : "stay"}.` : ""}`;
  }

  walebook.merge = { differences, merged, ask, putBack, undo, canUndo, sound };
}(window.walebook = window.walebook || {}));
