// In a preview alone: loads the page again when its source was changed, and stays at its place.
(() => {
  "use strict";

  const KEPT = "walebook-preview-place";
  const own = /** @type {HTMLScriptElement} */ (document.currentScript);
  const { base = "/", page = "", seen = "" } = own.dataset;
  let mark = "";
  /** @type {AbortController | undefined} */
  let asking;

  /** What is at the top of the window, and what has been opened. */
  const place = () => {
    const marks = [...document.querySelectorAll("article [id]")];
    const first = marks.find((each) => each.getBoundingClientRect().bottom > 0);
    return {
      page,
      y: scrollY,
      id: scrollY > 0 && first ? first.id : "",
      top: first ? first.getBoundingClientRect().top : 0,
      open: [...document.querySelectorAll("article details")].map((each) => each.hasAttribute("open")),
    };
  };

  const goBack = () => {
    const kept = JSON.parse(sessionStorage.getItem(KEPT) || "null");
    if (!kept || kept.page !== page) return;
    const all = document.querySelectorAll("article details");
    if (all.length === kept.open.length) {
      all.forEach((each, at) => each.toggleAttribute("open", kept.open[at]));
    }
    const spot = kept.id && document.getElementById(kept.id);
    const down = spot ? spot.getBoundingClientRect().top - kept.top : kept.y - scrollY;
    scrollBy({ top: down, behavior: "instant" });
  };

  const show = (/** @type {string} */ html) => {
    let box = document.querySelector(".wb-preview-others");
    if (!box) {
      box = document.createElement("aside");
      box.className = "wb-preview-others";
      box.setAttribute("aria-label", "Findings");
      document.body.append(box);
    }
    const parts = [...box.querySelectorAll("details")];
    const open = parts.filter((each) => each.open).map((each) => (each.textContent || "")[0]);
    box.innerHTML = html; // the server has escaped what a source says
    box.querySelectorAll("details").forEach((each) => {
      each.open = open.includes((each.textContent || "")[0]); // This pattern, Other patterns, Patterns
    });
  };

  const wait = (/** @type {number} */ time) => new Promise((go) => { setTimeout(go, time); });

  const ask = async () => {
    const mine = new AbortController();
    asking?.abort();
    asking = mine;
    while (!mine.signal.aborted) {
      try {
        const query = new URLSearchParams({ page, seen, mark });
        const answer = await fetch(`${base}.preview/changes?${query}`, { signal: mine.signal });
        const news = await answer.json();
        if (news.reload) {
          sessionStorage.setItem(KEPT, JSON.stringify(place()));
          location.reload();
          return;
        }
        if (news.mark !== undefined) {
          ({ mark } = news);
          show(news.html);
        }
      } catch {
        if (!mine.signal.aborted) await wait(300); // the preview is beginning again, or has ended
      }
    }
  };

  // A tab that is not seen holds no connection: a browser has few of them for one address.
  const askWhenSeen = () => {
    if (document.visibilityState === "visible") void ask();
    else asking?.abort();
  };

  document.addEventListener("visibilitychange", askWhenSeen);
  addEventListener("DOMContentLoaded", goBack);
  addEventListener("load", () => {
    goBack();
    sessionStorage.removeItem(KEPT);
    askWhenSeen();
  });
  addEventListener("pagehide", () => asking?.abort());
})();
