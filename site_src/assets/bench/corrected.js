// What was corrected in this size since a part was begun: at the page's head, and at the step that a
// correction names, on the page and on the bench. Where she is in the part stays as it was.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.corrected;
  if (!walebook.pieces) return;
  const { make, bookmark } = walebook;
  const { edition, parts, named, names, titleOf } = walebook.pieces;
  const all = walebook.steps.corrections(document);

  // Below 0 where version a came before b: 1.9 before 1.10, and 1 is 1.0.0.
  /** @type {wb.Corrected["compare"]} */
  function compare(a, b) {
    const [one, other] = [a, b].map((each) => each.split(".").map(Number));
    const apart = [0, 1, 2].map((n) => (one[n] || 0) - (other[n] || 0));
    return apart.find((each) => each !== 0) || 0;
  }

  /** @type {(one: wb.Correction, key: string) => boolean} */
  const isOf = (one, key) => !one.parts || one.parts.includes(key);

  // The version of the page with which a part was begun, "" where it was not.
  /** @type {wb.Corrected["begunWith"]} */
  function begunWith(name) {
    const { kept } = bookmark.look(edition, named(name), name);
    return kept ? kept.began || kept.version : "";
  }

  // The corrections of a part that are later than the version with which it was begun.
  /** @type {wb.Corrected["since"]} */
  const since = (name, began) => (began ? all : [])
    .filter((one) => isOf(one, named(name).key) && compare(began, one.version) < 0);

  /** @type {(one: wb.Correction) => wb.Child[]} */
  const correctionText = (one) => [make("b", {}, texts.yourSizeChanged(one.version)), ` ${one.text} `];

  /** @type {wb.Corrected["ofPart"]} */
  const ofPart = (one) => make("p", {}, ...correctionText(one), one.step
    ? texts.ifYouHave(one.step)
    : texts.compareWhatYou);

  // What stands at a step, counted from 0: what names it, and at the first what names none.
  /** @type {wb.Corrected["atStep"]} */
  const atStep = (name, step, began) => since(name, began)
    .filter((one) => step === (one.parts && one.step ? one.step - 1 : 0))
    .map((one) => make("p", { class: "wb-corrected" }, ...correctionText(one), texts.youBeganWith,
      one.step ? texts.ifYouHavePassed
        : texts.compareWhatYou));

  // The number that the page shows beside a step: a second part of the making up goes on counting.
  /** @type {(step: wb.Step) => string} */
  const numberOf = (step) => step.id.replace(/^.*-/, "");

  // At the head of the page: each correction once, with the parts that were begun before it.
  /** @type {(one: wb.Correction) => HTMLElement | null} */
  function atHead(one) {
    const begun = names().filter((name) => since(name, begunWith(name)).includes(one));
    if (!begun.length) return null;
    const last = begun.map(titleOf).join("; ");
    const places = begun.map((name) => named(name)).filter((part, n, every) => every.indexOf(part) === n);
    const at = one.step || 0;
    const links = places.filter((part) => part.steps[at - 1]);
    return make("p", {}, ...correctionText(one), texts.begunWithAn(last),
      ...(links.length ? [texts.ifYouHaveNot]
        : [texts.compareWhatYou]),
      ...links.flatMap((part, n) => [n ? ", " : "",
        make("a", { href: `#${part.steps[at - 1].id}` }, texts.stepOf(numberOf(part.steps[at - 1]), part.title))]));
  }

  /** @type {wb.Corrected["show"]} */
  function show() {
    document.querySelectorAll(".wb-top .wb-corrected, .wb-steps .wb-corrected").forEach((old) => old.remove());
    const shown = all.flatMap((one) => atHead(one) || []);
    const head = document.querySelector(".wb-top .wb-edition");
    if (!shown.length || !head) return;
    head.after(make("section", { class: "wb-corrected", "aria-label": texts.correctedSinceYou }, ...shown));
    for (const part of parts) {
      const copies = names().filter((name) => named(name) === part);
      part.steps.forEach((step, n) => {
        const first = copies.map((name) => atStep(name, n, begunWith(name))).find((each) => each.length);
        if (first) step.item.prepend(...first);
      });
    }
  }

  walebook.corrected = { compare, begunWith, since, ofPart, atStep, show };
  show();
}(window.walebook = window.walebook || {}));
