// The first page says what is on the needles: piece, pattern, size and step, the latest first.
(function (walebook) {
  "use strict";
  const texts = TEXTS.home;
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

  // What is kept, by the names that its pattern and size have now, also where it was kept under others;
  // null where this site has no such size: each card names its sizes, and what they were called.
  /** @type {(within: Element, kept: wb.KeptSize) => wb.KeptSize | null} */
  function asNow(within, kept) {
    const name = CSS.escape(kept.pattern);
    const card = within.querySelector(`[data-pattern="${name}"], [data-former~="${name}"]`);
    if (!(card instanceof HTMLElement)) return null;
    const { pattern = "", sizes = "", formerSizes = "" } = card.dataset;
    const [page] = parted(kept.size);
    const before = formerSizes.split(" ").find((each) => each.startsWith(`${page}:`));
    const now = before ? before.slice(page.length + 1) : page;
    return sizes.split(" ").includes(now)
      ? { ...kept, pattern, size: `${now}${kept.size.slice(page.length)}` } : null;
  }

  // The pages of sizes that no card has and that she saved: such as of a size that was withdrawn.
  /** @type {Set<string>} */
  const savedPages = new Set();

  /** @type {(kept: wb.KeptSize) => string} */
  const pageOf = ({ pattern, size }) => `patterns/${pattern}/${parted(size)[0]}.html`;

  // Offers these too, once the browser has answered.
  /** @type {(within: Element) => Promise<void>} */
  async function findSaved(within) {
    if (!window.caches) return;
    for (const kept of bookmark.all().filter((each) => !asNow(within, each))) {
      const found = await caches.match(new URL(pageOf(kept), location.href)).catch(() => null);
      if (found) savedPages.add(pageOf(kept));
    }
    if (savedPages.size) show(within);
  }

  // Each size once, as it was kept last.
  /** @type {(within: Element) => { kept: wb.KeptSize, pattern: string, href: string }[]} */
  function offered(within) {
    const there = bookmark.all().flatMap((kept) => {
      const now = asNow(within, kept) || (savedPages.has(pageOf(kept)) ? kept : null);
      return now ? [{ kept, now }] : [];
    });
    return there.filter(({ now }, n) => !there.slice(0, n)
      .some((other) => other.now.pattern === now.pattern && other.now.size === now.size))
      .map(({ kept, now }) => ({ kept, pattern: now.pattern, href: addressOf(now) })).slice(0, MOST);
  }

  // How far the piece is, by the steps that it had when its place was kept.
  /** @type {(kept: wb.KeptSize) => string} */
  function whereText(kept) {
    const at = bookmark.placeOf(kept, kept.part);
    if (!at) return "";
    const steps = bookmark.lengthOf(at);
    return at.step < steps ? texts.stepOf(at.step + 1, steps) : texts.isDone;
  }

  // The drawing on the pattern's card, again and small.
  /** @type {(within: Element, pattern: string) => Node[]} */
  function drawingOf(within, pattern) {
    const drawn = within.querySelector(`[data-pattern="${CSS.escape(pattern)}"] .wb-plate img`);
    return drawn ? [make("div", { class: "wb-go-on-drawing", "aria-hidden": "true" }, drawn.cloneNode(true))] : [];
  }

  // Where one size was left: drawing, piece, pattern and size, step, and the link that goes on.
  /** @type {(within: Element, one: { kept: wb.KeptSize, pattern: string, href: string }) => HTMLElement} */
  function entry(within, { kept, pattern, href }) {
    const { title, piece = "" } = kept;
    const lines = [...(piece ? [title] : []), whereText(kept)].filter(Boolean);
    return make("li", {}, ...drawingOf(within, pattern), make("div", { class: "wb-go-on-where" },
      make("p", { class: "wb-go-on-piece" }, texts.goOn(piece || title)),
      ...lines.map((each) => make("p", {}, each))),
    make("a", { href, class: "wb-go-on-link" }, texts.goOnKnitting,
      make("span", { class: "wb-unseen" }, texts.of([piece, title].filter(Boolean).join(", ")))));
  }

  /** @type {(within: Element) => void} */
  function show(within) {
    document.querySelectorAll(".wb-go-on").forEach((old) => old.remove());
    const every = offered(within);
    const place = document.querySelector(".wb-go-on-place");
    if (!every.length || !place) return;
    place.append(make("section", { class: "wb-go-on", "aria-label": texts.whatYouAre },
      make("ul", {}, ...every.map((one) => entry(within, one)))));
  }

  show(cards);
  findSaved(cards);
  walebook.store.onOtherTab(() => show(cards));
  walebook.settings.onChange((name) => { if (name === "all") show(cards); });
}(window.walebook = window.walebook || {}));
