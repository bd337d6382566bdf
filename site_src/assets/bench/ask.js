// Asks the knitter where she goes on when what is stored does not fit the page. `go(knitting)` is
// called with her choice; closed without one, nothing is changed.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.ask;
  const { make, button, place } = walebook;
  const ASIDE = texts.thePlaceThat;

  /** @type {(id: string, title: string, body: wb.Child[], choices: [string, wb.Knitting, wb.Attributes?][], go: wb.Go) => void} */
  function sheet(id, title, body, choices, go) {
    const made = walebook.sheet(title, [...body, ...choices.map(([label, knitting, attributes]) =>
      button(label, () => {
        made.close();
        go(knitting);
      }, attributes))], { id });
  }

  const MAIN = { class: "wb-main-button" };

  /** @type {wb.Ask["changed"]} */
  function changed(title, part, changes, put, go) {
    const fresh = changes.steps.fresh;
    const version = changes.from === changes.to ? texts.itsVersionNumber
      : texts.itWasVersion(changes.from, changes.to);
    const changesText = fresh.length ? texts.newOrDifferent(fresh.map((n) => n + 1).join(", "))
      : texts.noStepOf;
    const counts = changes.counts.length
      ? [make("p", {}, texts.whatChangedIn), make("ul", {}, ...changes.counts.map((each) =>
        make("li", {}, texts.before(each.name, each.now, each.before))))]
      : [make("p", {}, texts.noCountOf)];
    const on = place.within(part, { step: changes.step, rows: 0 });
    sheet("wb-changed", texts.thePatternHas, [
      make("p", {}, texts.thePatternHasChanged(title, version)),
      ...put, make("p", {}, changesText), ...counts,
      make("p", {}, texts.aPieceThat),
    ], [
      [on.step < part.steps.length ? texts.goOnAt(on.step + 1) : texts.itIsDone,
        { ...on, past: [] }, MAIN],
      [texts.beginThisPart, place.begin()],
    ], go);
  }

  /** @type {wb.Ask["damaged"]} */
  function damaged(title, { damage, step = 0 }, go) {
    const why = damage === "newer"
      ? texts.itWasStored
      : texts.whatIsStored;
    /** @type {[string, wb.Knitting, wb.Attributes?][]} */
    const on = step ? [[texts.goOnAt(step + 1), { step, rows: 0, past: [] }, MAIN]] : [];
    sheet("wb-damaged", texts.yourPlaceCannot, [
      make("p", {}, texts.yourPlaceIn(title, why)),
      make("p", {}, texts.itIsNot),
      make("p", {}, step ? texts.itStillNames(step + 1) : texts.startAgainThen),
    ], [...on, [texts.startThisPart, place.begin(), step ? {} : MAIN]], go);
  }

  walebook.ask = { changed, damaged, ASIDE };
}(window.walebook = window.walebook || {}));
