// The lists one touch away: all steps of a part with what is done marked, and all parts.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.list;
  const { make, button, place } = walebook;

  /** @type {wb.List["stateOf"]} */
  function stateOf(n, at) {
    if (n < at.step) return "done";
    return n === at.step ? "here" : "";
  }

  // `go(step)` is called with the step that the knitter chooses.
  /** @type {wb.List["steps"]} */
  function steps(part, at, remarks, go) {
    /** @type {HTMLElement[]} */
    const items = [];
    let section = "";
    part.steps.forEach((step, n) => {
      if (step.section && step.section !== section) {
        section = step.section;
        items.push(make("li", { class: "wb-list-section" }, make("h3", {}, section)));
      }
      items.push(entry(step, n, stateOf(n, at), remarks[step.id], () => {
        sheet.close();
        go(n);
      }));
    });
    const done = Math.min(at.step, part.steps.length);
    const sheet = walebook.sheet(texts.allSteps(part.title), [
      make("p", {}, texts.ofDoneTouch(done, part.steps.length)),
      make("ol", { class: "wb-all-steps" }, ...items)], { class: "wb-sheet wb-sheet-long md-typeset" });
    const here = sheet.querySelector("[aria-current]");
    if (here) here.scrollIntoView({ block: "center" });
  }

  /** @type {(step: wb.Step, n: number, state: "done" | "here" | "", remark: string | undefined, press: () => void) => HTMLElement} */
  function entry(step, n, state, remark, press) {
    const mark = { done: "done", here: texts.youAreHere, "": "" }[state];
    const label = [make("span", { class: "wb-list-number" }, String(n + 1)),
      make("span", { class: "wb-list-text" }, step.text),
      mark ? make("span", { class: "wb-list-mark" }, mark) : "",
      remark ? make("span", { class: "wb-list-remark" }, texts.yourNote(remark)) : ""];
    return make("li", { class: state ? `wb-is-${state}` : false },
      make("button", { type: "button", click: press, "aria-current": state === "here" && "step" }, ...label));
  }

  // The parts of the page with how far each is; `go(name)` opens one.
  /** @type {wb.List["parts"]} */
  function parts(every, go) {
    return make("ul", { class: "wb-parts" }, ...every.map(({ name, title, far }) => {
      const press = button("", () => go(name));
      press.append(make("b", {}, title), ` ${far}`);
      return make("li", {}, press);
    }));
  }

  walebook.list = { steps, parts, stateOf, isDone: place.isDone };
}(window.walebook = window.walebook || {}));
