// What stands on the bench at a place: the instruction, the counter, carriage, dial and yarn.
(function (walebook) {
  "use strict";
  const { make, place } = walebook;

  /** @type {(rows: number) => string} */
  const rowsSaid = (rows) => `${rows} ${rows === 1 ? "row" : "rows"}`;
  /** @type {(left: string) => string} */
  const inWork = (left) => (left ? ` Then ${left} in work.` : "");
  /** @type {(text: string) => string} */
  const sentence = (text) => (/[.!]$/.test(text) ? text : `${text}.`);

  // The row at which something is done here and now, and the one that comes next.
  /** @type {(part: wb.Part, at: wb.Place, mode: wb.Mode) => { here: wb.Reached | undefined, ahead: wb.Reached[] }} */
  function stopsAt(part, at, mode) {
    const { stops } = part.steps[at.step];
    const here = stops.find((stop) => stop.at === at.rows);
    return {
      here: mode === place.ROWS || at.rows === 0 ? here : undefined,
      ahead: stops.filter((stop) => stop.at > at.rows),
    };
  }

  // What is to be done now as pieces of text, every second one to be stressed; none where the
  // step's own words say it.
  /** @type {(part: wb.Part, at: wb.Place, mode: wb.Mode) => string[]} */
  function pieces(part, at, mode) {
    if (part.steps[at.step].stops.length < 2) return [];
    const { here, ahead } = stopsAt(part, at, mode);
    const said = here ? [`Counter at ${here.counter}: `, sentence(here.act), inWork(here.left)] : [""];
    if (!ahead.length || (here && mode === place.ROWS)) return said;
    const [first] = ahead;
    const before = said.pop();
    return [...said, before ? `${before} ` : "", `Knit ${rowsSaid(first.at - at.rows)},`,
      ` until the row counter shows ${first.counter}. Then: `, sentence(first.act), inWork(first.left)];
  }

  /** @type {wb.Counter["instruction"]} */
  const instruction = (part, at, mode) => pieces(part, at, mode).join("");

  /** @type {wb.Counter["lead"]} */
  function lead(part, at, mode) {
    const said = pieces(part, at, mode);
    return said.length ? make("p", {}, ...said.map((text, n) => (n % 2 ? make("b", {}, text) : text)))
      : null;
  }

  // What comes after a place, in a few words.
  /** @type {wb.Counter["next"]} */
  function next(part, at, mode) {
    const { here, ahead } = stopsAt(part, at, mode);
    const stop = ahead[here && mode === place.ROWS ? 0 : 1];
    if (part.steps[at.step].stops.length > 1 && stop) return `at ${stop.counter}: ${stop.act}`;
    const after = part.steps[at.step + 1];
    return after ? after.text : "this part is done";
  }

  // True where the end of the step comes next, so that its check holds when it is done.
  /** @type {wb.Counter["isLast"]} */
  function isLast(part, at) {
    return part.steps[at.step].stops.filter((stop) => stop.at > at.rows).length < 2;
  }

  /** @type {wb.Counter["target"]} */
  function target(part, at) {
    const step = part.steps[at.step];
    if (step.rows && step.stops.length > 1) {
      const ahead = step.stops.find((stop) => stop.at > at.rows);
      return ahead ? ahead.counter : step.counter;
    }
    return step.counter;
  }

  // Number and target of the row counter, and how many rows of the step are done; "" for a step
  // that leaves the counter as it is.
  /** @type {wb.Counter["face"]} */
  function face(part, at, mode) {
    const step = part.steps[at.step];
    const [now, goal] = [place.counter(part, at), target(part, at)];
    const counted = mode === place.ROWS && place.isCounted(step);
    if (!step.rows && goal === now) return "";
    const parts = [make("p", { class: "wb-counter-now" }, "Row counter ", make("b", {}, String(now)))];
    if (goal !== now) {
      parts.push(make("p", { class: "wb-counter-goal" }, step.rows ? "knit to " : "then ",
        make("b", {}, String(goal))));
    }
    if (step.rows && (counted || at.rows)) {
      parts.push(make("p", { class: "wb-counter-rows" },
        `${at.rows} of ${rowsSaid(step.rows)} done${at.rows === step.rows ? "" : `, ${step.rows - at.rows} to go`}`));
    }
    return make("div", { class: "wb-counter" }, ...parts);
  }

  // Carriage, dial and yarn as they are after the step; what the step changes is marked as such.
  /** @type {wb.Counter["standing"]} */
  function standing(part, at) {
    const step = part.steps[at.step];
    const was = place.before(part, at.step);
    const side = place.side(part, at);
    const ahead = step.stops.find((stop) => stop.at > at.rows);
    const then = ahead ? place.side(part, { step: at.step, rows: ahead.at }) : step.side;
    const carriage = then === side ? `Carriage on the ${side}`
      : `Carriage on the ${side}, then on the ${then}`;
    const quiet = !step.rows && step.counter === place.counter(part, at);
    const facts = quiet ? [`Row counter ${step.counter}`, carriage] : [carriage];
    if (step.dial) facts.push(step.dial === was.dial ? `Dial ${step.dial}` : `Dial now ${step.dial}`);
    if (step.yarn !== was.yarn) facts.push(step.yarn ? `Feeder now: ${step.yarn}` : "Feeder now empty");
    else if (step.yarn) facts.push(`Feeder: ${step.yarn}`);
    return make("ul", { class: "wb-standing" }, ...facts.map((fact) => make("li",
      { class: / now |then on/.test(fact) ? "wb-changed" : false }, fact)));
  }

  // What a screen reader and a voice are told at a place.
  /** @type {wb.Counter["spoken"]} */
  function spoken(part, at, mode) {
    const step = part.steps[at.step];
    if (at.rows > 0 && mode === place.ROWS && !step.stops.some((stop) => stop.at === at.rows)) {
      const left = step.rows - at.rows;
      return `Row ${at.rows} of ${step.rows}, counter ${place.counter(part, at)}${
         left ? "." : ". All rows of this step are knitted."}`;
    }
    return instruction(part, at, mode) || step.text;
  }

  walebook.counter = { instruction, lead, isLast, next, target, face, standing, spoken };
}(window.walebook = window.walebook || {}));
