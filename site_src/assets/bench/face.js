// What the bench shows of the place that the knitter is at: texts, and elements made anew.
(function (walebook) {
  "use strict";
  if (!walebook.pieces) return;
  const { make, button, copy, place, bookmark, remarks, counter } = walebook;
  const { edition, named, titleOf, names, together, shortOf, isMarked, farSaid, mode } = walebook.pieces;

  /** @type {wb.Face["whereSaid"]} */
  function whereSaid({ part, knitting }) {
    return place.isDone(part, knitting) ? "all done" : `step ${knitting.step + 1} of ${part.steps.length}`;
  }

  /** @type {wb.Face["headSaid"]} */
  function headSaid(now) {
    const step = now.part.steps[now.knitting.step];
    return step && step.section ? `${whereSaid(now)}, ${step.section}` : whereSaid(now);
  }

  // What a voice and a screen reader say of the place.
  /** @type {wb.Face["spoken"]} */
  function spoken({ part, name, knitting }) {
    return place.isDone(part, knitting) ? `${titleOf(name)} is done.` : counter.spoken(part, knitting, mode());
  }

  /** @type {wb.Face["forwardSaid"]} */
  function forwardSaid({ part, knitting }) {
    if (place.isDone(part, knitting)) return ["All done"];
    const step = part.steps[knitting.step];
    if (mode() === place.ROWS && place.isCounted(step) && knitting.rows < step.rows) {
      return ["Row done ", make("small", {}, `${knitting.rows + 1} of ${step.rows}`)];
    }
    return ["Done ", make("small", {}, "go on")];
  }

  /** @type {wb.Face["body"]} */
  function body(now, act, open) {
    return place.isDone(now.part, now.knitting) ? ended(now, open) : working(now, act);
  }

  /** @type {(now: wb.Now, open: (name: string) => void) => Node[]} */
  function ended({ name }, open) {
    const every = names();
    const after = every.slice(every.indexOf(name) + 1).find((each) => farSaid(each) !== "done");
    return [make("p", { class: "wb-bench-do" }, `${titleOf(name)} is done.`),
      after ? button(`Go on with ${titleOf(after)}`, () => open(after), { class: "wb-main-button" })
        : make("p", {}, "It is the last part of this page."),
    ];
  }

  // The instruction, the counter, the step's checks, and then all else that the page says of it.
  /** @type {(now: wb.Now, act: (action: wb.Action) => void) => (string | Node)[]} */
  function working(now, act) {
    const { part, knitting } = now;
    const step = part.steps[knitting.step];
    const content = [...step.item.childNodes].map(copy);
    const lead = counter.lead(part, knitting, mode()) || ownLead(content);
    lead.classList.add("wb-bench-do");
    const facts = part.hasCounter
      ? [counter.face(part, knitting, mode()), counter.standing(part, knitting)] : [];
    const checks = counter.isLast(part, knitting) ? content.filter(isCheck) : [];
    const rest = make("div", { class: "wb-bench-more" }, ...content.filter((node) => !checks.includes(node)));
    markRow(rest, counter.target(part, knitting));
    const remark = remarks.all(edition)[step.id];
    return [lead, ...facts, ...checks, wholeStep(now, act), rest,
      remark ? make("p", { class: "wb-bench-remark" }, make("b", {}, "Your remark: "), remark) : ""]
      .filter(Boolean);
  }

  // Takes the step's own first paragraph out of its content.
  /** @type {(content: Node[]) => HTMLElement} */
  function ownLead(content) {
    const lead = content.find((node) => node instanceof HTMLParagraphElement);
    if (!lead) return make("p", {});
    content.splice(content.indexOf(lead), 1);
    return lead;
  }

  /** @type {(node: Node) => boolean} */
  const isCheck = (node) => node instanceof Element && node.classList.contains("wb-check");

  /** @type {(now: wb.Now, act: (action: wb.Action) => void) => string | Node} */
  function wholeStep({ part, knitting }, act) {
    const step = part.steps[knitting.step];
    if (mode() !== place.ROWS || !place.isCounted(step) || knitting.rows === step.rows) return "";
    return button("The whole step is done", () => act("finish"), { class: "wb-whole" });
  }

  // In a list of rows, the row that comes next is marked.
  /** @type {(rest: Element, at: number) => void} */
  function markRow(rest, at) {
    for (const row of rest.querySelectorAll(".wb-rows > li, .wb-scroll tbody tr")) {
      const number = row.querySelector("b");
      if (number && Number(number.textContent) === at) row.setAttribute("aria-current", "step");
    }
  }

  /** @type {wb.Face["pairButtons"]} */
  function pairButtons(now, open) {
    const members = together(now.name);
    if (members.length < 2) return [];
    return members.map((name) => {
      const isHere = name === now.name;
      const made = button(`${shortOf(name)}: ${farSaid(name).replace("step ", "")}`, () => open(name),
        { "aria-pressed": String(isHere) });
      if (!isHere && isMarked(name)) made.append(make("small", { class: "wb-bench-other" }, otherSaid(name)));
      return made;
    });
  }

  // What is to be done next at the other part of a marked pair, and what its counter shows.
  /** @type {(name: string) => string} */
  function otherSaid(name) {
    const part = named(name);
    const at = place.within(part, bookmark.placeOf(edition, name) || place.begin());
    if (place.isDone(part, at)) return "";
    return ` Counter ${place.counter(part, at)}, carriage ${place.side(part, at)}: ${
      counter.spoken(part, at, mode())}`;
  }

  walebook.face = { whereSaid, headSaid, spoken, forwardSaid, body, pairButtons };
}(window.walebook = window.walebook || {}));
