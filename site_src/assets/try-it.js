// "Try it": a source in an editor, its findings, and the page of one of its sizes. The reader's device
// checks and knits each change; nothing that is written leaves it.
(function (walebook) {
  "use strict";
  const wording = TRY_TEXTS.tryIt;
  const { make, button, sheet, runtime, trySchema, tryFrame, tryFiles } = walebook;
  const box = document.querySelector(".wb-try");
  if (!(box instanceof HTMLElement) || location.protocol === "file:") return;
  const { wbRuntime: folder = "", wbEditor: script = "", wbBytes: bytes = "0" } = box.dataset;
  const megabytes = (Number(bytes) / 1e6).toFixed(1);
  const QUIET = 500; // ms without a change, until a text is checked
  const GROUP = "try-it"; // what a device saves for this page
  const AFTER = wording.yourTextIs;
  const DOOR = "try-it"; // of the engine: engine/pages/doors.py
  const BLANK = "";
  /** @type {Record<string, [one: string, many: string]>} */
  const SEVERITIES = { error: [wording.error, "errors"], warning: [wording.warning, "warnings"],
    caution: [wording.caution, "cautions"], remark: [wording.remark, "remarks"] };

  const status = make("p", { role: "status", class: "wb-try-said" }, wording.notCheckedYet);
  const choice = make("select", { id: "wb-try-start" }, make("option", { value: BLANK }, wording.aNewPattern));
  const size = make("select", { id: "wb-try-size", disabled: true, change: () => check() });
  const file = make("input", { type: "file", accept: ".yaml,.yml,text/*", hidden: true, change: load, tabindex: "-1", "aria-hidden": "true" });
  const press = make("button", { type: "button", class: "wb-button wb-main-button", click: begin }, wording.checkAndShow(megabytes));
  const place = make("div", { class: "wb-try-editor" });
  const hint = make("p", { class: "wb-try-hint" });
  const list = make("ul", { class: "wb-try-findings", "aria-label": wording.findings });
  const old = make("p", { class: "wb-try-old", hidden: true }, wording.thisPageIs);
  const left = make("p", { class: "wb-try-left", hidden: true }, wording.thisPatternAlso);
  const { frame, show } = tryFrame.open();

  /** @type {wb.TryStart | null} */
  let start = null;
  /** @type {wb.JSONSchema | null} */
  let schema = null;
  /** @type {wb.Editor | null} */
  let editor = null;
  let texts = tryFiles.alone("");
  let begun = texts.source; // the text as it was begun: what differs from it is the reader's work
  let isOn = false;
  let isBusy = false;
  let isStale = false;
  let waiting = 0;

  /** @type {(text: string) => void} */
  const notify = (text) => { status.textContent = text; };
  /** @type {(fault: unknown) => string} */
  const why = (fault) => fault instanceof Error ? fault.message : String(fault);

  // Checking

  function begin() {
    isOn = true;
    press.hidden = true;
    check();
  }

  /** @type {(share: number, isWorking: boolean) => void} */
  function progress(share, isWorking) {
    if (isWorking) notify(wording.checkingAndKnitting);
    else notify(share < 1 ? wording.loadingOfMb(Math.round(share * 100), megabytes) : "Starting …");
  }

  // Checks the text as it is now; while one is being checked, the last change waits.
  async function check() {
    if (!isOn || !start) return;
    isStale = isBusy;
    if (isBusy) return;
    isBusy = true;
    const sent = texts;
    const { own_chart: own, source, ...more } = sent;
    try {
      const answer = /** @type {wb.TryAnswer} */ (await runtime.ask(folder, { door: DOOR, ...more, source,
        size: size.value, beds: start.beds, charts: own ? { ...start.charts, own } : start.charts,
        units: start.units, collection: start.collection }, progress, AFTER, true));
      if (texts === sent) draw(answer);
    } catch (fault) {
      isOn = false;
      press.hidden = false;
      notify(why(fault));
    }
    isBusy = false;
    if (isStale) check();
  }

  // What came of it

  /** @type {(answer: wb.TryAnswer) => void} */
  function draw({ findings, sizes, page }) {
    notify(summary(findings, page));
    editor?.mark(findings.filter(isOfSource));
    list.replaceChildren(...findings.map(line));
    if (page) {
      size.replaceChildren(...Object.entries(sizes).map(([name, value]) => make("option", { value }, name)));
      size.value = page.name;
      size.disabled = false;
      show(page, texts.slug);
    }
    old.hidden = Boolean(page) || frame.hidden;
    frame.classList.toggle("wb-try-stale", !page);
  }

  /** @type {(findings: wb.TryFinding[], page: wb.TriedPage | null) => string} */
  function summary(findings, page) {
    const counts = Object.entries(SEVERITIES).flatMap(([severity, [one, many]]) => {
      const number = findings.filter((each) => each.severity === severity).length;
      return number ? [`${number} ${number === 1 ? one.toLowerCase() : many}`] : [];
    });
    const all = counts.length ? `${counts.join(", ")}.` : wording.noFindings;
    return page ? wording.thePageOf(all, page.size) : wording.thereIsNo(all);
  }

  /** @type {(finding: wb.TryFinding) => boolean} */
  const isOfSource = (finding) => finding.file.endsWith("/pattern.yaml");

  /** @type {(finding: wb.TryFinding) => HTMLElement} */
  function line(finding) {
    const where = wording.lineColumn(finding.line, finding.column);
    const sizes = finding.sizes.length ? `${finding.sizes.length === 1 ? wording.size : wording.sizes} ${finding.sizes.join(", ")}. ` : "";
    const to = isOfSource(finding) ? make("a", { href: "#try-it", click: (event) => {
      event.preventDefault();
      editor?.go(finding);
    } }, where[0].toUpperCase() + where.slice(1)) : `${finding.file}, ${where}`;
    const expected = finding.expected ? wording.expected(finding.expected) : "";
    return make("li", { class: `wb-try-${finding.severity}` }, make("b", {}, SEVERITIES[finding.severity][0]), " ", to,
      make("p", {}, wording.found(sizes, finding.found, expected, finding.remedy)));
  }

  // The text

  /** @type {(source: string) => void} */
  function changed(source) {
    texts = { ...texts, source };
    left.hidden = !texts.has_notes;
    tryFiles.keep(texts, source !== begun);
    window.clearTimeout(waiting);
    waiting = window.setTimeout(check, QUIET);
  }

  /** @type {(source: string, at: number) => void} */
  function moved(source, at) {
    const found = schema && trySchema.meaning(schema, source, at);
    hint.replaceChildren(...(found ? [make("b", {}, found.key), `: ${found.text}`] : [wording.theMeaningOf]));
  }

  // Puts another text into the editor; the old one comes back by undoing.
  /** @type {(next: wb.TriedTexts) => void} */
  function put(next) {
    texts = next;
    begun = next.source;
    size.replaceChildren();
    size.disabled = true;
    editor?.replace(next.source);
    changed(next.source);
    if (!isOn) notify(wording.notCheckedYet);
  }

  // Asks before a text that the reader has worked on is replaced.
  /** @type {(next: () => Promise<wb.TriedTexts>) => Promise<void>} */
  async function replace(next) {
    try {
      const found = await next();
      if (texts.source === begun) put(found);
      else ask(found);
    } catch (fault) {
      notify(fault instanceof TypeError || why(fault) === "missing"
        ? wording.thePatternCould : why(fault));
    }
  }

  /** @type {(found: wb.TriedTexts) => void} */
  function ask(found) {
    const dialog = sheet(wording.replaceYourText, [make("p", {}, wording.theTextIn),
      make("p", { class: "wb-try-row" }, button(wording.saveToA, () => tryFiles.save(texts.source), { class: "wb-button" }),
        button(wording.replace, () => {
          dialog.close();
          put(found);
        }, { class: "wb-button wb-main-button" }))]);
  }

  function open() {
    const slug = choice.value;
    replace(async () => slug === BLANK ? tryFiles.alone(start ? start.blank : "") : tryFiles.pattern(slug));
  }

  function load() {
    const [given] = file.files || [];
    if (given) replace(async () => tryFiles.alone(await tryFiles.read(given)));
    file.value = "";
  }

  // What the editor asks

  /** @type {wb.EditorAsks["complete"]} */
  function complete(source, at, isRequested) {
    if (!schema) return null;
    const { from, options } = trySchema.offers(schema, source, at);
    if (!options.length || (!isRequested && from === at)) return null;
    return { from, options, validFor: /^[\w -]*$/ };
  }

  /** @type {wb.EditorAsks["explain"]} */
  function explain(source, at) {
    const found = schema && trySchema.meaning(schema, source, at);
    return found ? `${found.key}: ${found.text}` : "";
  }

  // The page

  // Without a signal the page works where it is saved: the worker of the site has a group for it.
  async function offline() {
    const words = make("p", {});
    try {
      const { ask: askWorker, register } = walebook.worker;
      const registration = await register();
      /** @type {(state: kept.State | kept.Refused) => void} */
      const redraw = (state) => {
        const isKept = !state.refused && state.groups.some((each) => each.name === GROUP && each.kept);
        words.replaceChildren(state.refused ? wording.itCouldNot : "", isKept
          ? wording.thisPageIsSaved : wording.toWriteWithout, isKept ? ""
          : button(wording.saveThisPage, async () => redraw(await askWorker(registration.active, "keep", GROUP)), { class: "wb-button" }));
      };
      redraw(await askWorker(registration.active, "state"));
    } catch (reason) {
      words.textContent = typeof reason === "string" ? wording.withoutASignal(reason) : "";
    }
    return words;
  }

  /** @type {() => Promise<void>} */
  const brought = () => new Promise((done, fail) => {
    document.head.append(make("script", { src: new URL(script, walebook.worker.ROOT).href, load: () => done(),
      error: () => fail(new Error("missing")) }));
  });

  function lay() {
    const label = (/** @type {string} */ of, /** @type {string} */ text) => make("label", { for: of }, text);
    box?.replaceChildren(
      make("div", { class: "wb-try-row" }, label(choice.id, wording.beginWith), choice, button(wording.open, open, { class: "wb-button" }),
        button(wording.loadFromFile, () => file.click(), { class: "wb-button" }),
        button(wording.saveToA, () => tryFiles.save(texts.source), { class: "wb-button" }), file), left,
      make("div", { class: "wb-try-both" },
        make("section", { "aria-labelledby": "wb-try-source" }, make("h2", { id: "wb-try-source" }, wording.theSource), status, place,
          hint, list),
        make("section", { "aria-labelledby": "wb-try-page" }, make("h2", { id: "wb-try-page" }, wording.itsPage),
          make("p", { class: "wb-try-row" }, label(size.id, wording.size), size), press, old, frame)));
  }

  async function run() {
    try {
      [start, schema] = await Promise.all([tryFiles.start(), tryFiles.schema(), brought()]);
    } catch {
      box?.replaceChildren(make("p", { role: "status" }, wording.theEditorCould));
      return;
    }
    if (!start || !window.walebookEditor) return;
    choice.append(...start.patterns.map((each) => make("option", { value: each.slug }, each.title)));
    const draft = tryFiles.draft();
    texts = draft ? draft.texts : tryFiles.alone(start.blank);
    begun = draft && draft.isTouched ? "" : texts.source;
    choice.value = start.patterns.some((each) => each.slug === texts.slug) ? texts.slug : BLANK;
    lay();
    editor = window.walebookEditor.open({ parent: place, text: texts.source, complete, explain, changed, moved,
      attributes: { "aria-label": wording.theSourceOf, "aria-describedby": "wb-try-keys", tabindex: "0" } });
    place.after(make("p", { id: "wb-try-keys", class: "wb-try-keys" }, wording.tabLeavesThe, make("a", { href: "#keyboard" }, wording.withTheKeyboard)));
    moved(texts.source, 0);
    left.hidden = !texts.has_notes;
    if (draft && draft.isTouched) notify(wording.yourTextOf);
    box?.append(await offline());
  }

  run();
}(window.walebook = window.walebook || {}));
