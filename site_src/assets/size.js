// Opens what is closed: the section that a link leads into, and every section before it is printed.
// Without this script a section opens by a touch, and most browsers open one that a link leads into.
(function () {
  "use strict";
  const CLOSED = "details:not([open])";

  /** @type {(goal: Element) => void} */
  function openAround(goal) {
    for (let at = goal.closest("details"); at; at = at.parentElement && at.parentElement.closest("details")) {
      at.open = true;
    }
  }

  function openTarget() {
    const goal = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!goal || !goal.closest(CLOSED)) return;
    openAround(goal);
    goal.scrollIntoView();
  }

  /** @type {(event: Event) => void} */
  function onClick({ target }) {
    const link = target instanceof Element && target.closest("a[href^='#']");
    if (link && link.getAttribute("href") === location.hash) openTarget();
  }

  /** @type {HTMLDetailsElement[]} */
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...document.querySelectorAll(CLOSED)].filter((each) => each instanceof HTMLDetailsElement);
    opened.forEach((each) => { each.open = true; });
  });
  addEventListener("afterprint", () => {
    opened.forEach((each) => { each.open = false; });
    opened = [];
  });

  addEventListener("hashchange", openTarget);
  document.addEventListener("click", onClick);
  if (location.hash) openTarget();
}());
