// Touches, keys and swipes become "forward" and "undo", one at a time.
(function (walebook) {
  "use strict";
  const FORWARD = [" ", "Enter", "ArrowRight", "ArrowDown", "PageDown"];
  const BACK = ["ArrowLeft", "ArrowUp", "PageUp"];
  const FAR = 60; // px a finger moves in a swipe, at least
  const NATIVE = "a, button:not(.wb-zone-forward), input, select, textarea, summary, option";

  // Lets an act through unless it follows the one before too closely.
  /** @type {wb.Keys["guard"]} */
  function guard(pause, now, refuse) {
    let last = -Infinity;
    return (act) => {
      const at = now();
      if (at - last < pause()) {
        refuse();
        return false;
      }
      last = at;
      act();
      return true;
    };
  }

  // What a key asks for: "forward", "undo" or "".
  /** @type {wb.Keys["actionOf"]} */
  function actionOf(event, single) {
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z") return "undo";
    if (!single || event.ctrlKey || event.metaKey || event.altKey) return "";
    if (event.key === " " && event.shiftKey) return "undo";
    if (FORWARD.includes(event.key)) return "forward";
    return BACK.includes(event.key) ? "undo" : "";
  }

  // Where a step is longer than its place, arrow up and down scroll it (WCAG 2.2, 2.1.1).
  /** @type {(event: KeyboardEvent, area: HTMLElement) => boolean} */
  function isScroll(event, area) {
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return false;
    if (area.scrollHeight <= area.clientHeight + 1) return false;
    area.scrollBy(0, event.key === "ArrowDown" ? 60 : -60);
    return true;
  }

  // A control with the focus keeps the keys that press it.
  /** @type {(event: KeyboardEvent, target: Element) => boolean} */
  function isItsOwn(event, target) {
    return (event.key === " " || event.key === "Enter") && target.closest(NATIVE) !== null;
  }

  /** @type {(target: Element) => boolean} */
  function isField(target) {
    return Boolean(target.closest("input, select, textarea"));
  }

  // `screen` is the element that listens; `single()` tells whether single keys are on.
  /** @type {wb.Keys["listen"]} */
  function listen(screen, area, single, act) {
    // Before anything else on the page hears of it, so that no key does two things.
    window.addEventListener("keydown", (event) => {
      if (!(event.target instanceof Element) || !screen.contains(event.target)) return;
      event.stopImmediatePropagation();
      if (!isField(event.target) && isScroll(event, area)) {
        event.preventDefault();
        return;
      }
      const action = actionOf(event, single());
      if (!action || isItsOwn(event, event.target) || isField(event.target)) return;
      event.preventDefault();
      if (!event.repeat) act(action);
    }, true);
  }

  /** @type {wb.Keys["swipes"]} */
  function swipes(area, act) {
    /** @type {[number, number] | null} */
    let from = null;
    area.addEventListener("touchstart", (event) => {
      const [touch] = event.touches;
      const isOver = event.target instanceof Element && event.target.closest(".wb-scroll");
      from = event.touches.length === 1 && !isOver ? [touch.clientX, touch.clientY] : null;
    }, { passive: true });
    area.addEventListener("touchend", (event) => {
      if (!from) return;
      const [touch] = event.changedTouches;
      const [across, down] = [touch.clientX - from[0], touch.clientY - from[1]];
      from = null;
      if (Math.abs(across) < FAR || Math.abs(across) < 2 * Math.abs(down)) return;
      act(across < 0 ? "forward" : "undo");
    }, { passive: true });
  }

  walebook.keys = { guard, actionOf, listen, swipes };
}(window.walebook = window.walebook || {}));
