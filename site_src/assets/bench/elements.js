// Makes elements of the page. Text is always set as text, never read as markup.
(function (walebook) {
  "use strict";
  const texts = TEXTS.elements;
  // The needles of a range stand on one line.
  const RANGE = /\b([LR]\d+) to (?=[LR]\d)/g;

  // make("p", {class: "x"}, "text", element, …); attributes that are false, null or undefined are
  // left out, functions become listeners ({click: …}).
  /** @type {wb.Make} */
  function make(tag, attributes, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes || {})) {
      if (typeof value === "function") made.addEventListener(name, value);
      else if (value !== false && value !== null && value !== undefined) {
        made.setAttribute(name, value === true ? "" : value);
      }
    }
    for (const child of children) {
      if (child) made.append(typeof child === "string" ? child.replace(RANGE, "$1\u00a0to\u00a0") : child);
    }
    return made;
  }

  /** @type {Walebook["button"]} */
  function button(label, press, attributes) {
    return make("button", { type: "button", click: press, ...attributes }, label);
  }

  // A copy whose ids are its own, so that no id stands twice and its labels still hold.
  /** @type {Walebook["copy"]} */
  function copy(node) {
    const made = document.importNode(node, true);
    if (!(made instanceof Element)) return made;
    const all = [made, ...made.querySelectorAll("*")];
    for (const each of all) {
      if (each.id) each.id = `${each.id}-copy`;
      for (const name of ["aria-labelledby", "aria-describedby"]) {
        const names = each.getAttribute(name);
        if (names) each.setAttribute(name, names.split(" ").map((id) => `${id}-copy`).join(" "));
      }
    }
    made.querySelectorAll(".headerlink").forEach((mark) => mark.remove());
    return made;
  }

  // A window over the page with a heading and a button that closes it; shown at once.
  /** @type {Walebook["sheet"]} */
  function sheet(title, body, attributes) {
    const heading = make("h2", { id: `wb-sheet-${sheets += 1}`, tabindex: "-1" }, title);
    const shut = button(texts.close, () => made.close(), { class: "wb-sheet-close" });
    const made = make("dialog", { class: "wb-sheet md-typeset", "aria-labelledby": heading.id,
      ...attributes }, make("div", { class: "wb-sheet-top" }, heading, shut), ...body);
    made.addEventListener("close", () => made.remove());
    document.body.append(made);
    made.showModal();
    heading.focus();
    return made;
  }
  let sheets = 0;

  /** @type {Walebook["isRecord"]} */
  function isRecord(value) {
    return typeof value === "object" && value !== null && !Array.isArray(value);
  }

  Object.assign(walebook, { make, button, copy, sheet, isRecord });
}(window.walebook = window.walebook || {}));
