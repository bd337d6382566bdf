// Reads the needles after a step from the page's tokens (engine/words/bench_bed.py), and the acts
// before each row of a stitch chart (engine/words/bench_chart.py).
(function (walebook) {
  "use strict";

  /** @type {(name: string) => number} */
  const placeOf = (name) => (name[0] === "R" ? Number(name.slice(1)) - 1 : -Number(name.slice(1)));
  /** @type {wb.Beds["name"]} */
  const name = (place) => (place < 0 ? `L${-place}` : `R${place + 1}`);

  // The needles of a section, by their places from left to right: 0 is R1, -1 is L1.
  /** @type {wb.Beds["needles"]} */
  function needles(written) {
    /** @type {number[]} */
    const out = [];
    for (const run of written.split("+").filter(Boolean)) {
      if (run.includes("*")) {
        const [first, rule, times] = run.split("*");
        const [size, far] = rule.split("/").map(Number);
        for (let n = 0; n < Number(times) * size; n += 1) {
          out.push(placeOf(first) + far * Math.floor(n / size) + n % size);
        }
      } else {
        const [first, last = first] = run.split("-");
        for (let at = placeOf(first); at <= placeOf(last); at += 1) out.push(at);
      }
    }
    return out;
  }

  /** @type {wb.Beds["read"]} */
  function read(token) {
    const [first, ...rest] = token.split(/([hebn]|l\d+:)/);
    /** @type {wb.Bed} */
    const bed = { work: needles(first === "0" ? "" : first), held: [], empty: [], second: [], about: [], loops: [] };
    for (let n = 0; n < rest.length; n += 2) {
      const [letter, written] = [rest[n], rest[n + 1]];
      if (letter[0] === "l") bed.loops.push([parseInt(letter.slice(1), 10), Number(written)]);
      if (letter === "h") bed.held = needles(written);
      if (letter === "e") bed.empty = needles(written);
      if (letter === "b") bed.second = needles(written);
      if (letter === "n") bed.about = needles(written);
    }
    return bed;
  }

  // The beds of a list's steps, one or more a step; `known` is the bed before.
  /** @type {wb.Beds["list"]} */
  function list(written, count, known) {
    let last = known;
    const tokens = written ? written.split(" ") : [];
    return Array.from({ length: count }, (_, n) => {
      const token = tokens[n];
      if (!token || token === "-") return last ? [last] : [];
      const beds = token.split(";").map(read);
      last = { ...beds[beds.length - 1], about: [] };
      return beds;
    });
  }

  // Where a step's rows are of a chart: the acts before each, by the row counter after it.
  /** @type {wb.Beds["rows"]} */
  function rows(chart, token, counter, knitted) {
    if (!chart || !token || token === "0" || !knitted) return [];
    const cut = new Map(token.split(",").filter((each) => each.includes("=")).map((each) => {
      const [at, numbers] = each.split("=");
      return [Number(at), numbers.split(".").filter(Boolean).map(Number)];
    }));
    const high = chart.rows.length;
    return Array.from({ length: knitted }, (_, n) => {
      const at = counter - knitted + n + 1;
      const row = (at - 1) % high;
      const numbers = cut.get(at) || chart.rows[row];
      return { row: row + 1, at: n, acts: numbers.map((each) => ({ act: chart.texts[each][0], how: chart.texts[each][2] || "" })),
        drawn: numbers.map((each) => chart.texts[each][1]).filter(Boolean)
          .map((each) => ({ kind: each[0], needles: needles(each.slice(1)) })) };
    });
  }

  /** @type {wb.Beds["span"]} */
  function span(all) {
    if (!all.length) return "";
    const [first, last] = [Math.min(...all), Math.max(...all)];
    return first === last ? name(first) : `${name(first)}–${name(last)}`;
  }

  walebook.beds = { name, needles, read, list, rows, span };
}(window.walebook = window.walebook || {}));
