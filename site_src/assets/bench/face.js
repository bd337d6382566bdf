// What the bench shows of the place that the knitter is at: texts, and elements made anew.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.face;
  if (!walebook.pieces) return;
  const { make, button, place, bookmark, remarks, counter, drawn, beds } = walebook;
  const { edition, named, titleOf, names, together, shortOf, isMarked, farText, mode } = walebook.pieces;
  const LONG = 80; // characters of an act that is set no larger than how it is done
  const ONE_LINE = 22; // characters of a check that lie side by side on a phone
  const SENTENCE = /(?<=[.:;])\s+(?=[A-Z])/;

  /** @type {wb.Face["whereText"]} */
  function whereText({ part, knitting }) {
    return place.isDone(part, knitting) ? texts.allDone : texts.stepOf(knitting.step + 1, part.steps.length);
  }

  // Piece and section, and the step; in a shaping or a chart also which of its lines.
  /** @type {wb.Face["head"]} */
  function head(now) {
    const step = now.part.steps[now.knitting.step];
    const own = edition.own ? `${edition.own}. ` : "";
    if (!step) return [titleOf(now.name), own + whereText(now)];
    const { lands } = step;
    const line = lands.filter((at) => at <= now.knitting.rows).length;
    const section = step.section ? `, ${step.section.charAt(0).toLowerCase()}${step.section.slice(1)}` : "";
    return [titleOf(now.name) + section, own + (lands.length > 1 ? texts.stepLineOf(now.knitting.step + 1, line, lands.length) : whereText(now))];
  }

  // What a voice and a screen reader say of the place.
  /** @type {wb.Face["spoken"]} */
  function spoken({ part, name, knitting }) {
    return place.isDone(part, knitting) ? texts.isDone(titleOf(name)) : counter.spoken(part, knitting, mode());
  }

  /** @type {wb.Face["nextText"]} */
  function nextText({ part, knitting }) {
    if (place.isDone(part, knitting)) return "";
    const next = counter.next(part, knitting, mode());
    return next ? texts.next(next.charAt(0).toLowerCase(), next.slice(1)) : texts.thisIsThe;
  }

  /** @type {wb.Face["forwardText"]} */
  function forwardText({ part, knitting }, leaf, leaves, isByPlace) {
    if (place.isDone(part, knitting)) return [texts.allDone2];
    const step = part.steps[knitting.step];
    if (isByPlace) return [texts.done, make("small", {}, texts.of(leaf + 1, leaves))];
    if (leaf < leaves - 1) return [texts.goOn, make("small", {}, texts.of(leaf + 1, leaves))];
    if (mode() === place.ROWS && place.isCounted(step) && knitting.rows < step.rows) {
      return [texts.rowDone, make("small", {}, texts.of(knitting.rows + 1, step.rows))];
    }
    return [texts.done2];
  }

  /** @type {wb.Face["body"]} */
  function body(now, width, act, open) {
    return place.isDone(now.part, now.knitting) ? ended(now, open) : working(now, width, act);
  }

  /** @type {(now: wb.Now, open: (name: string) => void) => HTMLElement[]} */
  function ended({ name }, open) {
    const every = names();
    const after = every.slice(every.indexOf(name) + 1).find((each) => farText(each) !== "done");
    return [make("p", { class: "wb-bench-do" }, texts.isDone(titleOf(name))),
      after ? button(texts.goOnWith(titleOf(after)), () => open(after), { class: "wb-main-button" })
        : make("p", { class: "wb-bench-how" }, texts.itIsThe),
    ];
  }

  // In the order of doing: the acts, each with how it is done, the number to knit to, the carriage,
  // the needles, and the check.
  /** @type {(now: wb.Now, whole: number, act: (action: wb.Action) => void) => HTMLElement[]} */
  function working(now, whole, act) {
    const { part, knitting } = now;
    const step = part.steps[knitting.step];
    const moment = counter.moment(part, knitting, mode());
    const width = moment.acts.some((each) => each.to) && part.hasCounter ? whole - walebook.fit.beside() : whole;
    const isCompact = moment.acts.length > 1;
    const shown = moment.acts.flatMap((each) => begun([...actOf(each.to && isCompact ? joined(each) : each, moment.isHowKnown),
      ...(each.to && part.hasCounter ? targetOf(now, width, isCompact) : [])]));
    const before = shown.findIndex((each) => each.classList.contains("wb-counter"));
    shown.splice(moment.chart ? Math.max(0, before) : shown.length, 0, ...needlesOf(moment, width));
    const remark = remarks.all(edition)[step.id];
    return [...walebook.corrected.atStep(now.name, knitting.step, now.began), ...shown, ...carriageAlone(now, moment, width), ...standing(part, knitting), ...wholeStep(now, act),
      ...checkOf(now, moment),
      ...(remark ? [make("p", { class: "wb-bench-remark" }, make("b", {}, texts.yourNote), remark)] : [])];
  }

  // Where an act begins: a step that has no room on one screen is parted there.
  /** @type {(shown: HTMLElement[]) => HTMLElement[]} */
  function begun(shown) {
    if (shown.length) shown[0].classList.add("wb-begins");
    return shown;
  }

  // Rows that stand beside their number: what is said of them names them again.
  /** @type {(each: wb.Act) => wb.Act} */
  const joined = (each) => ({ ...each, act: "", how: each.how && `${each.act}${each.comma} ${each.how}` });

  /** @type {(each: wb.Act, isKnown: boolean) => HTMLElement[]} */
  function actOf({ act, how, places, side, stressed, reasons, comma }, isKnown) {
    const sentences = how ? how.split(SENTENCE) : [];
    return [...(act ? [make("p", { class: `wb-bench-do${act.length > LONG ? " wb-long" : ""}` }, side ? make("span", { class: "wb-side" }, side) : "", side ? " " : "", act)] : []),
      ...(sentences.length ? [make("p", { class: `wb-bench-how${isKnown ? " wb-known" : ""}${act || places.length ? "" : " wb-alone"}` },
        ...sentences.flatMap((each, n) => [make("span", { class: sentenceCss(each, act && !n ? comma || " " : "", stressed, reasons) }, each), " "]))] : []),
      ...(places.length ? [make("ul", { class: "wb-bench-places" }, ...places.map((each) => make("li", {}, each)))] : [])];
  }

  // What goes on `after` an act in its sentence stays: without it the act cannot be done. So does a sentence
  // in which something is stressed; one that gives a reason is folded first. Behind a comma it is an addition.
  /** @type {(text: string, after: string, stressed: string[], reasons: string[]) => string} */
  function sentenceCss(text, after, stressed, reasons) {
    const isReason = reasons.some((each) => each.includes(text));
    const isStressed = stressed.some((each) => text.includes(each));
    const goesOn = after && !isReason && /^[a-z(]/.test(text);
    return `wb-sentence${isStressed || goesOn ? " wb-stays" : ""}${goesOn && !isStressed && after === "," ? " wb-added" : ""}${
      isReason ? " wb-reason" : ""}`;
  }

  // The number on the machine's row counter, the one to knit to, and the carriage on its way.
  /** @type {(now: wb.Now, width: number, isCompact: boolean) => HTMLElement[]} */
  function targetOf({ part, knitting }, width, isCompact) {
    const step = part.steps[knitting.step];
    const [from, goal] = [place.counter(part, knitting), counter.target(part, knitting)];
    const counted = mode() === place.ROWS && place.isCounted(step);
    const lead = make("p", { class: "wb-counter-now" }, ...(isCompact
      ? [make("span", {}, texts.knit(counter.rowsText(goal - from))), " ", make("span", {}, texts.counter), make("b", {}, String(from)), texts.to]
      : [texts.rowCounter, make("b", {}, String(from)), texts.knitTo]));
    const number = make("p", { class: "wb-counter-goal" }, make("b", {}, String(goal)));
    const rows = counted ? make("p", { class: "wb-counter-rows" }, texts.ofDone(knitting.rows, counter.rowsText(step.rows), knitting.rows === step.rows ? "" : texts.toGo(step.rows - knitting.rows))) : "";
    const strip = make("div", { class: "wb-strip-box" },
      drawn.strip(width, place.side(part, knitting), counter.sideThen(part, knitting), goal - from),
      make("span", { class: "wb-unseen" }, texts.carriageOnThe(place.side(part, knitting), counter.sideThen(part, knitting))));
    const outline = isCompact || goal > 99 ? null : pieceOf(part, knitting);
    const box = outline ? make("div", { class: "wb-piece-box" }, outline) : "";
    return [make("div", { class: `wb-counter wb-digits-${String(goal).length}${isCompact ? " wb-compact" : ""}` }, lead, number, box, rows), strip];
  }

  // Where a step knits no row and yet moves the carriage.
  /** @type {(now: wb.Now, moment: wb.Moment, width: number) => HTMLElement[]} */
  function carriageAlone({ part, knitting }, moment, width) {
    const was = place.before(part, knitting.step).side;
    const { side, rows } = part.steps[knitting.step];
    if (rows || side === was || moment.acts.some((each) => each.to) || !part.hasCounter) return [];
    return [make("div", { class: "wb-strip-box" }, drawn.strip(width, was, side, 1))];
  }

  /** @type {(moment: wb.Moment, width: number) => HTMLElement[]} */
  function needlesOf({ lies: bed, chart }, width) {
    if (!bed) return [];
    const drawnNow = chart ? chart.rows[chart.here].drawn : [];
    const busy = drawnNow.flatMap((each) => each.needles).sort((a, b) => a - b);
    const about = busy.length ? busy : bed.about;
    if (!about.length || !(bed.work.length + bed.held.length)) return [];
    const wide = width - (busy.length ? 22 : 0);
    const out = [make("div", { class: "wb-needles-box" }, drawn.needles(wide, bed, about, drawnNow.map((each) => each.kind)))];
    if (!chart || !busy.length) return out;
    return [...out, make("div", { class: "wb-chart-box" }, drawn.chart(wide, chart.rows, chart.here, bed, busy))];
  }

  // Dial and yarn of a step that knits.
  /** @type {(part: wb.Part, at: wb.Place) => HTMLElement[]} */
  function standing(part, at) {
    const step = part.steps[at.step];
    const facts = step.rows ? [step.dial ? texts.dial(step.dial) : "", step.yarn].filter(Boolean) : [];
    return facts.length ? [make("p", { class: "wb-standing" }, facts.join(", "))] : [];
  }

  // The piece's outline with its line at the row that is knitted to. Waste yarn on the stitches that
  // are taken off turns the counter on too, and is no row of the piece.
  /** @type {(part: wb.Part, at: wb.Place) => SVGElement | null} */
  function pieceOf(part, at) {
    const goal = counter.target(part, at);
    return drawn.piece(part.key, ...counter.inPiece(part, at, part.steps[at.step].rows ? goal : null));
  }

  /** @type {(now: wb.Now, act: (action: wb.Action) => void) => HTMLElement[]} */
  function wholeStep({ part, knitting }, act) {
    const step = part.steps[knitting.step];
    if (mode() !== place.ROWS || !place.isCounted(step) || knitting.rows === step.rows) return [];
    return [button(texts.theWholeStep, () => act("finish"), { class: "wb-whole" })];
  }

  // The check: stitches, needles, carriage, and the row counter where no number stands above.
  /** @type {(now: wb.Now, moment: wb.Moment) => HTMLElement[]} */
  function checkOf(now, moment) {
    const { part, knitting } = now;
    const step = part.steps[knitting.step];
    const isEnd = counter.isLast(part, knitting) && step.item.querySelector(".wb-check");
    if (!isEnd && !moment.left) return [];
    /** @type {[string, string, boolean?][]} */
    const boxes = moment.bed && (isEnd || moment.bed.work.length) ? bedBoxes(moment.bed)
      : [[texts.inWork, moment.left]];
    boxes.push(...machineBoxes(now, isEnd && !moment.acts.some((each) => each.to)));
    const facts = boxes.map(([label, value, isSame]) => make("div", { class: isSame && "wb-same" }, make("dt", {}, label), make("dd", {}, value)));
    const long = boxes.map(([label, value]) => Math.max(value.length + 1, label.length / 2 + 1)).reduce((a, b) => a + b);
    const css = long > ONE_LINE && boxes.length === 4 ? "wb-bench-check wb-two" : "wb-bench-check";
    return [make("div", { class: css, role: "group", "aria-label": texts.check }, make("dl", {}, ...facts))];
  }

  // Row counter, where it is asked for, and carriage; what the step did not change can be given up.
  /** @type {(now: wb.Now, withCounter: boolean | Element | null) => [string, string, boolean][]} */
  function machineBoxes({ part, knitting }, withCounter) {
    const { rows, counter: number } = part.steps[knitting.step];
    const was = place.before(part, knitting.step);
    const side = counter.sideThen(part, knitting);
    return [...(withCounter ? [/** @type {[string, string, boolean]} */ (["counter", String(number), !rows && number === was.counter])] : []),
      ["carriage", side, !rows && side === was.side]];
  }

  /** @type {(bed: wb.Bed) => [string, string][]} */
  function bedBoxes(bed) {
    const { work, held, second, empty, loops } = bed;
    const all = [...held, ...work];
    /** @type {[string, string][]} */
    const out = held.length && work.length
      ? [[texts.inWork, String(work.length)], ["needles", beds.span(work)], ["held", String(held.length)]]
      : [[held.length ? "held" : "stitches", String(all.length)]];
    if (all.length && !(held.length && work.length)) out.push(["needles", beds.span(all)]);
    if (second.length) out.push([texts.secondBed, `${second.length}`], [texts.itsNeedles, beds.span(second)]);
    loops.forEach(([number, many]) => out.push(many === all.length ? [texts.loopsOnEach, String(number)] : [texts.withLoops(number), String(many)]));
    if (empty.length) out.push([texts.emptyNeedles, String(empty.length)]);
    return out;
  }

  // In a list of rows, the row that comes next is marked.
  /** @type {wb.Face["markRow"]} */
  function markRow(within, at) {
    for (const row of within.querySelectorAll(".wb-rows > li, .wb-scroll tbody tr")) {
      const number = row.querySelector("b");
      if (number && Number(number.textContent) === at) row.setAttribute("aria-current", "step");
    }
  }

  /** @type {wb.Face["pairButtons"]} */
  function pairButtons(now, open) {
    const members = together(now.name);
    if (members.length < 2 || !isMarked(now.name)) return [];
    return members.map((name) => {
      const isHere = name === now.name;
      const made = button(`${shortOf(name)}: ${farText(name).replace("step ", "")}`, () => open(name),
        { "aria-pressed": String(isHere) });
      if (!isHere) made.append(make("small", { class: "wb-bench-other" }, otherText(name)));
      return made;
    });
  }

  // What the counter and the carriage of the other part of a marked pair show, and what is next there.
  /** @type {(name: string) => string} */
  function otherText(name) {
    const part = named(name);
    const at = place.within(part, bookmark.placeOf(edition, name) || place.begin());
    if (place.isDone(part, at)) return "";
    return texts.counterCarriage(place.counter(part, at), place.side(part, at), counter.spoken(part, at, mode()));
  }

  walebook.face = { whereText, head, spoken, nextText, forwardText, body, markRow, pairButtons };
}(window.walebook = window.walebook || {}));
