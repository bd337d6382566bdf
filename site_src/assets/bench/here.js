// Marks on the page of a size where the knitter stands: in the order of work and in the card that
// goes on. A piece fills as far as it is knitted, with a red line at the row. Nothing before a
// first part is begun, and nothing on paper.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.here;
  if (!walebook.pieces) return;
  const { make, bookmark, place, counter, drawn } = walebook;
  const { edition, parts, names, find, named, shortOf } = walebook.pieces;

  // The place that is kept of a part and that it has; null where it is not begun, or cannot be read.
  /** @type {(name: string) => wb.Place | null} */
  function kept(name) {
    const { kept: found } = bookmark.look(edition, named(name), name);
    return found ? place.within(named(name), found) : null;
  }

  /** @type {(part: wb.Part, at: wb.Place) => string} */
  const farOf = (part, at) => (place.isDone(part, at) ? texts.done : texts.youAre(at.step + 1));
  /** @type {(text: string) => string} */
  const lower = (text) => text.charAt(0).toLowerCase() + text.slice(1);

  // How far a part is, each of its copies that is begun.
  /** @type {(begun: { name: string, part: wb.Part, at: wb.Place }[]) => string} */
  const farText = (begun) => begun.map(({ name, part, at }) => (part.times > 1
    ? texts.ofCopy(shortOf(name), lower(farOf(part, at))) : farOf(part, at))).join(" ");

  // The part's outline in a drawing of it, filled up to where it is knitted.
  /** @type {(svg: Element | null, part: wb.Part, at: wb.Place, where: string) => void} */
  function fill(svg, part, at, where) {
    const lines = svg && drawn.filled(part.key, where, ...counter.inPiece(part, at));
    if (!svg || !lines) return;
    svg.prepend(...lines.below);
    svg.append(...lines.above);
  }

  // The copy of a part that is drawn: the one that was begun last and is not done.
  /** @type {(begun: { name: string, part: wb.Part, at: wb.Place }[]) => { part: wb.Part, at: wb.Place }} */
  const shown = (begun) => begun.find(({ part, at }) => !place.isDone(part, at)) || begun[0];

  /** @type {(item: Element, of: wb.Part[]) => void} */
  function mark(item, of) {
    const begun = of.flatMap((part) => names().filter((name) => find(name) === part)
      .flatMap((name) => {
        const at = kept(name);
        return at ? [{ name, part, at }] : [];
      }));
    if (!begun.length) return;
    const { part, at } = shown(begun);
    const isDone = place.isDone(part, at) && begun.length === part.times;
    item.classList.add(isDone ? "wb-is-done" : "wb-is-begun");
    fill(item.querySelector("svg"), part, at, "order");
    const words = item.querySelector("div");
    if (words) words.append(make("p", { class: "wb-order-place" }, farText(begun)));
  }

  /** @type {wb.Here["show"]} */
  function show() {
    document.querySelectorAll(".wb-order .wb-order-place, .wb-here").forEach((old) => old.remove());
    for (const item of document.querySelectorAll(".wb-order > li")) {
      item.classList.remove("wb-is-done", "wb-is-begun");
      const link = item.querySelector("a");
      const goal = link ? (link.getAttribute("href") || "").slice(1) : "";
      mark(item, parts.filter(({ heading }) => heading && `${heading.id}-steps` === goal));
    }
  }

  // The drawing in the card that goes on, and what counter and carriage show there.
  /** @type {wb.Here["card"]} */
  function card(within, name) {
    const [part, at, svg] = [named(name), kept(name), within.querySelector("svg")];
    const outline = document.getElementById(`o-${part.key}`);
    const whole = outline && outline.closest("svg");
    if (svg && whole) {
      for (const each of ["viewBox", "width", "height"]) svg.setAttribute(each, whole.getAttribute(each) || "");
    }
    if (!at) return "";
    fill(svg, part, at, "card");
    return part.hasCounter && !place.isDone(part, at)
      ? texts.machine(place.counter(part, at), place.side(part, at)) : "";
  }

  walebook.here = { show, card };
}(window.walebook = window.walebook || {}));
