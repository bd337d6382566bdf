// Reads the steps of the page as data. The page is the only source: the pattern, its parts and
// their yarns are in its facts, what a step tells is its text, what it does to counter, carriage,
// dial, yarn and needles stands on its list. DEVELOPERS.md has the list of what is read.
(function (walebook) {
  "use strict";
  const texts = TEXTS.steps;
  const RUN = /^(\d+)([lr])(?:\+(\d+))?(?:d([\d.]+))?(?:y(\d*))?(?:@([\d:,]+))?$/;

  /** @type {wb.Steps["textOf"]} */
  function textOf(node) {
    return node ? (node.textContent || "").replace(/\s+/g, " ").trim() : "";
  }

  // A short digest of a text (FNV-1a, 32 bits): tells that a step has changed, no more.
  /** @type {wb.Steps["digest"]} */
  function digest(text) {
    let hash = 0x811c9dc5;
    for (let n = 0; n < text.length; n += 1) {
      hash = Math.imul(hash ^ text.charCodeAt(n), 0x01000193);
    }
    return (hash >>> 0).toString(36);
  }

  // Rows at which something is done within a step, each with what is done and what is left in work.
  // What the last act says is done at every row, unless each row has its own act.
  /** @type {(item: Element, written: string[][], acts: wb.Act[]) => wb.Stop[]} */
  function stopsOf(item, written, acts) {
    const listed = [...item.querySelectorAll(".wb-rows > li")];
    const own = acts.filter((each) => !each.to).map((each) => each.act);
    const { act } = acts[acts.length - 1] || { act: "" };
    if (listed.length) {
      return listed.map((row) => {
        const counter = textOf(row.querySelector("b"));
        return stop(counter, act, textOf(row).slice(counter.length));
      });
    }
    /** @type {NodeListOf<HTMLTableRowElement>} */
    const rows = item.querySelectorAll(".wb-scroll tbody tr");
    if (rows.length) return [...rows].map((row) => ofTable(row));
    return written.map(([counter, left], n) => stop(counter, own.length === written.length ? own[n] : act, left || ""));
  }

  /** @type {(counter: string, act: string, left: string) => wb.Stop} */
  function stop(counter, act, left) {
    return { counter: Number(counter), acts: [{ side: "", act }], left: left.trim() };
  }

  /** @type {(row: HTMLTableRowElement) => wb.Stop} */
  function ofTable(row) {
    const table = row.closest("table");
    const heads = table ? [...table.querySelectorAll("thead th")].map(textOf) : [];
    const cells = [...row.cells].map(textOf);
    const acts = heads.map((head, n) => [head, cells[n]]).slice(1, -1)
      .filter(([, cell]) => cell !== "–").map(([side, act]) => ({ side, act }));
    return { counter: Number(textOf(row.querySelector("b"))), left: cells[cells.length - 1],
      acts: acts.length ? acts : [{ side: "", act: texts.nothingToDo }] };
  }

  // The stops that lie within the rows of a step, each with its needles where the page has them.
  /** @type {(stops: wb.Stop[], from: number, knitted: number, beds: wb.Bed[]) => wb.Reached[]} */
  function within(stops, from, knitted, beds) {
    return (knitted ? stops : [])
      .map((each, n) => ({ ...each, at: each.counter - from, bed: beds.length === stops.length ? beds[n] : null }))
      .filter((each, n, all) => each.at >= 0 && each.at <= knitted && (n === 0 || each.at > all[n - 1].at));
  }

  // Rows of a step at which one stops: where a shaping does something, and around each row of a
  // chart before which something is done.
  /** @type {(knitted: number, stops: wb.Reached[], chart: wb.ChartRow[]) => number[]} */
  function landsOf(knitted, stops, chart) {
    const busy = chart.filter((row) => row.acts.length).flatMap((row) => [row.at, row.at + 1]);
    return [...new Set([0, ...stops.map((each) => each.at), ...busy])]
      .filter((at) => at === 0 || (at > 0 && at < knitted)).sort((a, b) => a - b);
  }

  // The hanging table of a band, and its section that a step hangs: the first step after which the
  // needles of the section's table hold more loops. A section without a table follows the one before.
  /** @type {(part: wb.Part, bed: wb.Bed | undefined, knitted: number) => wb.Step["hung"]} */
  function hungOf({ key, steps }, bed, knitted) {
    const head = document.getElementById(`${key}-hanging`);
    const table = head && head.nextElementSibling;
    if (!(table instanceof HTMLElement) || knitted || !bed || !bed.loops.length) return { table: null, section: null };
    const every = [...table.children].filter((each) => each.matches("p"));
    const section = every.slice(every.length > 1 ? 1 : 0)[steps.filter((step) => step.hung.table).length];
    return section && isOver(section, bed) ? { table, section } : { table: null, section: null };
  }

  // True where the table under a section has the needles at the ends of those that a step is about.
  /** @type {(section: Element, bed: wb.Bed) => boolean} */
  function isOver({ nextElementSibling: box }, bed) {
    const named = box ? [...box.querySelectorAll("tbody tr > :first-child")].map(textOf) : [];
    const about = bed.about.length ? bed.about : bed.work;
    const ends = [Math.min(...about), Math.max(...about)].map(walebook.beds.name);
    return !named.length || ends.every((end) => [named[0], named[named.length - 1]].includes(end));
  }

  /** @type {(item: HTMLElement, tokens: wb.Tokens, before: wb.Standing, part: wb.Part, section: string) => wb.Step} */
  function stepOf(item, tokens, before, part, section) {
    const [, counter, side, rows, dial, yarn, stops] = RUN.exec(tokens.run)
      || ["", String(before.counter), "r"];
    const written = stops ? stops.split(",").map((each) => each.split(":")) : [];
    const knitted = Number(rows || 0);
    const { acts, more } = walebook.acts.read(item);
    const reached = within(stopsOf(item, written, acts), Number(counter) - knitted, knitted, tokens.beds);
    const chart = walebook.beds.rows(part.chart, tokens.rows, Number(counter), knitted);
    return {
      id: item.id,
      item,
      section,
      acts,
      more,
      text: acts.length ? walebook.acts.few({ acts }) : textOf(item.querySelector("p")),
      lead: textOf(item.querySelector("p b")) || textOf(item.querySelector("p")),
      digest: digest(textOf(item)),
      rows: knitted,
      counter: Number(counter),
      side: side === "l" ? "left" : "right",
      dial: dial === undefined ? before.dial : dial,
      yarn: yarn === undefined ? before.yarn : part.yarns[Number(yarn)] || "",
      bed: tokens.beds[tokens.beds.length - 1] || null,
      stops: reached,
      chart,
      hung: hungOf(part, tokens.beds[tokens.beds.length - 1], knitted),
      lands: landsOf(knitted, reached, chart),
    };
  }

  // Returns the parts of the page: pieces, bands and the making up, in the page's order.
  /** @type {wb.Steps["read"]} */
  function read(root) {
    /** @type {Map<string, wb.Part>} */
    const parts = new Map();
    /** @type {NodeListOf<HTMLElement>} */
    const lists = root.querySelectorAll("ol.wb-steps");
    for (const list of lists) {
      const first = list.querySelector(":scope > li[id]");
      if (!first) continue;
      const key = first.id.replace(/-\d+$/, "");
      const part = parts.get(key) || partOf(root, key, list);
      parts.set(key, part);
      addSteps(part, list);
    }
    return [...parts.values()];
  }

  /** @type {(root: ParentNode, key: string, list: HTMLElement) => wb.Part} */
  function partOf(root, key, list) {
    const { yarns = [], pieces = [], bands = [], making_up: makingUp = [] } = factsOf(root) || {};
    const piece = pieces.find((each) => each.id === key);
    const part = piece || bands.find((each) => each.id === key);
    return {
      key,
      ...headingOf(root, key, part, makingUp),
      times: (piece && piece.times) || 1,
      starts: { counter: 0, side: part ? part.starts : "", dial: "", yarn: "" },
      yarns: part ? part.yarns.map((place) => yarns[place]) : [],
      hasCounter: "wbRun" in list.dataset,
      chart: dataOf(root, `${key}-rows`),
      steps: [],
    };
  }

  // The heading and the title of a piece or band, or of the making up.
  /** @type {(root: ParentNode, key: string, part: {title: string} | undefined,
   *    makingUp: {id: string, heading: string, title: string}[])
   *    => {heading: HTMLElement | null, title: string}} */
  function headingOf(root, key, part, makingUp) {
    const finishing = part ? undefined : makingUp.find((each) => each.id === key);
    const named = part || finishing;
    return {
      heading: root.querySelector(`h2[id="${finishing ? finishing.heading : key}"]`),
      title: named ? named.title : key,
    };
  }

  /** @type {(part: wb.Part, list: HTMLElement) => void} */
  function addSteps(part, list) {
    const title = list.previousElementSibling;
    const section = title && title.tagName === "H3" ? textOf(title).replace(/\s*¶$/, "") : "";
    /** @type {NodeListOf<HTMLElement>} */
    const items = list.querySelectorAll(":scope > [id]");
    const runs = (list.dataset.wbRun || "").split(" ");
    const rows = (list.dataset.wbRows || "").split(" ");
    const last = part.steps[part.steps.length - 1];
    const beds = walebook.beds.list(list.dataset.wbBed || "", items.length, last ? last.bed : null);
    items.forEach((item, n) => {
      const before = part.steps[part.steps.length - 1] || part.starts;
      const tokens = { run: runs[n] || "", rows: rows[n] || "", beds: beds[n] };
      part.steps.push(stepOf(item, tokens, before, part, section));
    });
  }

  // The facts that the page carries as data; null on a page that is of no pattern.
  /** @type {(root: ParentNode) => wb.Facts | null} */
  const factsOf = (root) => dataOf(root, "wb-facts");

  // What the page carries as data under an id, or null.
  /** @type {(root: ParentNode, id: string) => any} */
  function dataOf(root, id) {
    const block = root.querySelector(`[id="${id}"]`);
    return block ? JSON.parse(block.textContent || "null") : null;
  }

  // The pattern, version and size the page is of; null on a page without steps.
  /** @type {wb.Steps["edition"]} */
  function edition(root) {
    const facts = factsOf(root);
    if (!facts || !facts.size) return null;
    const { pattern, version, size, sizes, heading = "", side_by_side: pairs = [], former = [] } = facts;
    const own = root.querySelector("[data-wb-own]");
    const formerSizes = (facts.former_sizes || []).filter(({ now }) => now === size).map((one) => one.page);
    const page = { pattern, version, size: sizes[size], title: heading, pairs, former, formerSizes, own: "" };
    if (!(own instanceof HTMLElement)) return page;
    // The reader's own page: what is kept of it stands beside what is kept of the designer's.
    const behind = `.${own.dataset.wbOwn}`;
    return { ...page, size: `${page.size}${behind}`, formerSizes: formerSizes.map((each) => `${each}${behind}`),
      title: texts.myGauge(heading), own: own.dataset.wbMark || "" };
  }

  // Every count of the page by its name, so that two versions can be compared.
  /** @type {wb.Steps["counts"]} */
  function counts(root) {
    const facts = factsOf(root);
    return (facts && facts.counts) || {};
  }

  // What was corrected in this size, with the first version that has it.
  /** @type {wb.Steps["corrections"]} */
  function corrections(root) {
    const facts = factsOf(root);
    return (facts && facts.corrections) || [];
  }

  // The address of a link to the designer: the pattern's, else the collection's, else "".
  /** @type {wb.Steps["contact"]} */
  function contact(root) {
    const facts = factsOf(root);
    return (facts && facts.contact) || document.body.dataset.wbContact || "";
  }

  walebook.steps = { read, edition, counts, corrections, contact, digest, textOf };
}(window.walebook = window.walebook || {}));
