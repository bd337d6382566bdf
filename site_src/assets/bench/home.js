// The first page says what is on the needles: "Go on with …", the latest first.
(function (walebook) {
  "use strict";
  const { make, bookmark } = walebook;
  const MOST = 5;
  const cards = document.querySelector(".wb-cards");
  if (!cards || document.documentElement.classList.contains("wb-incomplete")) return;

  // Only sizes that this site has are offered; the links are its own.
  /** @type {(within: Element) => { kept: wb.KeptSize, href: string }[]} */
  function offered(within) {
    const links = [...within.querySelectorAll("a[href]")].map((each) => each.getAttribute("href") || "");
    return bookmark.all().flatMap((kept) => {
      const file = `patterns/${kept.pattern}/${kept.size}.html`;
      const href = links.find((each) => each.endsWith(file));
      return href ? [{ kept, href: `${href}#knit-${encodeURIComponent(kept.part)}` }] : [];
    }).slice(0, MOST);
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
    const title = document.querySelector("main h1");
    if (!every.length || !title) return;
    const items = every.map(({ kept, href }) => make("li", {},
      make("a", { href }, `Go on with ${kept.title}`), whereSaid(kept)));
    title.after(make("section", { class: "wb-go-on",
      "aria-label": "What you are knitting" }, make("ul", {}, ...items)));
  }

  show(cards);
  walebook.store.onOtherTab(() => show(cards));
  walebook.settings.onChange((name) => { if (name === "all") show(cards); });
}(window.walebook = window.walebook || {}));
