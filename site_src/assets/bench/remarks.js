// The knitter's own remarks, one a step, kept on her device.
(function (walebook) {
  "use strict";
  const texts = TEXTS.remarks;
  const { store, isRecord } = walebook;
  const LONGEST = 2000;

  /** @type {(edition: wb.SizeOf) => string} */
  const keyOf = (edition) => `remarks/${edition.pattern}/${edition.size}`;

  /** @type {wb.Remarks["isRemarks"]} */
  function isRemarks(kept) {
    return isRecord(kept)
      && Object.values(kept).every((text) => typeof text === "string" && text.length <= LONGEST);
  }

  /** @type {wb.Remarks["all"]} */
  function all(edition) {
    const kept = store.get(keyOf(edition));
    return isRemarks(kept) ? kept : {};
  }

  // Keeps a remark, or takes it away where the text is empty; others are left as they are.
  /** @type {wb.Remarks["keep"]} */
  function keep(edition, step, text) {
    const remarks = { ...all(edition) };
    const note = text.trim().slice(0, LONGEST);
    if (note) remarks[step] = note;
    else delete remarks[step];
    return store.set(keyOf(edition), remarks, isRemarks);
  }

  /** @type {wb.Remarks["ask"]} */
  function ask(edition, step, number, done) {
    const { make, button } = walebook;
    const field = make("textarea", { id: "wb-remark", rows: "5", maxlength: String(LONGEST) });
    field.value = all(edition)[step.id] || "";
    const isDamaged = store.text(keyOf(edition)) !== null && !isRemarks(store.get(keyOf(edition)));
    const sheet = walebook.sheet(texts.yourNoteOn(number), [
      isDamaged ? make("p", {}, texts.theNotesThat) : "",
      make("label", { for: "wb-remark" }, texts.itIsKept), field,
      button(texts.keepTheNote, () => {
        keep(edition, step.id, field.value);
        sheet.close();
        done();
      }, { class: "wb-main-button" }),
    ]);
    field.focus();
  }

  walebook.remarks = { all, keep, ask, isRemarks };
}(window.walebook = window.walebook || {}));
