// What is to be done at a place: its acts in the order of doing, the row counter to knit to, the
// needles concerned, and the check that holds then.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.counter;
  const { place, acts } = walebook;

  /** @type {(rows: number) => string} */
  const rowsText = (rows) => `${rows} ${rows === 1 ? "row" : "rows"}`;
  /** @type {(text: string) => string} */
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  /** @type {(text: string, to?: boolean, how?: string) => wb.Act} */
  const act = (text, to = false, side = "") => ({ act: text, how: "", to, places: [], stressed: [], reasons: [], side, comma: "" });

  // The row at which something is done here and now, and the ones that come after it.
  /** @type {(step: wb.Step, at: wb.Place, mode: wb.Mode) => { here: wb.Reached | undefined, ahead: wb.Reached[] }} */
  function stopsAt({ stops }, at, mode) {
    const here = stops.find((stop) => stop.at === at.rows);
    return {
      here: mode === place.ROWS || at.rows === 0 ? here : undefined,
      ahead: stops.filter((stop) => stop.at > at.rows),
    };
  }

  /** @type {(stop: wb.Reached) => wb.Act[]} */
  const actsOf = (stop) => stop.acts.map((each) => act(capital(each.act), false, each.side));

  // What is set before the first line of a shaping; how its lines are worked stands in its last act.
  /** @type {(step: wb.Step, at: wb.Place) => wb.Act[]} */
  function before(step, at) {
    const main = step.acts[step.acts.length - 1];
    return at.rows === 0 && main.to ? step.acts.slice(0, -1).filter((each) => !each.to) : [];
  }

  // The last line of a table is worked as the step's last act says.
  /** @type {(step: wb.Step, line: wb.Act) => void} */
  function howOf(step, line) {
    const { how, stressed, reasons } = step.acts[step.acts.length - 1];
    Object.assign(line, { how, stressed, reasons });
  }

  // A shaping: the rows up to the next line of its list, then what that line says.
  /** @type {(step: wb.Step, at: wb.Place, mode: wb.Mode) => wb.Moment} */
  function shaping(step, at, mode) {
    const { here, ahead } = stopsAt(step, at, mode);
    const coming = here && mode === place.ROWS ? undefined : ahead[0];
    const done = here ? actsOf(here) : [];
    const then = coming ? actsOf(coming) : [];
    const last = [...done, ...then].pop();
    if (last) howOf(step, last);
    const rows = coming ? coming.at - at.rows : 0;
    const shown = coming || here;
    return { acts: [...before(step, at), ...done, ...(rows ? [act(texts.knit(rowsText(rows)), true)] : []), ...then],
      rows, bed: shown ? shown.bed : null, lies: shown ? shown.bed : null, left: shown ? shown.left : "", isHowKnown: at.rows > 0, chart: null };
  }

  // The needles before a row of a chart, where the page has them.
  /** @type {(part: wb.Part, at: wb.Place) => wb.Bed | null} */
  function bedAt(part, at) {
    const { stops } = part.steps[at.step];
    const reached = stops.filter((stop) => stop.at <= at.rows).pop();
    return reached ? reached.bed : at.step ? part.steps[at.step - 1].bed : null;
  }

  // What is checked when some rows of a step are knitted: nothing between two lines of its list.
  /** @type {(step: wb.Step, rows: number) => { bed: wb.Bed | null, left: string }} */
  function checkedAt(step, rows) {
    const stop = step.stops.find((each) => each.at === rows);
    return { bed: stop ? stop.bed : rows === step.rows ? step.bed : null, left: stop ? stop.left : "" };
  }

  // Rows of a chart: what is done before the row, then the row, or several that are plain. The check
  // is that of the row counter's target; the needles are those that the row, or what follows it, is about.
  /** @type {(part: wb.Part, at: wb.Place, mode: wb.Mode) => wb.Moment} */
  function charted(part, at, mode) {
    const step = part.steps[at.step];
    const row = step.chart[at.rows];
    const until = step.lands.find((each) => each > at.rows) || step.rows;
    const goal = mode === place.ROWS ? at.rows + 1 : until;
    const stop = step.stops.find((each) => each.at === goal);
    const { bed, left } = checkedAt(step, until);
    const rows = goal - at.rows;
    const main = step.acts[step.acts.length - 1];
    const then = stop ? actsOf(stop) : step.acts.filter((each, n) => n && !each.to && goal === step.rows);
    if (stop && then.length && main) howOf(step, then[then.length - 1]);
    const ready = row.acts.length ? row.acts : [{ act: texts.knitPlain, how: "" }];
    return { acts: [...ready.map((each) => ({ ...act(capital(each.act)), how: each.how })), act(texts.knit(rowsText(rows)), true), ...then],
      rows, bed, lies: row.drawn.length ? bedAt(part, at) : goal === until ? bed : null, left, isHowKnown: at.rows > 0,
      chart: { rows: step.chart, here: at.rows } };
  }

  /** @type {wb.Counter["moment"]} */
  function moment(part, at, mode) {
    const step = part.steps[at.step];
    if (step.chart.length && at.rows < step.rows) return charted(part, at, mode);
    if (step.stops.length > 1) return shaping(step, at, mode);
    return { acts: step.acts, rows: step.rows - at.rows, bed: step.bed, lies: step.bed, left: "", isHowKnown: false, chart: null };
  }

  // What comes after a place, in a few words; "" at the end.
  /** @type {wb.Counter["next"]} */
  function next(part, at, mode) {
    const step = part.steps[at.step];
    const after = place.act(part, { ...at, past: [] }, "forward", mode);
    if (after.step >= part.steps.length) return "";
    if (after.step !== at.step) return acts.few(part.steps[after.step]);
    const { acts: coming } = moment(part, after, mode);
    const named = coming.filter((each) => !each.to);
    const actText = named.map((each) => (each.side ? `${each.side}: ${each.act}` : each.act)).join("; ").toLowerCase()
      .replace(/\b[lr](?=\d)/g, (side) => side.toUpperCase());
    return step.chart.length ? actText : texts.to(target(part, after), actText ? texts.then(actText) : "");
  }

  // True where the end of the step comes next, so that its check holds when it is done.
  /** @type {wb.Counter["isLast"]} */
  function isLast(part, at) {
    const step = part.steps[at.step];
    return !step.lands.some((each) => each > at.rows);
  }

  /** @type {wb.Counter["target"]} */
  function target(part, at) {
    const step = part.steps[at.step];
    const ahead = step.lands.find((each) => each > at.rows);
    const stop = step.stops.find((each) => each.at > at.rows);
    if (step.chart.length && ahead !== undefined) return step.counter - step.rows + ahead;
    if (step.rows && step.stops.length > 1) return stop ? stop.counter : step.counter;
    return step.counter;
  }

  // The side on which the carriage stands when the next target is reached.
  /** @type {wb.Counter["sideThen"]} */
  function sideThen(part, at) {
    const step = part.steps[at.step];
    const rows = target(part, at) - place.counter(part, at);
    return step.rows ? place.side(part, { step: at.step, rows: at.rows + Math.max(0, rows) }) : step.side;
  }

  // How far a piece is knitted: the row, the last one, and whether it is its hem still. Rows are
  // counted from where the counter was set to 0 for the last time at the piece's foot.
  /** @type {wb.Counter["inPiece"]} */
  function inPiece({ steps }, at, row = null) {
    const zero = steps.map((step) => step.counter === 0 && !step.rows).lastIndexOf(true);
    const last = Math.max(...steps.slice(Math.max(0, zero)).filter((step) => step.rows).map((step) => step.counter));
    const step = steps[at.step];
    if (!step) return [last, last, false];
    const now = step.rows ? step.counter - step.rows + at.rows : Math.min(step.counter, at.step ? steps[at.step - 1].counter : step.counter);
    return [row === null ? now : row, last, at.step < zero];
  }

  // What a screen reader and a voice are told at a place.
  /** @type {wb.Counter["spoken"]} */
  function spoken(part, at, mode) {
    const step = part.steps[at.step];
    if (at.rows > 0 && mode === place.ROWS && !step.chart.length && !step.stops.some((stop) => stop.at === at.rows)) {
      const left = step.rows - at.rows;
      return texts.rowOfCounter(at.rows, step.rows, place.counter(part, at), left ? "." : texts.allRowsOf);
    }
    const now = moment(part, at, mode);
    return `${acts.whole({ acts: now.acts, counter: target(part, at) })}.`;
  }

  walebook.counter = { moment, inPiece, isLast, next, target, sideThen, spoken, rowsText };
}(window.walebook = window.walebook || {}));
