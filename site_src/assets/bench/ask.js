// Asks the knitter where she goes on when what is stored does not fit the page. `go(knitting)` is
// called with her choice; closed without one, nothing is changed.
(function (walebook) {
  "use strict";
  const { make, button, place } = walebook;
  const ASIDE = "The place that was stored for this part cannot be read. It is kept aside.";

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
    const version = changes.from === changes.to ? "Its version number is the same."
      : `It was version ${changes.from} and is now version ${changes.to}.`;
    const told = fresh.length ? `New or different steps in this part: ${fresh.map((n) => n + 1).join(", ")}.`
      : "No step of this part is new or different.";
    const counts = changes.counts.length
      ? [make("p", {}, "What changed in your size:"), make("ul", {}, ...changes.counts.map((each) =>
        make("li", {}, `${each.name}: ${each.now} (before: ${each.before})`)))]
      : [make("p", {}, "No count of your size that was known has changed.")];
    const on = place.within(part, { step: changes.step, rows: 0 });
    sheet("wb-changed", "The pattern has changed", [
      make("p", {}, `The pattern has changed since you last knitted ${title}. ${version}`),
      ...put, make("p", {}, told), ...counts,
      make("p", {}, "A piece that was begun by the old counts may not fit one knitted by the new."),
    ], [
      [on.step < part.steps.length ? `Go on at step ${on.step + 1}` : "It is done: keep it so",
        { ...on, past: [] }, MAIN],
      ["Begin this part again", place.begin()],
    ], go);
  }

  /** @type {wb.Ask["damaged"]} */
  function damaged(title, { damage, step = 0 }, go) {
    const why = damage === "newer"
      ? "It was stored by a newer version of this site. Reload the page: the newer version may be here."
      : "What is stored is damaged.";
    /** @type {[string, wb.Knitting, wb.Attributes?][]} */
    const on = step ? [[`Go on at step ${step + 1}`, { step, rows: 0, past: [] }, MAIN]] : [];
    sheet("wb-damaged", "Your place cannot be read", [
      make("p", {}, `Your place in ${title} cannot be read. ${why}`),
      make("p", {}, "It is not deleted. It is kept aside on this device, and it goes into the file "
        + "when you save to a file."),
      make("p", {}, step ? `It still names step ${step + 1}. Check your row counter and your stitches `
        + "before you go on there." : "Start again, then choose your step under “All steps”."),
    ], [...on, ["Start this part again", place.begin(), step ? {} : MAIN]], go);
  }

  walebook.ask = { changed, damaged, ASIDE };
}(window.walebook = window.walebook || {}));
