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

  // Only sizes that this site has are offered: each card names those of its pattern.
  /** @type {(within: Element) => { kept: wb.KeptSize, href: string }[]} */
  function offered(within) {
    return bookmark.all().filter(({ pattern, size }) => {
      const card = within.querySelector(`[data-pattern="${CSS.escape(pattern)}"]`);
      return card instanceof HTMLElement && (card.dataset.sizes || "").split(" ").includes(parted(size)[0]);
    }).map((kept) => ({ kept, href: addressOf(kept) })).slice(0, MOST);
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
