// The search of its page: brings the index when the page is opened, and lists what has the words.
// The index is a script, because a page that is opened from disk may read no other file.
(function () {
  "use strict";
  const texts = TEXTS.search;
  const MOST = 30;
  const field = document.querySelector(".wb-search-form input");
  const status = document.querySelector(".wb-found-status");
  const list = document.querySelector(".wb-found");
  if (!(field instanceof HTMLInputElement) || !status || !list) return;

  /** @typedef {{ location: string, title: string, text: string }} Entry */
  /** @typedef {{ entry: Entry, title: string[], text: string[] }} Known */
  /** @typedef {{ first: Entry, score: number, parts: Entry[] }} Found */
  /** @type {Known[]} */
  let known = [];

  /** @type {(html: string) => string} */
  function plain(html) {
    const text = new DOMParser().parseFromString(html, "text/html").body.textContent || "";
    return text.replace(/\s+/g, " ").trim();
  }

  // "Waistcoats" and "waistcoat" are one word to a reader who searches.
  /** @type {(text: string) => string[]} */
  function words(text) {
    return text.toLowerCase().normalize("NFKD").replace(/[\u0300-\u036f]/g, "").split(/[^a-z0-9]+/)
      .filter(Boolean).map((word) => (word.length > 3 ? word.replace(/s$/, "") : word));
  }

  /** @type {(term: string, within: string[], whole: number, part: number) => number} */
  function weigh(term, within, whole, part) {
    if (within.includes(term)) return whole;
    return within.some((word) => word.startsWith(term)) ? part : 0;
  }

  // What an entry is worth for these words; 0 where it lacks one of them.
  /** @type {(each: Known, terms: string[]) => number} */
  function worth(each, terms) {
    const parts = terms.map((term) => weigh(term, each.title, 12, 8) + weigh(term, each.text, 3, 1));
    return parts.every(Boolean) ? parts.reduce((sum, part) => sum + part, 0) : 0;
  }

  // The pages that have the words, the best first, each with its sections that have them.
  /** @type {(terms: string[]) => Found[]} */
  function find(terms) {
    /** @type {Map<string, Found>} */
    const pages = new Map();
    for (const each of known) {
      const score = terms.length ? worth(each, terms) : 0;
      if (!score) continue;
      const [page, section] = each.entry.location.split("#");
      const first = known.find(({ entry }) => entry.location === page)?.entry || each.entry;
      const found = pages.get(page) || { first, score: 0, parts: [] };
      found.score = Math.max(found.score, section ? score : score * 2);
      if (section && each.entry.title !== first.title) found.parts.push(each.entry);
      pages.set(page, found);
    }
    return [...pages.values()].sort((one, other) => other.score - one.score);
  }

  /** @type {(entry: Entry) => HTMLAnchorElement} */
  function link(entry) {
    const made = document.createElement("a");
    made.href = entry.location;
    made.textContent = entry.title;
    return made;
  }

  /** @type {(found: Found) => HTMLLIElement} */
  function item({ first, parts }) {
    const made = document.createElement("li");
    made.append(link(first));
    if (first.text) {
      const text = document.createElement("p");
      text.textContent = first.text;
      made.append(text);
    }
    if (parts.length) {
      const sections = document.createElement("ul");
      for (const part of parts) {
        const line = document.createElement("li");
        line.append(link(part));
        sections.append(line);
      }
      made.append(sections);
    }
    return made;
  }

  function show() {
    if (!(field instanceof HTMLInputElement) || !status || !list) return;
    const terms = words(field.value);
    const found = find(terms);
    list.replaceChildren(...found.slice(0, MOST).map(item));
    const foundText = found.length === 1 ? texts.pageHas : texts.pagesHave(found.length || texts.no);
    status.textContent = terms.length ? `${foundText} “${field.value.trim()}”.` : "";
    // What was searched for stays in the address, so that the way back finds it.
    const hash = terms.length ? `#q=${encodeURIComponent(field.value.trim())}` : location.pathname;
    if (location.protocol !== "file:" || terms.length) history.replaceState(null, "", hash);
  }

  function begin() {
    const index = /** @type {{ __index?: { docs: Entry[] } }} */ (/** @type {unknown} */ (window)).__index;
    known = (index?.docs || []).map(({ location: at, title, text }) => {
      const entry = { location: at, title: plain(title), text: plain(text) };
      return { entry, title: words(entry.title), text: words(entry.text) };
    });
    show();
  }

  const query = /^#q=(.*)$/.exec(location.hash);
  if (query) field.value = decodeURIComponent(query[1]);
  const script = document.createElement("script");
  script.src = "search/search_index.js";
  script.onload = begin;
  document.body.append(script);
  field.addEventListener("input", show);
  field.form?.addEventListener("submit", (event) => event.preventDefault());
  if (!query) field.focus();
}());
