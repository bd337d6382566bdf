// Reads what a step asks for off its marks: an act stands in b, the clause that names a target in i,
// an explanation in small, what is stressed in em. Nothing depends on what the words mean.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.acts;
  const { textOf } = walebook.steps;

  /** @type {(text: string) => string} */
  const bare = (text) => text.replace(/\s+/g, " ").replace(/\s*\(\s*\)/g, "").replace(/\s+([.,:;])/g, "$1")
    .replace(/^[\s.,:;]+/, "").replace(/[\s,:;]+$/, "").trim();
  /** @type {(text: string) => string} */
  const act = (text) => text.replace(/\s+/g, " ").replace(/[\s.,:;]+$/, "").trim();

  // A link that only names how a thing is done is none of the step's words.
  /** @type {(node: Node) => boolean} */
  const isHow = (node) => node instanceof HTMLAnchorElement
    && (node.classList.contains("wb-how") || node.classList.contains("wb-way"));

  /** @type {(acts: wb.Act[], text: string) => void} */
  function addText(acts, text) {
    const last = acts[acts.length - 1];
    if (last && !last.places.length) last.how += text;
    else if (bare(text)) acts.push({ act: "", how: text, to: false, places: [], stressed: [], reasons: [], side: "", comma: "" });
  }

  /** @type {(acts: wb.Act[], node: Node, found: { more: boolean }) => void} */
  function take(acts, node, found) {
    const last = acts[acts.length - 1];
    if (node.nodeName === "B") acts.push({ act: act(textOf(node)), how: "", to: false, places: [], stressed: [], reasons: [], side: "", comma: "" });
    else if (node.nodeName === "I" && last) last.to = true;
    else if (isHow(node)) found.more = true;
    else {
      addText(acts, node.textContent || "");
      if (node.nodeName === "EM") acts[acts.length - 1].stressed.push(textOf(node));
      if (node.nodeName === "SMALL") acts[acts.length - 1].reasons.push(textOf(node));
    }
  }

  // The acts of a step in their order, with how each is done; `more` where the page says more.
  /** @type {wb.Acts["read"]} */
  function read(item) {
    /** @type {wb.Act[]} */
    const acts = [];
    /** @type {{ more: boolean }} */
    const found = { more: false };
    for (const block of item.children) {
      if (block.matches("p.wb-check")) continue;
      if (block.matches("p")) {
        [...block.childNodes].forEach((node) => take(acts, node, found));
        if (acts.length) acts[acts.length - 1].how += " ";
      } else if (block.matches("ul.wb-holes") && acts.length) {
        acts[acts.length - 1].places.push(...[...block.children].map(textOf));
      } else found.more = true;
    }
    acts.forEach((each) => {
      each.comma = /^\s*,/.test(each.how) ? "," : "";
      each.how = bare(each.how);
    });
    return { acts, more: found.more };
  }

  /** @type {wb.Acts["few"]} */
  function few(step) {
    const named = step.acts.filter((each) => each.act);
    return (named.length ? named : step.acts.slice(0, 1)).map((each) => each.act || each.how.replace(/\. .*$/, ""))
      .map((each, n) => (n ? each.charAt(0).toLowerCase() + each.slice(1) : each)).join("; ");
  }

  // All that a step asks for, for a voice.
  /** @type {wb.Acts["whole"]} */
  function whole(step) {
    return step.acts.map((each) => [[each.side, each.act].filter(Boolean).join(": "),
      each.to ? texts.untilTheRow(step.counter) : "",
      each.how ? `${/^[a-z(]/.test(each.how) || !each.act ? `${each.comma} ` : ". "}${each.how}` : "",
      each.places.length ? `: ${each.places.join(". ")}` : ""].join("").replace(/[.:]$/, "").trim()).join(". ");
  }

  walebook.acts = { read, few, whole };
}(window.walebook = window.walebook || {}));
