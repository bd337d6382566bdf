// Asks the knitter where she goes on when what is stored does not fit the page. `go(knitting)` is
// called with her choice; closed without one, nothing is changed.
(function (walebook) {
  "use strict";
  const says = BENCH_TEXTS.ask;
  const { make, button, place } = walebook;
  const ASIDE = says.thePlaceThat;

  /** @type {(id: string, title: string, told: wb.Child[], choices: [string, wb.Knitting, wb.Attributes?][], go: wb.Go) => void} */
  function sheet(id, title, told, choices, go) {
    const made = walebook.sheet(title, [...told, ...choices.map(([label, knitting, attributes]) =>
      button(label, () => {
        made.close();
        go(knitting);
      }, attributes))], { id });
  }

  const MAIN = { class: "wb-main-button" };

  /** @type {wb.Ask["changed"]} */
  function changed(title, part, changes, put, go) {
    const fresh = changes.steps.fresh;
    const version = changes.from === changes.to ? says.itsVersionNumber
      : says.itWasVersion(changes.from, changes.to);
    const told = fresh.length ? says.newOrDifferent(fresh.map((n) => n + 1).join(", "))
      : says.noStepOf;
    const counts = changes.counts.length
      ? [make("p", {}, says.whatChangedIn), make("ul", {}, ...changes.counts.map((each) =>
        make("li", {}, says.before(each.name, each.now, each.before))))]
      : [make("p", {}, says.noCountOf)];
    const on = place.within(part, { step: changes.step, rows: 0 });
    sheet("wb-changed", says.thePatternHas, [
      make("p", {}, says.thePatternHasChanged(title, version)),
      ...put, make("p", {}, told), ...counts,
      make("p", {}, says.aPieceThat),
    ], [
      [on.step < part.steps.length ? says.goOnAt(on.step + 1) : says.itIsDone,
        { ...on, past: [] }, MAIN],
      [says.beginThisPart, place.begin()],
    ], go);
  }

  /** @type {wb.Ask["damaged"]} */
  function damaged(title, { damage, step = 0 }, go) {
    const why = damage === "newer"
      ? says.itWasStored
      : says.whatIsStored;
    /** @type {[string, wb.Knitting, wb.Attributes?][]} */
    const on = step ? [[says.goOnAt(step + 1), { step, rows: 0, past: [] }, MAIN]] : [];
    sheet("wb-damaged", says.yourPlaceCannot, [
      make("p", {}, says.yourPlaceIn(title, why)),
      make("p", {}, says.itIsNot),
      make("p", {}, step ? says.itStillNames(step + 1) : says.startAgainThen),
    ], [...on, [says.startThisPart, place.begin(), step ? {} : MAIN]], go);
  }

  walebook.ask = { changed, damaged, ASIDE };
}(window.walebook = window.walebook || {}));
