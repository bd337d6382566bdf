// The elements of the bench: a window over the page, built once. What they show is put in later.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.screen;
  const { make, button, settings, store } = walebook;
  const LARGE = 36; // px of the root, which is 20 at normal text size

  /** @type {wb.Screens["build"]} */
  function build(doing) {
    const title = make("b", { class: "wb-bench-part" });
    const where = make("span", { class: "wb-bench-where" });
    const heading = make("h2", { id: "wb-bench-title" }, title, " ", where);
    const pair = make("div", { class: "wb-bench-pair", role: "group", "aria-label": texts.knittedSideBy });
    const bar = make("div", { class: "wb-bench-far", role: "img" }, make("span", {}));
    const body = make("div", { class: "wb-bench-body" });
    const awake = make("p", { class: "wb-bench-awake", hidden: true });
    const main = make("div", { class: "wb-bench-main", tabindex: "0", role: "region",
      "aria-label": texts.thisStep, click: walebook.links.openPlace }, body);
    const notice = make("p", { class: "wb-bench-told", role: "status", hidden: true });
    const live = make("p", { class: "wb-unseen", "aria-live": "polite" });
    const next = make("p", { class: "wb-bench-next" });
    const whole = button(texts.how, doing.openStep, { class: "wb-bench-whole" });
    const undo = button(texts.undo, () => doing.request("undo"), { class: "wb-zone wb-zone-undo" });
    const forward = button(texts.done, () => doing.request("forward"), { class: "wb-zone wb-zone-forward" });
    const foot = make("div", { class: "wb-bench-foot" }, awake, next, whole);
    const top = make("div", { class: "wb-bench-top" }, heading,
      button(texts.allSteps, doing.openList, { class: "wb-bench-list" }),
      button(texts.menu, doing.openMenu, { class: "wb-bench-menu" }), pair);
    const bench = make("dialog", { class: "wb-bench md-typeset", "aria-labelledby": heading.id,
      close: doing.leave }, top, bar, main, notice, foot, undo, forward, live);
    const screen = { bench, top, foot, title, where, far: bar, pair, body, main, whole, awake, notice, live, next, undo, forward };
    document.body.append(bench);
    arrange(screen);
    listen(screen, doing);
    return screen;
  }

  /** @type {(screen: wb.Screen, doing: wb.Doing) => void} */
  function listen(screen, doing) {
    const { bench, main, forward } = screen;
    // After a touch the focus goes back to where a pedal's keys do what they say.
    bench.addEventListener("click", (event) => {
      const isButton = event.target instanceof Element && event.target.closest("button");
      if (event.detail > 0 && isButton && doing.isOpen()
        && !document.querySelector("dialog.wb-sheet[open]")) forward.focus();
    });
    walebook.keys.listen(bench, main, () => !settings.get("keysOff"), doing.request);
    walebook.keys.swipes(main, doing.request);
    // Letters of another width came after the step was fitted to its screen.
    document.fonts.addEventListener("loadingdone", () => { if (doing.isOpen()) doing.refit(); });
    window.addEventListener("resize", () => {
      if (!doing.isOpen()) return;
      arrange(screen);
      doing.refit();
    });
  }

  // With large letters, or on a very small screen, there is room for the step alone: the rest follows
  // it when scrolled to.
  /** @type {wb.Screens["arrange"]} */
  function arrange({ bench, main, top, foot, notice }) {
    const isTight = parseFloat(getComputedStyle(document.documentElement).fontSize) >= LARGE
      || window.matchMedia("(max-height: 400px) and (max-width: 479px)").matches;
    if (isTight === bench.classList.contains("wb-tight")) return;
    bench.classList.toggle("wb-tight", isTight);
    if (isTight) main.append(foot, top);
    else {
      bench.prepend(top);
      notice.after(foot);
    }
  }

  // How far the part is: what is done, and the step that is now.
  /** @type {wb.Screens["far"]} */
  function far(screen, step, steps) {
    screen.far.style.setProperty("--wb-done", String(step / steps));
    screen.far.style.setProperty("--wb-one", String(1 / steps));
    screen.far.setAttribute("aria-label", texts.ofStepsDone(step, steps));
  }

  // What is wrong with keeping stays in sight where there is nothing else to tell.
  /** @type {wb.Screens["notify"]} */
  function notify({ notice }, text) {
    const message = text || store.stateText();
    notice.textContent = message;
    notice.hidden = !message;
  }

  walebook.screen = { build, arrange, far, notify };
}(window.walebook = window.walebook || {}));
