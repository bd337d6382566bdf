// Where the knitter is in a part, and what moves her: pure, knows no page and keeps nothing.
// A place is {step, rows}: the step being worked, from 0, and the rows of it already knitted.
// Past the last step (step = number of steps) the part is done.
(function (walebook) {
  "use strict";
  /** @type {wb.Places["ROWS"]} */
  const ROWS = "rows"; // each row is counted
  /** @type {wb.Places["STEPS"]} */
  const STEPS = "steps"; // each step is confirmed; a shaping, each row at which something is done

  /** @type {() => wb.Place} */
  const start = () => ({ step: 0, rows: 0 });

  /** @type {wb.Places["isDone"]} */
  const isDone = (part, at) => at.step >= part.steps.length;

  // True for a step whose rows are worth counting: one row is confirmed with its step.
  /** @type {wb.Places["isCounted"]} */
  function isCounted(step) {
    return step.rows > 1 || step.stops.length > 1;
  }

  // The rows of a step from which, step by step, one goes on: its beginning, all stops but the last,
  // and each row of a chart before which something is done.
  /** @type {wb.Places["landings"]} */
  const landings = (step) => step.lands;

  /** @type {(part: wb.Part, at: wb.Place, mode: wb.Mode) => wb.Place} */
  function forward(part, at, mode) {
    if (isDone(part, at)) return at;
    const step = part.steps[at.step];
    if (mode === ROWS && isCounted(step) && at.rows < step.rows) {
      return { step: at.step, rows: at.rows + 1 };
    }
    const next = mode === STEPS ? landings(step).find((rows) => rows > at.rows) : undefined;
    return next === undefined ? { step: at.step + 1, rows: 0 } : { step: at.step, rows: next };
  }

  /** @type {(part: wb.Part, at: wb.Place, mode: wb.Mode) => wb.Place} */
  function back(part, at, mode) {
    if (at.rows > 0) {
      const rows = mode === ROWS ? at.rows - 1
        : Math.max(...landings(part.steps[at.step]).filter((each) => each < at.rows));
      return { step: at.step, rows };
    }
    if (at.step === 0) return at;
    const earlier = part.steps[at.step - 1];
    const rows = mode === ROWS ? (isCounted(earlier) ? earlier.rows : 0)
      : Math.max(...landings(earlier));
    return { step: at.step - 1, rows };
  }

  // The nearest place that the part has: what was kept may be of a longer part.
  /** @type {wb.Places["within"]} */
  function within(part, at) {
    const step = Math.min(Math.max(0, at.step), part.steps.length);
    const most = step < part.steps.length ? part.steps[step].rows : 0;
    return { step, rows: step === at.step ? Math.min(Math.max(0, at.rows), most) : 0 };
  }

  /** @type {wb.Places["before"]} */
  function before(part, step) {
    return step > 0 ? part.steps[step - 1] : part.starts;
  }

  // What the machine's row counter shows at a place.
  /** @type {wb.Places["counter"]} */
  function counter(part, at) {
    const step = part.steps[at.step];
    if (!step || !step.rows) return before(part, at.step).counter;
    return step.counter - step.rows + at.rows;
  }

  // The side the carriage stands on at a place.
  /** @type {wb.Places["side"]} */
  function side(part, at) {
    const step = part.steps[at.step];
    if (!step || !step.rows) return before(part, at.step).side;
    const other = step.side === "left" ? "right" : "left";
    return (step.rows - at.rows) % 2 ? other : step.side;
  }

  /** @type {Record<wb.Move, (part: wb.Part, at: wb.Place, mode: wb.Mode, step: number) => wb.Place>} */
  const ACTIONS = {
    forward,
    jump: (part, _at, _mode, step) => within(part, { step, rows: 0 }),
    // The whole step, whatever is still to be counted of it.
    finish: (part, at) => within(part, { step: at.step + 1, rows: 0 }),
  };

  // A knitting is {step, rows, past}: a place and every place before it. Acts never change one.
  /** @type {wb.Places["act"]} */
  function act(part, knitting, action, mode, step = 0) {
    const at = { step: knitting.step, rows: knitting.rows };
    if (action === "undo") return undo(part, knitting, mode);
    const next = ACTIONS[action](part, at, mode, step);
    if (next.step === at.step && next.rows === at.rows) return knitting;
    return { ...next, past: [...knitting.past, [at.step, at.rows]] };
  }

  // Going back and undoing are one thing: the last act is taken back, and where none is kept one
  // goes to the place before.
  /** @type {(part: wb.Part, knitting: wb.Knitting, mode: wb.Mode) => wb.Knitting} */
  function undo(part, knitting, mode) {
    if (knitting.past.length) {
      const [step, rows] = knitting.past[knitting.past.length - 1];
      return { step, rows, past: knitting.past.slice(0, -1) };
    }
    const to = back(part, knitting, mode);
    return to === knitting ? knitting : { ...to, past: [] };
  }

  /** @type {wb.Places["begin"]} */
  const begin = () => ({ ...start(), past: [] });

  walebook.place = { ROWS, STEPS, begin, act, isDone, isCounted, counter, side, before, within,
    landings };
}(window.walebook = window.walebook || {}));
