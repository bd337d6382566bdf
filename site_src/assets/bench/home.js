// The first page says what is on the needles: "Go on with …", the latest first.
(function (walebook) {
  "use strict";
  const { make, bookmark } = walebook;
  const MOST = 5;
  const cards = document.querySelector(".wb-cards");
  if (!cards || document.documentElement.classList.contains("wb-incomplete")) return;

  // The page of a size, and behind a point the name of the reader's own page of it.
  /** @type {(size: string) => [page: string, own: string]} */
  function parted(size) {
    const [page] = size.split(".");
    return [page, size.slice(page.length + 1)];
  }

  /** @type {(kept: wb.KeptSize) => string} */
  function addressOf({ pattern, size, part }) {
    const [page, own] = parted(size);
    const at = own ? walebook.myPage.address(page, own) : `${page}.html`;
    return `patterns/${pattern}/${at}#knit-${encodeURIComponent(part)}`;
  }

  // The name of a pattern that this site has in this size, also where it was kept under one that it
  // had before; "" where there is none: each card names its sizes.
  /** @type {(within: Element, kept: wb.KeptSize) => string} */
  function nameNow(within, { pattern, size }) {
    const name = CSS.escape(pattern);
    const card = within.querySelector(`[data-pattern="${name}"], [data-former~="${name}"]`);
    return card instanceof HTMLElement && (card.dataset.sizes || "").split(" ").includes(parted(size)[0])
      ? card.dataset.pattern || "" : "";
  }

  // Each size once, as it was kept last.
  /** @type {(within: Element) => { kept: wb.KeptSize, href: string }[]} */
  function offered(within) {
    const there = bookmark.all().map((kept) => ({ kept, name: nameNow(within, kept) }))
      .filter(({ name }) => name);
    return there.filter(({ kept, name }, n) => !there.slice(0, n)
      .some((other) => other.name === name && other.kept.size === kept.size))
      .map(({ kept, name }) => ({ kept, href: addressOf({ ...kept, pattern: name }) })).slice(0, MOST);
  }

  /** @type {(kept: wb.KeptSize) => string} */
  function whereSaid(kept) {
    const at = bookmark.placeOf(kept, kept.part);
    return at ? `, at step ${at.step + 1}` : "";
  }

  /** @type {(within: Element) => void} */
  function show(within) {
    document.querySelectorAll(".wb-go-on").forEach((old) => old.remove());
    const every = offered(within);
    const place = document.querySelector(".wb-go-on-place");
    if (!every.length || !place) return;
    const items = every.map(({ kept, href }) => make("li", {},
      make("a", { href }, `Go on with ${kept.title}`), whereSaid(kept)));
    place.append(make("section", { class: "wb-go-on",
      "aria-label": "What you are knitting" }, make("ul", {}, ...items)));
  }

  show(cards);
  walebook.store.onOtherTab(() => show(cards));
  walebook.settings.onChange((name) => { if (name === "all") show(cards); });
}(window.walebook = window.walebook || {}));
