// The first page says what is on the needles: "Go on with …", the latest first.
(function (walebook) {
  "use strict";
  const { make, bookmark } = walebook;
  const MOST = 5;
  const cards = document.querySelector(".wb-cards");
  if (!cards || document.documentElement.classList.contains("wb-incomplete")) return;

  // Only sizes that this site has are offered; the links are its own.
  function offered() {
    const links = [...cards.querySelectorAll("a[href]")];
    return bookmark.all().map((kept) => {
      const file = `patterns/${kept.pattern}/${kept.size}.html`;
      const link = links.find((each) => each.getAttribute("href").endsWith(file));
      return link && { kept, href: `${link.getAttribute("href")}#knit-${encodeURIComponent(kept.part)}` };
    }).filter(Boolean).slice(0, MOST);
  }

  function whereSaid(kept) {
    const at = bookmark.placeOf(kept, kept.part);
    return at ? `, at step ${at.step + 1}` : "";
  }

  function show() {
    document.querySelectorAll(".wb-go-on").forEach((old) => old.remove());
    const every = offered();
    if (!every.length) return;
    const items = every.map(({ kept, href }) => make("li", {},
      make("a", { href }, `Go on with ${kept.title}`), whereSaid(kept)));
    document.querySelector("main h1").after(make("section", { class: "wb-go-on",
      "aria-label": "What you are knitting" }, make("ul", {}, ...items)));
  }

  show();
  walebook.store.onOtherTab(show);
  walebook.settings.onChange((name) => { if (name === "all") show(); });
}(window.walebook = window.walebook || {}));
