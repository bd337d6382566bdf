// Reads the steps of the page as data. The page is the only source: what a step tells is its
// text, what it does to counter, carriage, dial and yarn stands on its list as data-wb-run.
(function (walebook) {
  "use strict";
  const RUN = /^(\d+)([lr])(?:\+(\d+))?(?:d([\d.]+))?(?:y(\d*))?(?:@([\d:,]+))?$/;
  const SIDES = { l: "left", r: "right" };

  function said(node) {
    return node ? node.textContent.replace(/\s+/g, " ").trim() : "";
  }

  // A short digest of a text (FNV-1a, 32 bits): tells that a step has changed, no more.
  function digest(text) {
    let hash = 0x811c9dc5;
    for (let n = 0; n < text.length; n += 1) {
      hash = Math.imul(hash ^ text.charCodeAt(n), 0x01000193);
    }
    return (hash >>> 0).toString(36);
  }

  // Rows at which something is done within a step, each with what is done and what is left in work.
  function stopsOf(item, written) {
    const listed = [...item.querySelectorAll(".wb-rows > li")];
    const act = said(item.querySelector("p b"));
    if (listed.length) {
      return listed.map((row) => {
        const counter = said(row.querySelector("b"));
        return stop(counter, act, said(row).slice(counter.length));
      });
    }
    const rows = [...item.querySelectorAll(".wb-scroll tbody tr")];
    if (rows.length) return rows.map((row) => ofTable(row));
    return written.map(([counter, left]) => stop(counter, act, left));
  }

  function stop(counter, act, left) {
    return { counter: Number(counter), act, left: left.trim() };
  }

  function ofTable(row) {
    const heads = [...row.closest("table").querySelectorAll("thead th")].map(said);
    const cells = [...row.cells].map(said);
    const acts = heads.map((head, n) => [head, cells[n]]).slice(1, -1)
      .filter(([, cell]) => cell !== "–").map(([head, cell]) => `${head}: ${cell}`);
    return stop(said(row.querySelector("b")), acts.join(". ") || "nothing to do",
      cells[cells.length - 1]);
  }

  function stepOf(item, token, before, yarns, section) {
    const [, counter, side, rows, dial, yarn, stops] = RUN.exec(token);
    const written = stops ? stops.split(",").map((each) => each.split(":")) : [];
    const knitted = Number(rows || 0);
    const from = Number(counter) - knitted;
    return {
      id: item.id,
      item,
      section,
      text: said(item.querySelector("p")),
      lead: said(item.querySelector("p b")) || said(item.querySelector("p")),
      digest: digest(said(item)),
      rows: knitted,
      counter: Number(counter),
      side: SIDES[side],
      dial: dial === undefined ? before.dial : dial,
      yarn: yarn === undefined ? before.yarn : yarns[yarn] || "",
      stops: (knitted ? stopsOf(item, written) : [])
        .map((each) => ({ ...each, at: each.counter - from }))
        .filter((each, n, all) => each.at >= 0 && each.at <= knitted
          && (n === 0 || each.at > all[n - 1].at)),
    };
  }

  // Returns the parts of the page: pieces, bands and the making up, in the page's order.
  function read(root) {
    const parts = new Map();
    for (const list of root.querySelectorAll("ol.wb-steps")) {
      const first = list.querySelector(":scope > li[id]");
      if (!first) continue;
      const key = first.id.replace(/-\d+$/, "");
      if (!parts.has(key)) parts.set(key, partOf(root, key, list));
      addSteps(parts.get(key), list);
    }
    return [...parts.values()];
  }

  function partOf(root, key, list) {
    const heading = root.querySelector(`h2[id="${key === "make-up" ? "making-up" : key}"]`);
    const title = heading ? said(heading).replace(/\s*¶$/, "") : key;
    return {
      key, heading, title: title.split(", knitted")[0],
      times: timesOf(root, key),
      starts: { counter: 0, side: list.dataset.wbStarts || "", dial: "", yarn: "" },
      yarns: JSON.parse(list.dataset.wbYarns || "[]"),
      hasCounter: "wbRun" in list.dataset,
      steps: [],
    };
  }

  function timesOf(root, key) {
    const top = root.querySelector("[data-wb-times]");
    const pair = top && top.dataset.wbTimes.split(" ").find((each) => each.startsWith(`${key}:`));
    return pair ? Number(pair.split(":")[1]) : 1;
  }

  function addSteps(part, list) {
    const title = list.previousElementSibling;
    const section = title && title.tagName === "H3" ? said(title).replace(/\s*¶$/, "") : "";
    const items = [...list.children].filter((item) => item.id);
    const tokens = (list.dataset.wbRun || "").split(" ");
    items.forEach((item, n) => {
      const before = part.steps[part.steps.length - 1] || part.starts;
      const told = RUN.test(tokens[n] || "") ? tokens[n] : `${before.counter}r`;
      part.steps.push(stepOf(item, told, before, part.yarns, section));
    });
  }

  // The pattern, version and size the page is of; null on a page without steps.
  function edition(root) {
    const top = root.querySelector("[data-wb-pattern]");
    if (!top) return null;
    const { wbPattern, wbVersion, wbSize, wbTitle, wbPairs } = top.dataset;
    return { pattern: wbPattern, version: wbVersion, size: wbSize, title: wbTitle, pairs: wbPairs || "" };
  }

  // Every count of the page by its name, so that two versions can be compared.
  function counts(root) {
    const found = {};
    for (const pair of root.querySelectorAll(".wb-facts > div")) {
      found[said(pair.querySelector("dt"))] = said(pair.querySelector("dd"));
    }
    for (const working of root.querySelectorAll("details.wb-working")) {
      const whose = said(working.querySelector("summary"));
      const entries = [...working.querySelectorAll("li > b")].map(said);
      const labels = entries.length ? entries.map((label) => `${whose.split(":")[0]}: ${label}`)
        : [whose];
      for (const label of labels) addCount(found, label);
    }
    return found;
  }

  function addCount(found, label) {
    const cut = /^(.*?)[:,] ([^:,]*\d[^:]*):?$/.exec(label.replace(/:$/, ""));
    if (cut) found[cut[1]] = cut[2];
  }

  walebook.steps = { read, edition, counts, digest, said };
}(window.walebook = window.walebook || {}));
