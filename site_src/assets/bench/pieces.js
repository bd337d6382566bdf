// The parts of this page, and the pieces of a part that is knitted more than once: the first goes
// by the part's key, the second by "key~2", and so on.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.pieces;
  const { bookmark, place, settings } = walebook;
  const COPIES = ["", "first", "second", "third", "fourth"];
  const edition = walebook.steps.edition(document);
  if (edition) bookmark.takeOver(edition);
  const isIncomplete = document.documentElement.classList.contains("wb-incomplete");
  const parts = edition && !isIncomplete
    ? walebook.steps.read(document).filter((part) => part.steps.length) : [];

  /** @type {(name: string) => number} */
  const copyOf = (name) => Number(name.split("~")[1] || 1);

  /** @type {wb.Pieces["find"]} */
  function find(name) {
    const [key] = name.split("~");
    const part = parts.find((each) => each.key === key);
    return part && copyOf(name) <= part.times ? part : null;
  }

  /** @type {wb.Pieces["named"]} */
  function named(name) {
    const part = find(name);
    if (!part) throw new Error(`no part ${name} on this page`);
    return part;
  }

  /** @type {wb.Pieces["titleOf"]} */
  function titleOf(name) {
    const part = named(name);
    return part.times > 1 ? `${part.title}, ${COPIES[copyOf(name)] || name}` : part.title;
  }

  function names() {
    return parts.flatMap((part) => Array.from({ length: part.times },
      (_, n) => (n ? `${part.key}~${n + 1}` : part.key)));
  }

  /** @type {(key: string) => string} */
  const opposite = (key) => key.replace(/\b(left|right)\b/, (side) => (side === "left" ? "right" : "left"));

  // The parts that are knitted side by side with this one: copies of it, or left and right.
  /** @type {wb.Pieces["together"]} */
  function together(name) {
    const part = named(name);
    if (part.times > 1) return names().filter((each) => find(each) === part);
    const other = opposite(part.key);
    return other !== part.key && find(other) ? [name, other].sort().reverse() : [name];
  }

  // How the names of such a pair differ: "First", "Right".
  /** @type {wb.Pieces["shortOf"]} */
  function shortOf(name) {
    const part = named(name);
    const [side] = /\b(left|right)\b/.exec(part.key) || [name];
    const sideText = part.times > 1 ? COPIES[copyOf(name)] || name : side;
    return sideText.charAt(0).toUpperCase() + sideText.slice(1);
  }

  /** @type {(of: wb.Edition) => wb.Pieces} */
  const all = (of) => ({
    edition: of, parts, find, named, titleOf, names, together, shortOf,
    // True where the designer means these parts to be knitted side by side.
    isMarked: (name) => of.pairs.flat().includes(named(name).key),
    farText(name) {
      const { kept, damage } = bookmark.look(of, named(name), name);
      const { length } = named(name).steps;
      if (damage) return texts.itsPlaceCannot;
      if (!kept) return texts.notBegun;
      return kept.step >= length ? "done" : texts.stepOf(kept.step + 1, length);
    },
    mode: () => (settings.get("count") === "rows" ? place.ROWS : place.STEPS),
  });

  walebook.pieces = edition && !isIncomplete ? all(edition) : null;
}(window.walebook = window.walebook || {}));
