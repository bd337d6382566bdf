// What the page itself offers: to knit from it, and to go on with each of its parts.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.offer;
  if (!walebook.pieces) return;
  const { make, button, bookmark } = walebook;
  const { edition, find, named, names, titleOf, farText } = walebook.pieces;

  /** @type {wb.Offer["show"]} */
  function show(open) {
    document.querySelectorAll(".wb-offer").forEach((old) => old.remove());
    walebook.here.show();
    const card = document.querySelector(".wb-go");
    const size = bookmark.sizeOf(edition);
    const name = size && find(size.part) ? size.part : names()[0];
    const label = bookmark.placeOf(edition, name) ? texts.goOn(titleOf(name), farText(name))
      : texts.startKnitting(titleOf(name));
    if (card) goOn(card, name, button(label, () => open(name), { class: "wb-main-button" }));
    names().forEach((each) => offer(each, open));
  }

  // The card at the page's head: the part's outline, where it stands, and what goes on with it.
  /** @type {(card: Element, name: string, press: HTMLElement) => void} */
  function goOn(card, name, press) {
    const outline = card.querySelector("use");
    if (outline) outline.setAttribute("href", `#o-${named(name).key}`);
    const line = card.querySelector("p");
    const machine = walebook.here.card(card, name);
    if (line) line.replaceChildren(make("b", {}, titleOf(name)), ` ${farText(name)}`, ...(machine ? [make("br", {}), machine] : []));
    const begin = card.querySelector(".wb-main-button");
    if (begin) begin.replaceWith(press);
  }

  // Under the part's heading, below what is offered there already.
  /** @type {(name: string, open: (name: string) => void) => void} */
  function offer(name, open) {
    const { heading, key } = named(name);
    const inside = heading && document.getElementById(`${heading.id}-steps`);
    if (!inside) return;
    const offers = document.querySelectorAll(`[data-wb-offers="${CSS.escape(key)}"]`);
    const [far, isNamed] = [farText(name), (heading.textContent || "").includes(titleOf(name))];
    const press = button(texts.stepByStep(far === "not begun" ? "" : ` (${far})`), () => open(name));
    press.append(make("span", { class: isNamed && "wb-unseen" }, `: ${titleOf(name)}`));
    const made = make("p", { class: "wb-offer", "data-wb-offers": key }, press);
    if (offers.length) offers[offers.length - 1].after(made);
    else inside.prepend(made);
  }

  // The part that the address asks for, or that was open last; "" for none.
  function requested() {
    const wanted = /^#knit-(.+)$/.exec(location.hash);
    const size = bookmark.sizeOf(edition);
    const name = wanted ? decodeURIComponent(wanted[1]) : size && size.open ? size.part : "";
    return find(name) ? name : "";
  }

  walebook.offer = { show, requested };
}(window.walebook = window.walebook || {}));
