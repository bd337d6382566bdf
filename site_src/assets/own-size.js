// The reader's size, in tables of all sizes: its column is marked, and where a table moves sideways
// it stands beside the first one and stays there. Her size is the last whose page she opened, until
// she chooses another above the table. Without this script the columns are in the pattern's order.
(function (walebook) {
  "use strict";
  const texts = TEXTS.ownSize;
  const { store, make, steps } = walebook;
  const block = document.getElementById("wb-facts");
  if (!block) return;
  /** @type {{ pattern: string, size?: string, sizes: Record<string, string>, former_sizes?: wb.FormerSize[] }} */
  const facts = JSON.parse(block.textContent || "{}");
  const key = `chosen/${facts.pattern}`;
  /** @type {wb.Sound} */
  const isSize = (kept) => typeof kept === "string" && (kept === "" || Object.keys(facts.sizes).includes(kept));

  function chosen() {
    const kept = store.get(key);
    const before = (facts.former_sizes || []).find(({ label }) => label === kept);
    if (before) return before.now;
    return typeof kept === "string" && isSize(kept) ? kept : "";
  }

  if (facts.size && facts.size !== chosen()) store.set(key, facts.size, isSize);
  /** @type {HTMLTableElement[]} */
  const tables = [...document.querySelectorAll("table.wb-table")].filter((each) => each instanceof HTMLTableElement)
    .filter((each) => Object.keys(facts.sizes).length > 1
      && Object.keys(facts.sizes).every((size) => heads(each).some((head) => steps.textOf(head) === size)));

  /** @type {(table: HTMLTableElement) => HTMLElement[]} */
  function heads(table) {
    return table.tHead ? [...table.tHead.rows[0].cells] : [];
  }

  /** @type {(row: HTMLTableRowElement, from: number, to: number) => void} */
  function move(row, from, to) {
    const cell = row.cells[from];
    if (from !== to) row.insertBefore(cell, row.cells[from < to ? to + 1 : to]);
  }

  // Puts every column in its place again, then the chosen one where it belongs.
  /** @type {(table: HTMLTableElement) => void} */
  function arrange(table) {
    const region = table.parentElement;
    const order = Object.keys(facts.sizes);
    const rows = [...table.rows].filter((row) => row.cells.length === order.length + 1);
    table.querySelectorAll(".wb-own").forEach((cell) => cell.classList.remove("wb-own"));
    const now = heads(table).slice(1).map(steps.textOf);
    const first = now[0];
    const home = order.indexOf(first);
    if (home > 0 && now[1] === order[0]) rows.forEach((row) => move(row, 1, home + 1));
    const at = order.indexOf(chosen()) + 1;
    if (!at || !region) return;
    const isWider = table.offsetWidth > region.clientWidth;
    rows.forEach((row) => {
      row.cells[at].classList.add("wb-own");
      if (isWider) move(row, at, 1);
    });
    region.style.setProperty("--wb-first", `${heads(table)[0].offsetWidth}px`);
  }

  const list = make("select", { id: "wb-own-size", change: () => {
    store.set(key, list.value, isSize);
    show();
  } }, make("option", { value: "" }, texts.allAlike), ...Object.keys(facts.sizes).map((size) => make("option", { value: size }, size)));

  function show() {
    list.value = chosen();
    tables.forEach(arrange);
  }

  // A table that is shut has no width until it is opened.
  const watcher = new ResizeObserver(show);
  const choice = document.querySelector(".wb-unit-choice");
  if (!tables.length || !choice) return;
  choice.after(make("p", { class: "wb-own-choice" }, make("label", { for: list.id }, texts.yourSize), " ", list));
  tables.forEach((table) => { if (table.parentElement) watcher.observe(table.parentElement); });
  store.onOtherTab((name) => { if (name === key) show(); });
  show();
}(window.walebook = window.walebook || {}));
