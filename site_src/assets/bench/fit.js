// Fits a step to the screen: letters and number as large as there is room for. What is needed least
// goes first, then what can be folded; where even so a step has no room, it is shown a screen after
// the other.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.fit;
  // Size of an act, share of the number's full size [px at normal text], and what is given up.
  /** @type {[number, number, string][]} */
  const TRIES = [[56, 1, ""], [48, 1, ""], [42, 1, ""], [38, .9, ""], [34, .8, ""], [34, .8, "standing"],
    [34, .8, "standing same"], [34, .8, "standing same known"], [34, .7, "standing same known"],
    [34, .7, "standing same known chart"], [34, .6, "standing same known chart"],
    [34, .5, "standing same known chart"], [34, .5, "standing same known chart next"],
    [34, .42, "standing same known chart next"], [34, .42, "standing same known chart next needles"],
    [34, .36, "standing same known chart next needles"]];
  // Where that is not enough, words are folded; then the carriage's way, whose end the check tells;
  // at last acts are set no larger than how they are done.
  /** @type {[number, number, string][]} */
  const FOLDED = [[34, .36, "standing same known chart next needles"],
    [34, .36, "standing same known chart next needles strip"],
    [30, .36, "standing same known chart next needles strip"]];
  // The same beside the outline of the piece, for which the number gives up some of its width.
  /** @type {[number, number, string][]} */
  const BESIDE = [[56, .72, "full"], [48, .72, "full"], [42, .72, "full"]];
  // On a wide screen, where all else stands at the number's right, acts are larger still.
  /** @type {[number, number, string][]} */
  const WIDER = [[88, 1, ""], [72, 1, ""]];
  const WIDE = "(orientation: landscape) and (max-height: 560px) and (min-width: 480px), (min-width: 900px)";
  /** @type {(tried: [number, number, string]) => [number, number, string]} */
  const full = ([act, number]) => [act, number, "full"];
  const COLUMN = 236; // of the number there [px at normal text]
  // Below this height a step is scrolled, not parted [px].
  const LEAST = 200;

  /** @type {(main: HTMLElement) => boolean} */
  const fits = (main) => main.scrollHeight <= main.clientHeight + 1 && main.scrollWidth <= main.clientWidth + 1;

  /** @type {(bench: HTMLElement, tried: [number, number, string]) => void} */
  function size(bench, [act, number, gone]) {
    bench.style.setProperty("--wb-act", String(act));
    bench.style.setProperty("--wb-number", String(number));
    bench.dataset.gone = gone;
  }

  // What is scrolled has room for everything.
  /** @type {(bench: HTMLElement) => void} */
  function scrolled(bench) {
    bench.style.setProperty("--wb-act", "34");
    bench.style.setProperty("--wb-number", ".6");
    bench.dataset.gone = "";
  }

  // How much of a wide screen the number has at its left [px]; 0 where it stands among the words.
  /** @type {wb.Fits["beside"]} */
  function beside() {
    const root = document.documentElement;
    const bench = document.querySelector(".wb-bench");
    if (!bench || root.classList.contains("wb-larger") || !window.matchMedia(WIDE).matches) return 0;
    return COLUMN * parseFloat(getComputedStyle(bench).getPropertyValue("--u"))
      * parseFloat(getComputedStyle(root).fontSize);
  }

  // The first of the tries that fits, found by halving: each takes less room than the one before.
  /** @type {(bench: HTMLElement, main: HTMLElement) => boolean} */
  function largest(bench, main) {
    const [tries, besides] = beside() ? [[...WIDER, ...TRIES], [...WIDER.map(full), ...BESIDE]] : [TRIES, BESIDE];
    const isBeside = main.querySelector(".wb-piece-box") && besides.some((tried) => {
      size(bench, tried);
      return fits(main);
    });
    if (isBeside) return true;
    let [low, high] = [0, tries.length - 1];
    size(bench, tries[high]);
    if (!fits(main)) return false;
    while (low < high) {
      const middle = (low + high) >> 1;
      size(bench, tries[middle]);
      if (fits(main)) high = middle;
      else low = middle + 1;
    }
    size(bench, tries[high]);
    return true;
  }

  const UNIT = ".wb-bench-do, .wb-sentence, .wb-bench-places > li, .wb-counter, .wb-strip-box, .wb-needles-box, "
    + ".wb-chart-box, .wb-standing, .wb-whole, .wb-bench-check, .wb-bench-remark, .wb-corrected";

  /** @type {(units: HTMLElement[], from: number, to: number) => void} */
  function show(units, from, to) {
    units.forEach((unit, n) => { unit.hidden = n < from || n >= to; });
    const parents = new Set(units.map((unit) => unit.parentElement));
    parents.forEach((each) => {
      if (each && each.matches(".wb-bench-how, .wb-bench-places")) {
        each.hidden = [...each.children].every((child) => child instanceof HTMLElement && child.hidden);
      }
    });
    again(units, from);
  }

  // On a further screen the act that goes on is named again, small.
  /** @type {(units: HTMLElement[], from: number) => void} */
  function again(units, from) {
    units.forEach((unit) => unit.classList.remove("wb-again"));
    if (!from || !units[from] || !units[from].matches(".wb-sentence, .wb-bench-places > li")) return;
    const last = units.slice(0, from).filter((unit) => unit.matches(".wb-bench-do")).pop();
    if (!last) return;
    last.hidden = false;
    last.classList.add("wb-again");
  }

  // A sentence that is longer than a screen is parted at its commas.
  /** @type {(main: HTMLElement, units: HTMLElement[], at: number) => boolean} */
  function cut(main, units, at) {
    const unit = units[at];
    const parts = (unit.textContent || "").split(/(?<=,)\s+/);
    show(units, at, at + 1);
    if (fits(main) || parts.length < 2 || !unit.matches(".wb-sentence")) return false;
    const made = parts.map((each) => walebook.make("span", { class: "wb-sentence" }, each));
    unit.replaceWith(...made.flatMap((each) => [each, " "]));
    units.splice(at, 1, ...made);
    return true;
  }

  /** @type {(unit: HTMLElement | undefined) => boolean} */
  const isAct = (unit) => Boolean(unit && unit.matches(".wb-bench-do"));

  // How far a screen that begins with a unit can go: an act is not left alone at its foot.
  /** @type {(main: HTMLElement, units: HTMLElement[], from: number) => number} */
  function reach(main, units, from) {
    let [low, high] = [from + 1, units.length];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      show(units, from, middle);
      if (fits(main)) low = middle;
      else high = middle - 1;
    }
    if (low === from + 1 && cut(main, units, from)) return reach(main, units, from);
    while (low < units.length && low - 1 > from && isAct(units[low - 1])) low -= 1;
    return low;
  }

  // How many screens are needed from a unit on.
  /** @type {(main: HTMLElement, units: HTMLElement[], from: number) => number} */
  const needed = (main, units, from) => (from < units.length
    ? 1 + needed(main, units, reach(main, units, from)) : 0);

  // Where each screen of a step begins, among its units. An act and how it is done stay together
  // where that takes no further screen.
  /** @type {(main: HTMLElement, units: HTMLElement[]) => number[]} */
  function parted(main, units) {
    const starts = [0];
    for (let from = 0; from < units.length;) {
      const far = reach(main, units, from);
      let act = far < units.length ? far : 0;
      while (act > from && !isAct(units[act])) act -= 1;
      const isWhole = units.slice(from, act).some(isAct); // each screen has an act at its head
      from = isWhole && needed(main, units, act) <= needed(main, units, far) ? act : far;
      if (from < units.length) starts.push(from);
    }
    return starts;
  }

  // Sizes what the bench shows, and shows its screen `leaf`; answers how many there are. A bar that
  // scrolls would take width while it is measured, so there is none then.
  /** @type {wb.Fits["fit"]} */
  function fit(screen, leaf) {
    screen.main.style.overflow = "hidden";
    const found = fitted(screen, leaf);
    screen.main.style.overflow = "";
    return found;
  }

  // True where the step fits when what it can do without for now is folded: the button to the whole
  // step is there then.
  /** @type {(screen: wb.Screen) => boolean} */
  function folded({ bench, main, body, whole }) {
    if (whole.hidden) [whole.hidden, whole.textContent] = [false, texts.how];
    whole.classList.add("wb-has-more");
    return FOLDED.some((tried) => {
      size(bench, tried);
      if (!walebook.fold.fold(body, () => fits(main))) return false;
      if (!largest(bench, main)) size(bench, tried);
      return true;
    });
  }

  // The places of a step one at a time; 0 where one alone has no room.
  /** @type {(screen: wb.Screen, leaf: number) => number} */
  function placed(screen, leaf) {
    const { bench, main, body } = screen;
    walebook.fold.clear(body);
    const screens = walebook.fold.places(body, leaf);
    return screens > 1 && (largest(bench, main) || folded(screen)) ? screens : 0;
  }

  // The acts of a step, some at a time, with words folded only where that must be; 0 where even so
  // one alone has no room.
  /** @type {(screen: wb.Screen, leaf: number) => number} */
  function byAct(screen, leaf) {
    const { bench, main, body, whole } = screen;
    whole.classList.remove("wb-has-more");
    return walebook.fold.acts(body, leaf, () => largest(bench, main))
      || walebook.fold.acts(body, leaf, () => largest(bench, main) || folded(screen));
  }

  const ONE = { screens: 1, isByPlace: false };

  /** @type {wb.Fits["fit"]} */
  function fitted(screen, leaf) {
    const { bench, main, body } = screen;
    /** @type {HTMLElement[]} */
    const units = [...body.querySelectorAll(UNIT)].filter((unit) => unit instanceof HTMLElement);
    show(units, 0, units.length);
    if (largest(bench, main)) return ONE;
    if (main.clientHeight < LEAST || document.documentElement.classList.contains("wb-larger")) {
      scrolled(bench);
      return ONE;
    }
    if (folded(screen)) return ONE;
    const screens = placed(screen, leaf) || byAct(screen, leaf);
    if (screens) return { screens, isByPlace: true };
    walebook.fold.clear(body);
    // Additions to an act are left out only where a step would take a screen on which nothing is done.
    body.querySelectorAll(".wb-added").forEach((each) => each.classList.remove("wb-stays"));
    if (folded(screen)) return ONE;
    const shorter = placed(screen, leaf) || byAct(screen, leaf);
    if (shorter) return { screens: shorter, isByPlace: true };
    walebook.fold.clear(body);
    folded(screen);
    bench.dataset.gone = "standing next known same";
    const left = units.filter((unit) => !unit.matches(".wb-folded"));
    const starts = parted(main, left);
    const now = Math.min(leaf, starts.length - 1);
    show(left, starts[now], starts[now + 1] || left.length);
    return { screens: starts.length, isByPlace: false };
  }

  walebook.fit = { fit, beside };
}(window.walebook = window.walebook || {}));
