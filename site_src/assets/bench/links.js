// A link to another place of the page is shown over the bench, so that nobody leaves it.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.links;
  const { copy } = walebook;
  const HEAD = /^(H1|H2|H3|DT)$/;

  /** @type {wb.Links["openPlace"]} */
  function openPlace(event) {
    const link = event.target instanceof Element && event.target.closest("a[href^='#']");
    const goal = link && document.getElementById((link.getAttribute("href") || "").slice(1));
    if (!goal) return;
    event.preventDefault();
    const isHead = HEAD.test(goal.nodeName);
    const title = isHead ? goal : goal.querySelector("h1, h2, h3");
    walebook.sheet(title ? walebook.steps.textOf(title).replace(/\s*¶$/, "") : texts.onThisPage,
      isHead ? below(goal) : [copy(goal)], { click: openPlace });
  }

  // What stands under a heading or a term, up to the next.
  /** @type {wb.Links["below"]} */
  function below(head) {
    const found = [];
    for (let node = head.nextElementSibling; node && !HEAD.test(node.nodeName);
      node = node.nextElementSibling) found.push(copy(node));
    return found;
  }

  walebook.links = { openPlace, below };
}(window.walebook = window.walebook || {}));
