// The reader's own page: the page of a size, counted for her gauge on this device, stands under the
// address of the designer's page with her page's name behind it. It takes the article's place before
// any other script reads it. The figures go into the file she can save; the page is made anew of them.
(function (walebook) {
  "use strict";
  const texts = TEXTS.myPage;
  const { store, make, isRecord } = walebook;
  const NAME = /^my-[0-9.]+-[0-9a-f]{12}$/;
  const QUERY = "my-gauge";

  /** @type {(pattern: string, page: string, name: string) => string} */
  const place = (pattern, page, name) => `${pattern}/${page}.${name}`;

  /** @type {wb.MyPage["isFigures"]} */
  function isFigures(kept) {
    return isRecord(kept) && typeof kept.mark === "string" && typeof kept.when === "number"
      && isRecord(kept.swatches) && Object.values(kept.swatches).every((swatch) => isRecord(swatch)
        && Object.values(swatch).every((figure) => typeof figure === "string"))
      && (kept.measures === undefined || (isRecord(kept.measures)
        && Object.values(kept.measures).every((figure) => typeof figure === "string")));
  }

  /** @type {(kept: unknown) => kept is wb.OwnPage} */
  function isPage(kept) {
    return isRecord(kept) && typeof kept.html === "string" && typeof kept.mark === "string"
      && typeof kept.version === "string";
  }

  /** @type {wb.MyPage["isTyped"]} */
  function isTyped(kept) {
    return isRecord(kept) && typeof kept.when === "number" && isRecord(kept.fields)
      && Object.values(kept.fields).every((text) => typeof text === "string");
  }

  /** @type {wb.MyPage["address"]} */
  const address = (page, name) => `${page}.html?${QUERY}=${name}`;

  /** @type {(key: string) => boolean} */
  function isStored(key) {
    return store.state() === "works" && store.text(key) !== null;
  }

  // Where it is kept what she has typed, with nothing made of it yet: one place for the published page,
  // `name` "", and one for each of her own.
  /** @type {wb.MyPage["typedKey"]} */
  const typedKey = (pattern, page, name) => `typed/${name ? place(pattern, page, name) : `${pattern}/${page}`}`;

  // Keeps a page with its figures; false where there is no room, and then neither is kept.
  /** @type {wb.MyPage["keep"]} */
  function keep(pattern, page, { name, mark, html, version, swatches, measures }) {
    const at = place(pattern, page, name);
    const isKept = store.set(`own/${at}`, { html, mark, version })
      && store.set(`gauge/${at}`, { swatches, measures, mark, when: Date.now() }, isFigures);
    if (!isKept) drop(pattern, page, name);
    return isKept;
  }

  /** @type {wb.MyPage["drop"]} */
  function drop(pattern, page, name) {
    store.remove(`own/${place(pattern, page, name)}`);
    store.remove(`gauge/${place(pattern, page, name)}`);
    store.remove(typedKey(pattern, page, name));
  }

  // Her figures for a pattern, the latest first: {page, name, swatches, mark, when, isMade}.
  /** @type {wb.MyPage["all"]} */
  function all(pattern) {
    return store.keys().filter((key) => key.startsWith(`gauge/${pattern}/`)).flatMap((key) => {
      const kept = store.get(key);
      const at = key.split("/")[2];
      const dot = at.indexOf(".");
      return isFigures(kept) && dot > 0 ? [{ ...kept, page: at.slice(0, dot), name: at.slice(dot + 1),
        isMade: isStored(key.replace("gauge", "own")) }] : [];
    }).sort((a, b) => b.when - a.when);
  }

  // What an address asks for: the name of one of her pages, or "".
  /** @type {wb.MyPage["asked"]} */
  function asked() {
    const name = new URLSearchParams(location.search).get(QUERY) || "";
    return NAME.test(name) ? name : "";
  }

  /** @type {(article: Element, text: string) => void} */
  const note = (article, text) => article.prepend(make("p", { class: "wb-mine-note", role: "status" }, text));

  /** @type {(article: Element, kept: wb.OwnPage, now: string) => void} */
  function show(article, kept, now) {
    const form = article.querySelector(".wb-my-gauge"); // for her next figures, from here too
    article.innerHTML = kept.html;
    if (form) article.querySelector(".wb-mine")?.after(form);
    const strip = make("p", { class: "wb-mine-strip" }, kept.mark);
    article.prepend(strip);
    document.title = `${kept.mark} – ${document.title}`;
    const sheet = make("style", {}, `@page{@top-right{content:${JSON.stringify(texts.version(kept.mark, kept.version))}}}`);
    document.head.append(sheet);
    if (kept.version !== now) {
      strip.after(make("p", { class: "wb-mine-note", role: "status" }, texts.theDesignersPage(now, kept.version)));
    }
  }

  function start() {
    const name = asked();
    const article = document.querySelector("article");
    const block = document.getElementById("wb-facts");
    if (!name || !article || !block) return;
    const facts = JSON.parse(block.textContent || "{}");
    const page = facts.size && facts.sizes[facts.size];
    if (!page) return;
    const kept = store.get(`own/${place(facts.pattern, page, name)}`);
    if (isPage(kept)) show(article, kept, facts.version);
    else {
      note(article, texts.yourPageFor);
    }
  }

  walebook.myPage = { address, keep, drop, all, asked, isFigures, isTyped, typedKey };
  start();
}(window.walebook = window.walebook || {}));
