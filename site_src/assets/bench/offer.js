// What the page itself offers: to knit from it, and to go on with each of its parts.
(function (walebook) {
  "use strict";
  if (!walebook.pieces) return;
  const { make, button, bookmark } = walebook;
  const { edition, find, named, names, titleOf, farSaid } = walebook.pieces;

  /** @type {wb.Offer["show"]} */
  function show(open) {
    document.querySelectorAll(".wb-offer").forEach((old) => old.remove());
    const top = document.querySelector(".wb-edition");
    const size = bookmark.sizeOf(edition);
    const name = size && find(size.part) ? size.part : names()[0];
    const label = bookmark.placeOf(edition, name) ? `Go on: ${titleOf(name)}, ${farSaid(name)}`
      : `Start knitting: ${titleOf(name)}`;
    if (top) {
      top.after(make("p", { class: "wb-offer" },
        button(label, () => open(name), { class: "wb-main-button" })));
    }
    names().forEach((each) => offer(each, open));
  }

  // Under the part's heading, below what is offered there already.
  /** @type {(name: string, open: (name: string) => void) => void} */
  function offer(name, open) {
    const { heading, key } = named(name);
    if (!heading) return;
    const offers = document.querySelectorAll(`[data-wb-offers="${CSS.escape(key)}"]`);
    const last = offers.length ? offers[offers.length - 1] : heading;
    last.after(make("p", { class: "wb-offer", "data-wb-offers": key },
      button(`${titleOf(name)}, step by step (${farSaid(name)})`, () => open(name))));
  }

  // The part that the address asks for, or that was open last; "" for none.
  function asked() {
    const wanted = /^#knit-(.+)$/.exec(location.hash);
    const size = bookmark.sizeOf(edition);
    const name = wanted ? decodeURIComponent(wanted[1]) : size && size.open ? size.part : "";
    return find(name) ? name : "";
  }

  walebook.offer = { show, asked };
}(window.walebook = window.walebook || {}));
