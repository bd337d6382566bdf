// Folds what a step can do without for now, where it has no room on its screen: it is a touch away, in
// the step as the page has it. What is stressed on the page, such as a caution, is never folded.
(function (walebook) {
  "use strict";

  /** @type {(body: HTMLElement, css: string) => HTMLElement[]} */
  const all = (body, css) => [...body.querySelectorAll(css)].filter((each) => each instanceof HTMLElement);

  const FIRST = ".wb-bench-do + .wb-bench-how > .wb-sentence:first-child";

  // What may be folded, what is needed least first: explanations; what follows the first sentence of
  // how an act is done; at last that sentence too, the first act's after all others. Acts, target and check stay.
  /** @type {(body: HTMLElement) => HTMLElement[]} */
  function foldable(body) {
    const [head] = all(body, FIRST);
    const free = all(body, ".wb-sentence:not(.wb-stays)").reverse();
    /** @type {(css: string) => HTMLElement[]} */
    const those = (css) => free.filter((each) => each !== head && each.matches(css));
    return [...those(".wb-reason"), ...those(`:not(.wb-reason, ${FIRST})`), ...those(`${FIRST}:not(.wb-reason)`),
      ...free.filter((each) => each === head)];
  }

  /** @type {(each: HTMLElement, isFolded: boolean) => void} */
  function set(each, isFolded) {
    each.classList.toggle("wb-folded", isFolded);
    const how = each.parentElement;
    if (how) how.classList.toggle("wb-gone", [...how.children].every((child) => child.matches(".wb-folded")));
  }

  // Where something is left out, what stands before it ends in "…".
  /** @type {(body: HTMLElement) => void} */
  function mark(body) {
    let last = null;
    for (const each of all(body, ".wb-bench-do, .wb-sentence")) {
      each.classList.remove("wb-goes-on");
      if (!each.classList.contains("wb-folded")) last = each;
      else if (last) last.classList.add("wb-goes-on");
    }
  }

  const CLASSES = ["wb-folded", "wb-gone", "wb-elsewhere", "wb-again", "wb-goes-on"];

  // Takes back all that was folded.
  /** @type {wb.Folds["clear"]} */
  function clear(body) {
    all(body, CLASSES.map((each) => `.${each}`).join()).forEach((each) => each.classList.remove(...CLASSES));
  }

  // Folds as little as makes the step fit, its marks among the words; true when it does.
  /** @type {wb.Folds["fold"]} */
  function fold(body, fits) {
    const isFitting = () => {
      mark(body);
      return fits();
    };
    /** @type {HTMLElement[]} */
    const folded = [];
    foldable(body).forEach((each) => set(each, false));
    for (const each of foldable(body)) {
      if (isFitting()) break;
      set(each, true);
      folded.unshift(each);
    }
    const isWhole = isFitting();
    for (const each of isWhole ? folded : []) {
      set(each, false);
      if (!isFitting()) set(each, true);
    }
    mark(body);
    return isWhole;
  }

  // The places of a step, one at a time: how many screens they take, the last for what follows them.
  // Shows screen `leaf`; 1 where the step has no places that could be parted.
  /** @type {wb.Folds["places"]} */
  function places(body, leaf) {
    const list = all(body, ".wb-bench-places").pop();
    const many = list ? list.children.length : 0;
    if (!list || many < 2) return 1;
    const parts = all(body, ".wb-bench-body > *");
    const at = parts.indexOf(list);
    const after = parts.slice(at + 1).filter((each) => !each.matches(".wb-needles-box, .wb-standing, .wb-bench-remark"));
    const isMore = after.some((each) => each.matches(".wb-bench-do, .wb-bench-how, .wb-counter"));
    const screens = many + Number(isMore);
    const now = Math.min(leaf, screens - 1);
    const isLast = now === screens - 1;
    [...list.children].forEach((each, n) => each.classList.toggle("wb-folded", n !== now));
    list.classList.toggle("wb-gone", now === many);
    after.forEach((each) => each.classList.toggle("wb-gone", !isLast));
    const act = parts.slice(0, at).filter((each) => each.matches(".wb-bench-do")).pop();
    for (const each of now === many ? parts.slice(0, at) : []) {
      each.classList.add(each === act ? "wb-again" : "wb-gone");
    }
    return screens;
  }

  // The acts of a step, as many to a screen as have room there whole: how many screens they take. The
  // number to knit to begins a screen, with the acts that follow it. Shows screen `leaf`; 0 where one
  // act alone has no room.
  /** @type {wb.Folds["acts"]} */
  function acts(body, leaf, fits) {
    const parts = all(body, ".wb-bench-body > *");
    const ends = [...parts.keys(), parts.length].filter((n) => n === parts.length || (n && parts[n].matches(".wb-begins")));
    const number = parts.findIndex((each) => each.matches(".wb-counter"));
    const target = Math.max(0, ...ends.filter((n) => n <= number));
    /** @type {(from: number, to: number) => boolean} */
    const show = (from, to) => {
      clear(body);
      parts.forEach((each, n) => each.classList.toggle("wb-elsewhere", n < from || n >= to));
      return fits();
    };
    const starts = [0];
    for (let from = 0, to = 0; to < parts.length; from = to) {
      const last = from < target ? target : parts.length;
      to = ends.filter((end) => end > from && end <= last).reverse().find((end) => show(from, end)) || 0;
      if (!to) return 0;
      if (to < parts.length) starts.push(to);
    }
    const now = Math.min(leaf, starts.length - 1);
    show(starts[now], starts[now + 1] || parts.length);
    return starts.length;
  }

  walebook.fold = { acts, clear, fold, places };
}(window.walebook = window.walebook || {}));
