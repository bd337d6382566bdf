// Draws the carriage, the needles and the rows of a chart, each for the width it gets. What they
// show is also told in words; so they are hidden from whoever listens.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.draw;
  const { beds } = walebook;
  const SVG = "http://www.w3.org/2000/svg";

  /** @type {wb.Drawn["svg"]} */
  function svg(tag, attributes, ...children) {
    const made = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(([name, value]) => made.setAttribute(name, String(value)));
    made.append(...children);
    return made;
  }

  /** @type {(width: number, height: number, css: string, ...children: Node[]) => SVGElement} */
  const frame = (width, height, css, ...children) => svg("svg", { width, height, class: `wb-bench-drawn ${css}`,
    viewBox: `0 0 ${width} ${height}`, "aria-hidden": "true" }, ...children);
  /** @type {(d: string, css: string) => SVGElement} */
  const path = (d, css) => svg("path", { d, class: css });
  /** @type {(x: number, y: number, text: string, css: string) => SVGElement} */
  const label = (x, y, text, css) => svg("text", { x, y, class: css, "text-anchor": "middle" }, text);

  // The carriage over the bed: dashed where it stands, filled where it ends.
  /** @type {wb.Drawn["strip"]} */
  function strip(width, from, to, rows) {
    const box = Math.min(98, width * .3);
    const [left, right] = [2, width - box - 2];
    const end = to === "left" ? left : right;
    const parts = [path(`M0 48H${width}`, "wb-rail"), path(ticks(width), "wb-ticks")];
    if (from !== to) {
      const start = from === "left" ? left : right;
      parts.push(svg("rect", { x: start + 1, y: 5, width: box - 2, height: 38, class: "wb-stood" }));
    }
    parts.push(...arrow(width, box, to, from === to && rows > 0, rows > 0));
    parts.push(svg("rect", { x: end, y: 3, width: box, height: 42, class: "wb-stands" }),
      label(end + box / 2, 31, to, "wb-on"));
    return frame(width, 60, "wb-carriage", ...parts);
  }

  /** @type {(width: number) => string} */
  const ticks = (width) => Array.from({ length: Math.floor((width - 8) / 8) }, (_, n) => `M${6 + 8 * n} 52v8`).join("");

  /** @type {(width: number, box: number, to: string, returns: boolean, moves: boolean) => SVGElement[]} */
  function arrow(width, box, to, returns, moves) {
    if (!moves) return [];
    const direction = to === "right" ? 1 : -1;
    const [far, near] = to === "right" ? [14, width - box - 18] : [width - 14, box + 18];
    const head = `M${near + 12 * direction} ${returns ? 32 : 24}l${-16 * direction} -10v20z`;
    if (returns) return [path(`M${near} 14H${far}V32H${near}`, "wb-way"), path(head, "wb-head")];
    const start = to === "right" ? box + 12 : width - box - 12;
    return [path(`M${start} 24H${near}`, "wb-way"), path(head, "wb-head")];
  }

  // Which needles are drawn: all of them, or as many as fit around those that the act is about. Of
  // a pattern all across the work those at the centre say enough.
  /** @type {(bed: wb.Bed, about: number[], width: number) => [number, number]} */
  function shown(bed, about, width) {
    const all = [...bed.work, ...bed.held, ...bed.empty, ...about];
    const [first, last] = [Math.min(...all) - 1, Math.max(...all) + 1];
    const most = Math.floor((width - 12) / 14);
    if (last - first < most || !about.length) return [first, last];
    const [a, b] = [Math.min(...about), Math.max(...about)];
    const isPattern = about.some((at, n) => n > 0 && at - about[n - 1] > 1);
    if (b - a + 5 > most && !isPattern) return [first, last];
    const middle = b - a + 5 > most ? Math.max(a + most / 2 - 3, Math.min(b - most / 2 + 3, 0)) : (a + b) / 2;
    const start = Math.max(first, Math.min(Math.round(middle - most / 2), last - most + 1));
    return [start, Math.min(last, start + most - 1)];
  }

  // Neighbouring needles that are alike, from left to right.
  /** @type {(first: number, last: number, kindOf: (at: number) => string) => wb.Run[]} */
  function runs(first, last, kindOf) {
    /** @type {wb.Run[]} */
    const out = [];
    for (let at = first; at <= last; at += 1) {
      const kind = kindOf(at);
      const before = out[out.length - 1];
      if (before && before.kind === kind) before.b = at;
      else out.push({ kind, a: at, b: at });
    }
    return out;
  }

  // How far a needle stands out, by what it does; those that the act is about stand so too, in red.
  /** @type {Record<string, number>} */
  const LENGTH = { out: 6, gone: 12, empty: 18, work: 26, upper: 40, held: 54 };
  /** @type {Record<string, string>} */
  const WORDS = { work: texts.inWork, held: "held", empty: "empty" };
  /** @type {Record<string, string>} */
  const OF_CHART = { c: "upper", t: "held", s: "held", m: "work", x: "work" };

  // The needles as they lie, the knitter's left at the left; brackets count those that are alike.
  // `kinds` are letters of a chart's acts, which come before the row.
  /** @type {wb.Drawn["needles"]} */
  function needles(width, bed, about, kinds) {
    const [first, last] = shown(bed, about, width);
    const pitch = (width - 12) / (last - first + 1);
    /** @type {(at: number) => number} */
    const x = (at) => 6 + pitch * (at - first + .5);
    const [now, held, work, empty] = [about, bed.held, bed.work, bed.empty].map((each) => new Set(each));
    /** @type {(at: number) => string} */
    const after = (at) => (held.has(at) ? "held" : work.has(at) ? "work" : empty.has(at) ? "empty" : "out");
    /** @type {(at: number) => string} */
    const kindOf = (at) => {
      if (!now.has(at)) return after(at);
      if (kinds.length) return `now ${OF_CHART[kinds[0]]}`;
      return `now ${after(at) === "out" ? "gone" : after(at)}`;
    };
    const found = runs(first, last, kindOf);
    const parts = [path(`M4 21H${width - 4}`, "wb-rail"), ...names(first, last, x, about, width)];
    for (const run of found) parts.push(...marks(run, x, pitch));
    parts.push(...brackets(found, x, pitch, width, first, last));
    return frame(width, 105, "wb-needle-row", ...parts);
  }

  // Names of needles: every tenth, and the ends of those that the act is about.
  /** @type {(first: number, last: number, x: (at: number) => number, about: number[], width: number) => SVGElement[]} */
  function names(first, last, x, about, width) {
    const half = 18; // of the longest name, with the space beside it [px]
    /** @type {(at: number) => number} */
    const middle = (at) => Math.max(half, Math.min(width - half, x(at)));
    /** @type {number[]} */
    const wanted = [];
    if (about.length) wanted.push(Math.min(...about), Math.max(...about));
    for (let at = first; at <= last; at += 1) {
      if ((at < 0 ? -at : at + 1) % 10 === 0) wanted.push(at);
    }
    /** @type {number[]} */
    const taken = [];
    const centre = first < 0 && last >= 0
      ? [path(`M${(x(-1) + x(0)) / 2} 18l-4.5 -6h9z`, "wb-centre")] : [];
    return [...centre, ...wanted.filter((at) => {
      const isIn = at >= first && at <= last && !taken.some((other) => Math.abs(middle(other) - middle(at)) < 2 * half);
      if (isIn) taken.push(at);
      return isIn;
    }).map((at) => label(middle(at), 12, beds.name(at), "wb-name"))];
  }

  // Strokes and tips of neighbouring needles: a dot in work, a square in upper working position, a
  // triangle in holding position.
  /** @type {(run: wb.Run, x: (at: number) => number, pitch: number) => SVGElement[]} */
  function marks({ kind, a, b }, x, pitch) {
    const stands = kind.replace("now ", "");
    const isNow = stands !== kind;
    const r = Math.min(5.8, pitch * .42);
    const end = 22 + LENGTH[stands];
    let [lines, tips] = ["", ""];
    for (let at = a; at <= b; at += 1) {
      const left = x(at) - r;
      lines += `M${x(at)} 22V${end}`;
      if (stands === "work") tips += `M${left} ${end}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
      if (stands === "upper") tips += `M${left} ${end - r}h${2 * r}v${2 * r}h${-2 * r}z`;
      if (stands === "held") tips += `M${left} ${end - 4 - r}h${2 * r}l${-r} ${2 * r}z`;
    }
    return [path(lines, `wb-line wb-line-${isNow ? "now" : stands}`),
      tips ? path(tips, `wb-tip wb-tip-${isNow ? "now" : stands}`) : svg("g", {})];
  }

  /** @type {(found: wb.Run[], x: (at: number) => number, pitch: number, width: number, first: number, last: number) => SVGElement[]} */
  function brackets(found, x, pitch, width, first, last) {
    const counted = found.filter((each) => each.kind !== "out");
    if (counted.length > 9) return [];
    /** @type {[number, number][]} */
    const taken = [];
    return [...counted].sort((one, two) => Number(two.kind.startsWith("now")) - Number(one.kind.startsWith("now"))).flatMap((each) => {
      const [from, to] = [x(each.a) - pitch * .4, x(each.b) + pitch * .4];
      const isCut = (each.a === first && each.kind !== "out") || (each.b === last && each.kind !== "out");
      const isNow = each.kind.startsWith("now");
      const css = isNow ? " wb-spot" : "";
      const word = isNow ? "" : ` ${WORDS[each.kind]}`;
      const number = each.b - each.a + 1;
      const labels = [`${number}${word}`, String(number)];
      const middle = (from + to) / 2;
      const fitting = isCut ? undefined : labels.find((text) => {
        const half = text.length * 3.9 + 3;
        const at = Math.max(half, Math.min(width - half, middle));
        return !taken.some(([a, b]) => at + half > a && at - half < b) && half <= Math.max((to - from) / 2 + 16, 14);
      });
      const drawn = [path(`M${from} 81v6H${to}v-6`, `wb-bracket${css}`)];
      if (fitting) {
        const half = fitting.length * 3.9 + 3;
        const at = Math.max(half, Math.min(width - half, middle));
        taken.push([at - half, at + half]);
        drawn.push(label(at, 101, fitting, `wb-count${css}`));
      }
      return drawn;
    });
  }

  // Five rows of a chart over the same needles, the one that is knitted now in a frame.
  /** @type {wb.Drawn["chart"]} */
  function chart(width, rows, here, bed, about) {
    const [first, last] = shown(bed, about, width);
    const pitch = (width - 12) / (last - first + 1);
    const near = rows.filter((row) => Math.abs(row.at - rows[here].at) <= 2);
    const parts = near.flatMap((row, n) => {
      const y = 1 + 13 * (near.length - 1 - n);
      const busy = new Set(row.drawn.flatMap((each) => each.needles));
      const isHere = row.at === rows[here].at;
      const cells = Array.from({ length: last - first + 1 }, (_, k) => svg("rect", { x: 6.5 + k * pitch, y: y + .5,
        width: Math.max(1, pitch - 1), height: 12,
        class: busy.has(first + k) ? (isHere ? "wb-cell-now" : "wb-cell-busy") : "wb-cell" }));
      const around = isHere ? [svg("rect", { x: 5, y, width: width - 10, height: 13, class: "wb-row-now" })] : [];
      return [...cells, ...around,
        svg("text", { x: width, y: y + 12, class: isHere ? "wb-name wb-spot" : "wb-name" }, String(row.row))];
    });
    return frame(width + 22, 13 * near.length + 3, "wb-chart-near", ...parts);
  }

  const [WIDE, HIGH] = [56, 130]; // px that a piece's outline is wide and high, at most
  const APART = [10, 20, 50, 100]; // rows from mark to mark of the ruler

  // The piece's outline off the page: its box, and the line on which its rows begin, above the hem.
  /** @type {(key: string) => { pad: number, width: number, height: number, foot: number, start: number } | null} */
  function outlineOf(key) {
    const outline = document.getElementById(`o-${key}`);
    const whole = outline && outline.closest("svg");
    if (!outline || !whole) return null;
    const { y: top, height, width } = whole.viewBox.baseVal;
    const [pad, foot] = [-top, height + 2 * top];
    const [, hem] = outline.querySelectorAll("path");
    const line = hem && /^M0 (\d+)h/.exec(hem.getAttribute("d") || "");
    return { pad, width, height, foot, start: line ? Number(line[1]) : foot };
  }

  // The outline filled from its foot up to a line.
  /** @type {(key: string, clip: string, at: number, of: { pad: number, width: number, foot: number }) => SVGElement[]} */
  const filling = (key, clip, at, { pad, width, foot }) => [
    svg("clipPath", { id: clip }, svg("rect", { x: -pad, y: at, width, height: Math.max(0, foot + pad - at) })),
    svg("use", { href: `#o-${key}`, class: "wb-knitted", "clip-path": `url(#${clip})` })];

  // What fills a drawing of a piece that stands on the page, up to a row, and the red line there;
  // `where` tells several drawings of it apart. Null without an outline.
  /** @type {wb.Drawn["filled"]} */
  function filled(key, where, row, last, isHem) {
    const of = outlineOf(key);
    if (!of || last <= 0) return null;
    const at = isHem ? (of.start + of.foot) / 2 : of.start * (1 - row / last);
    const below = svg("g", { class: "wb-here" }, ...filling(key, `wb-filled-${where}-${key}`, row < last ? at : -of.pad, of));
    const line = svg("path", { d: `M${-of.pad} ${at}h${of.width}`, class: "wb-here wb-row-at" });
    return { below: [below], above: row < last ? [line] : [] };
  }

  // The piece's outline, filled as far as it is knitted; a red line at the row, and a ruler of row
  // counters from where the counter begins to the last row. Null without an outline.
  /** @type {wb.Drawn["piece"]} */
  function piece(key, row, last, isHem) {
    const of = outlineOf(key);
    if (!of || !last) return null;
    const { pad, width, height, foot, start } = of;
    const px = Math.min(WIDE / width, HIGH / height);
    /** @type {(counter: number) => number} */
    const y = (counter) => start * (1 - counter / last);
    const at = isHem ? (start + foot) / 2 : y(row);
    const ruler = width - pad + 5 / px;
    const apart = APART.find((each) => (start * px * each) / last >= 5) || 200;
    const rows = Array.from({ length: Math.floor(last / apart) + 1 }, (_, n) => n * apart);
    const named = rows.filter((each) => each % (last > 120 ? 100 : 50) === 0);
    return svg("svg", { class: "wb-bench-drawn wb-piece", height: Math.round(height * px),
      width: Math.round(width * px + 31),
      viewBox: `${-pad} ${-pad} ${width + 31 / px} ${height}`, "aria-hidden": "true" },
    ...filling(key, `wb-filled-${key}`, at, of),
    svg("use", { href: `#o-${key}`, class: "wb-outline" }),
    path(`M${ruler} ${y(last)}V${start}${rows.map((each) => `M${ruler} ${y(each)}h${4 / px}`).join("")}`, "wb-ruler"),
    ...named.map((each) => svg("text", { x: ruler + 6 / px, y: Math.max(y(each) + 4 / px, 10 / px - pad), "font-size": 12 / px, class: "wb-row-name" }, String(each))),
    path(`M${-pad} ${at}H${ruler + 4 / px}`, "wb-row-at"));
  }

  walebook.drawn = { svg, strip, needles, chart, piece, filled };
}(window.walebook = window.walebook || {}));
