// "My gauge" on a size's page: the reader enters what she measured, and her device counts the page
// anew. Nothing that she enters leaves it.
(function (walebook) {
  "use strict";
  const says = GAUGE_TEXTS.myGauge;
  const { make, button, store, myPage, runtime } = walebook;
  const box = document.querySelector(".wb-my-gauge");
  const block = document.getElementById("wb-facts");
  if (!(box instanceof HTMLElement) || !block || location.protocol === "file:") return;
  /** @type {{ pattern: string, version: string, size: string, sizes: Record<string, string> }} */
  const facts = JSON.parse(block.textContent || "{}");
  const page = facts.sizes[facts.size];
  const folder = box.dataset.wbRuntime;
  const what = box.dataset.wbOf || "gauge"; // of the designer's figures that may be hers: "gauge and measures"
  const megabytes = (Number(box.dataset.wbBytes) / 1e6).toFixed(1);
  const KEPT = "runtime"; // the group in which a device saves what counts the page anew
  /** @type {[name: string, label: string, mode: string][]} */
  const FIGURES = [["stitches", says.stitches, "numeric"], ["width", says.overAWidth, "decimal"],
    ["rows", says.rows, "numeric"], ["height", says.overAHeight, "decimal"], ["mass", says.massInG, "decimal"]];
  const LENGTHS = ["width", "height"];

  const said = make("p", { role: "status", class: "wb-gauge-said" });
  const outcome = make("div", { class: "wb-gauge-outcome" });
  const unit = make("select", { id: "wb-gauge-unit" }, make("option", { value: "cm" }, "centimetres"),
    make("option", { value: "in" }, "inches"));
  const form = make("form", { class: "wb-gauge-form", novalidate: "" });
  const press = make("button", { type: "submit", class: "wb-button" }, says.countItAnew);
  /** @type {wb.Offered | null} */
  let offered = null;

  /** @type {(text: string) => void} */
  const tell = (text) => { said.textContent = text; };

  /** @type {(fabric: string, name: string) => string} */
  const idOf = (fabric, name) => `wb-gauge-${fabric.replaceAll(" ", "-")}-${name}`;

  /** @type {(fabric: string, name: string) => HTMLInputElement | null} */
  function field(fabric, name) {
    const found = document.getElementById(idOf(fabric, name));
    return found instanceof HTMLInputElement ? found : null;
  }

  // The form

  /** @type {(fabric: wb.OfferedFabric) => HTMLElement} */
  function fieldset({ key, called, swatch }) {
    return make("fieldset", {}, make("legend", {}, called),
      make("p", {}, says.theDesignersSwatch(swatch.stitches, swatch.width, swatch.rows, swatch.height)),
      ...FIGURES.map(([name, label, inputmode]) => make("p", {}, make("label", { for: idOf(key, name) }, label), " ",
        make("input", { id: idOf(key, name), type: "text", inputmode, size: "6", autocomplete: "off" }))));
  }

  // Fills in a swatch, in the unit that it was measured in.
  /** @type {(fabric: string, swatch: Record<string, string>) => void} */
  function fill(fabric, swatch) {
    if ((swatch.width || "").endsWith("in") !== (unit.value === "in")) unit.value = (swatch.width || "").endsWith("in") ? "in" : "cm";
    for (const [name] of FIGURES) {
      const at = field(fabric, name);
      if (at) at.value = (swatch[name] || "").replace(/ ?(?:cm|in|g)$/, "");
    }
  }

  // What she entered, by fabric, as the engine reads it; a fabric of which nothing is entered is left out.
  /** @type {(fabrics: wb.OfferedFabric[]) => Record<string, Record<string, string>>} */
  function entered(fabrics) {
    /** @type {Record<string, Record<string, string>>} */
    const swatches = {};
    for (const { key } of fabrics) {
      const figures = FIGURES.map(([name]) => [name, (field(key, name)?.value || "").trim().replace(",", ".")]);
      if (figures.every(([, text]) => !text)) continue;
      swatches[key] = Object.fromEntries(figures.filter(([name, text]) => text || name !== "mass")
        .map(([name, text]) => [name, withUnit(name, text)]));
    }
    return swatches;
  }

  /** @type {(name: string, text: string) => string} */
  const withUnit = (name, text) => !/^[0-9./ ]+$/.test(text) ? text
    : LENGTHS.includes(name) ? `${text} ${unit.value}` : name === "mass" ? `${text} g` : text;

  // Her own measures, where the designer lets them be changed

  /** @type {(name: string) => string} */
  const measureId = (name) => `wb-measure-${name}`;

  /** @type {(name: string) => HTMLInputElement | null} */
  function measureField(name) {
    const found = document.getElementById(measureId(name));
    return found instanceof HTMLInputElement ? found : null;
  }

  /** @type {(from: wb.Offered) => HTMLElement | null} */
  function measuresOf({ measures, measures_within: within, stays }) {
    const able = measures[page] || [];
    if (!able.length) return null;
    const limit = within ? says.theDesignerAllows(within) : "";
    const fixed = stays.length ? says.theseStayAs(stays.join(", ")) : "";
    return make("details", { class: "wb-measures" }, make("summary", {}, says.myMeasures),
      make("p", {}, says.changeWhatYou(facts.size, limit, fixed)),
      ...able.map(({ name, called, how, theirs }) => make("p", {}, make("label", { for: measureId(name) }, called), " ",
        make("input", { id: measureId(name), type: "text", inputmode: "text", size: "6", autocomplete: "off",
          "aria-describedby": `${measureId(name)}-how` }),
        make("small", { id: `${measureId(name)}-how` }, says.here(how, theirs)))));
  }

  /** @type {(name: string, text: string) => void} */
  function fillMeasure(name, text) {
    const at = measureField(name);
    const fold = at?.closest("details");
    if (fold) fold.open = true;
    if (at) at.value = text.endsWith("in") === (unit.value === "in") ? text.replace(/ ?(?:cm|in)$/, "") : text;
  }

  /** @type {(from: wb.Offered) => Record<string, string>} */
  function enteredMeasures({ measures }) {
    return Object.fromEntries((measures[page] || []).flatMap(({ name }) => {
      const text = (measureField(name)?.value || "").trim().replace(",", ".").replace("−", "-");
      return text ? [[name, /^-?[0-9./ ]+$/.test(text) ? `${text} ${unit.value}` : text]] : [];
    }));
  }

  // What she has typed, kept as she types: a refusal, a reload or a closed browser takes none of it
  /** @type {() => (HTMLInputElement | HTMLSelectElement)[]} */
  const fields = () => [...form.querySelectorAll("input"), unit];

  /** @type {(at?: string, name?: string) => void} */
  function keepTyped(at = page, name = myPage.asked()) {
    const typed = Object.fromEntries(fields().map(({ id, value }) => [id, value]));
    store.set(myPage.typedKey(facts.pattern, at, name), { fields: typed, when: Date.now() }, myPage.isTyped);
  }

  function fillTyped() {
    const kept = store.get(myPage.typedKey(facts.pattern, page, myPage.asked()));
    if (!myPage.isTyped(kept)) return;
    for (const each of fields()) {
      each.value = kept.fields[each.id] ?? each.value;
      const around = each.value ? each.closest("details") : null;
      if (around) around.open = true;
    }
  }

  // What comes of it

  /** @type {(event: Event) => Promise<void>} */
  async function submit(event) {
    event.preventDefault();
    outcome.replaceChildren();
    if (!offered || !folder) return;
    const swatches = entered(offered.fabrics);
    const measures = enteredMeasures(offered);
    if (!Object.keys({ ...swatches, ...measures }).length) {
      tell(offered.fabrics.length ? says.enterWhatYou : says.enterAtLeast);
      return;
    }
    press.disabled = true;
    try {
      const asked = { ...offered.asked, size: page, swatches, measures };
      const answer = await runtime.ask(folder, asked, progress);
      show(/** @type {wb.GaugeAnswer} */ (answer), { swatches, measures });
    } catch (fault) {
      tell(fault instanceof Error ? fault.message : String(fault));
    }
    press.disabled = false;
  }

  /** @type {(share: number, isWorking: boolean) => void} */
  function progress(share, isWorking) {
    if (isWorking) tell(says.countingAndKnitting);
    else tell(share < 1 ? says.loadingOfMb(Math.round(share * 100), megabytes) : "Starting …");
  }

  /** @type {(answer: wb.GaugeAnswer, hers: wb.Hers) => void} */
  function show(answer, hers) {
    if (answer.page) keep(answer.page, hers);
    else if (answer.unread) tellUnread(answer.unread);
    else if (answer.refused) tellRefused(answer.refused);
  }

  /** @type {(made: wb.MadePage, hers: wb.Hers) => void} */
  function keep(made, hers) {
    if (!myPage.keep(facts.pattern, page, { ...made, ...hers, version: (offered || facts).version })) {
      tell(store.state() === "full" ? says.thereIsNo : says.thisBrowserKeeps);
      return;
    }
    store.remove(myPage.typedKey(facts.pattern, page, myPage.asked()));
    location.assign(myPage.address(page, made.name));
  }

  /** @type {(wrong: wb.Unread[]) => void} */
  function tellUnread(wrong) {
    tell(wrong.map(({ fabric, said: why }) => fabric ? `${calledOf(fabric)}: ${why}` : why).join(" "));
    const [{ fabric, field: name = "", measure = "" }] = wrong;
    (fabric ? field(fabric, name) : measureField(measure))?.focus();
  }

  /** @type {(key: string) => string} */
  const calledOf = (key) => offered?.fabrics.find((each) => each.key === key)?.called || key;

  /** @type {(refused: wb.GaugeRefused) => void} */
  function tellRefused({ said: why, gauges, sizes, searched }) {
    tell(says.thereIsNoPage(facts.size));
    const others = Object.entries(sizes);
    outcome.replaceChildren(...why.map((text) => make("p", {}, text)),
      ...(gauges ? proposed(gauges, searched) : []),
      ...(others.length ? [make("p", {}, says.withYourFigures, ...others.flatMap(([size, at], n) => [
        n ? ", " : "", make("a", { href: `${at}.html#my-gauge`, click: () => keepTyped(at, "") }, size)]))] : []));
  }

  /** @type {(near: wb.NearFigures[], searched: string) => HTMLElement[]} */
  function proposed(near, searched) {
    if (!near.length) return [make("p", {}, searched)];
    const gauges = near.some((each) => each.swatches) ? says.forAnotherGauge : "";
    return [make("p", {}, says.theseFiguresWork(gauges)),
      make("ul", {}, ...near.map(({ said: text, swatches, measure, text: figure }) => make("li", {}, `${text} `,
        button(says.fillIn, () => {
          for (const [fabric, swatch] of Object.entries(swatches || {})) fill(fabric, swatch);
          if (measure && figure) fillMeasure(measure, figure);
          keepTyped();
        }, { class: "wb-button" }))))];
  }

  // Her pages, and what is saved on the device

  function mine() {
    const own = myPage.all(facts.pattern).filter((each) => each.page === page && each.isMade);
    return make("ul", { class: "wb-gauge-mine" }, ...own.map((each) => {
      const line = make("li", {}, make("a", { href: myPage.address(page, each.name) }, each.mark), " ",
        button(says.remove, () => {
          myPage.drop(facts.pattern, page, each.name);
          line.remove();
        }, { class: "wb-button" }));
      return line;
    }));
  }

  // Without a signal it works where it is saved: the worker of the site has a group for it.
  async function offline() {
    const line = make("p", {});
    try {
      const { ask, register } = walebook.worker;
      const registration = await register();
      /** @type {(state: kept.State | kept.Refused) => void} */
      const redraw = (state) => {
        const isKept = !state.refused && state.groups.some((each) => each.name === KEPT && each.kept);
        line.replaceChildren(state.refused ? says.itCouldNot : "", isKept ? says.itIsSaved : says.toCountAnew, isKept ? "" : button(says.saveItOffline,
          async () => redraw(await ask(registration.active, "keep", KEPT)), { class: "wb-button" }));
      };
      redraw(await ask(registration.active, "state"));
    } catch (why) {
      line.textContent = typeof why === "string" ? says.withoutASignal(why) : "";
    }
    return line;
  }

  async function open() {
    if (offered) return;
    tell(says.loadingThePatterns);
    try {
      const response = await fetch("my-gauge.json");
      if (!response.ok) throw new Error("missing");
      offered = await response.json();
    } catch {
      tell(says.thePatternsSwatches);
      return;
    }
    tell("");
    if (offered) await draw(offered);
    if (offered && folder && myPage.asked()) runtime.rehearse(folder, offered, page);
  }

  /** @type {(from: wb.Offered) => Promise<void>} */
  async function draw(from) {
    const { fabrics, within, version } = from;
    const limit = within ? says.theDesignerAllowsA(within) : "";
    form.replaceChildren(...(fabrics.length ? [make("p", {}, says.enterYourSwatch(limit))] : []),
      make("p", {}, make("label", { for: unit.id }, says.measuredIn), " ", unit), ...fabrics.map(fieldset),
      measuresOf(from) || "", press);
    const last = myPage.all(facts.pattern).find((each) => each.name === myPage.asked()) || myPage.all(facts.pattern)[0];
    for (const [key, swatch] of Object.entries(last ? last.swatches : {})) fill(key, swatch);
    if (last && last.page === page) for (const [name, text] of Object.entries(last.measures || {})) fillMeasure(name, text);
    fillTyped();
    if (version !== facts.version) tell(says.theSiteHas);
    form.after(await offline());
  }

  const fold = make("details", {}, make("summary", {}, make("h2", {}, says.my(what))),
    make("p", {}, says.areYourFigures(what, megabytes)),
    form, said, outcome, mine());
  // The ways to it: beside the first card, and where the page says that another gauge has other counts.
  const wayTo = (/** @type {string} */ before) => make("p", { class: "wb-gauge-way" }, before,
    make("a", { href: "#my-gauge", click: () => { fold.open = true; } }, says.countThisSize(what)), ".");
  document.querySelector(".wb-go")?.after(wayTo(says.another(what.includes("gauge") ? "gauge" : "measure")));
  document.getElementById("gauge")?.closest("details")?.append(wayTo(""));
  fold.addEventListener("toggle", () => { if (fold.open) open(); });
  form.addEventListener("submit", submit);
  form.addEventListener("input", () => keepTyped());
  form.addEventListener("input", () => { if (folder) runtime.warm(folder); }, { once: true });
  box.replaceChildren(fold);
  if (location.hash === "#my-gauge" || myPage.asked()) fold.open = true;
}(window.walebook = window.walebook || {}));
