// "Report this step": a text for the designer with pattern, version, size, piece and step. The page
// sends nothing: the knitter copies the text, or opens it in her own mail program.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.report;
  if (!walebook.pieces) return;
  const { make, button } = walebook;
  const { edition, parts, named, names, titleOf } = walebook.pieces;
  const MAIL = "mailto:";
  const contact = walebook.steps.contact(document);

  // The text: what the page knows of a step, then the knitter's own words.
  /** @type {wb.Report["text"]} */
  function text(name, step, words) {
    const { steps } = named(name);
    const began = walebook.corrected.begunWith(name);
    const older = began && began !== edition.version ? texts.begunWithVersion(began) : "";
    const version = texts.version(edition.title, edition.version, older);
    const stepText = texts.stepOf(titleOf(name), step + 1, steps.length, steps[step].text);
    return `${version}\n${stepText}\n\n${words}\n`;
  }

  /** @type {(name: string, step: number, words: string) => string} */
  const address = (name, step, words) => (contact.startsWith(MAIL)
    ? `${contact}?subject=${encodeURIComponent(texts.step(edition.title, titleOf(name), step + 1))}&body=${
      encodeURIComponent(text(name, step, words).replace(/\n/g, "\r\n"))}` : contact);

  // Copies by the browser, where it lets a page do so; else what is selected is hers to copy.
  /** @type {(field: HTMLTextAreaElement, notify: wb.Notify) => void} */
  function copy(field, notify) {
    const byHand = () => {
      field.focus();
      field.select();
      notify(texts.theTextIs);
    };
    if (!navigator.clipboard) byHand();
    else navigator.clipboard.writeText(field.value).then(() => notify(texts.copied), byHand);
  }

  /** @type {(name: string, at: number) => HTMLSelectElement} */
  const choice = (name, at) => make("select", { id: "wb-report-step" }, ...named(name).steps.map(
    (step, n) => make("option", { value: String(n), selected: n === at }, `${n + 1}: ${step.lead.slice(0, 60)}`)));

  /** @type {wb.Report["ask"]} */
  function ask(name, at) {
    const step = choice(name, at);
    const words = make("textarea", { id: "wb-report-words", rows: "3", maxlength: "1000" });
    const whole = make("textarea", { id: "wb-report-text", rows: "6", readonly: true });
    const line = make("p", { role: "status" });
    const isMail = contact.startsWith(MAIL);
    const link = make("a", { href: contact, ...(isMail ? {} : { target: "_blank", rel: "noopener" }) },
      isMail ? texts.openInYour : texts.openTheDesigners);
    const write = () => {
      whole.value = text(name, Number(step.value), words.value.trim());
      link.href = address(name, Number(step.value), words.value.trim());
    };
    step.addEventListener("change", write);
    words.addEventListener("input", write);
    write();
    walebook.sheet(texts.reportAStep(titleOf(name)), [
      make("p", {}, texts.writeToThe),
      make("p", {}, make("label", { for: "wb-report-step" }, texts.step2), step),
      make("label", { for: "wb-report-words" }, texts.whatDidYou), words,
      make("label", { for: "wb-report-text" }, texts.theText), whole,
      make("p", {}, button(texts.copyTheText, () => copy(whole, (result) => { line.textContent = result; })), " ", link), line,
    ], { class: "wb-sheet wb-sheet-long wb-report-sheet md-typeset" });
    words.focus();
  }

  // A button at the head of each part of the page, beside the one that begins it.
  function show() {
    for (const part of contact ? parts : []) {
      const name = names().find((each) => named(each) === part);
      const inside = part.heading && document.getElementById(`${part.heading.id}-steps`);
      if (name && inside) {
        const press = button(texts.reportAStep2, () => ask(name, 0));
        press.append(make("span", { class: "wb-unseen" }, texts.of(part.title)));
        inside.prepend(make("p", { class: "wb-report" }, press));
      }
    }
  }

  walebook.report = { ask, text, isOffered: Boolean(contact) };
  show();
}(window.walebook = window.walebook || {}));
