// The bench: the size page turned into one step at a time, over the page and made from its steps.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.bench;
  if (!walebook.pieces || !walebook.pieces.parts.length) return;
  const { button, make, store, place, bookmark, settings, remarks, face, offer, corrected, report } = walebook;
  const { edition, parts, find, titleOf, names, farText, mode } = walebook.pieces;
  // What is knitted: {part, name, knitting, stamp, began}.
  /** @type {wb.Now | null} */
  let now = null;
  // The elements that change, once the bench is built.
  /** @type {wb.Screen | null} */
  let screen = null;
  // Which screen of a step is shown, and how many it takes: kept by nobody.
  let [leaf, leaves] = [0, 1];

  // Moving

  /** @type {Record<string, string>} */
  const NO_FURTHER = { undo: texts.thereIsNothing, forward: texts.thisPartIs };

  /** @type {wb.Bench["act"]} */
  function act(action, step) {
    if (!now || follow()) return;
    if (turned(action)) return;
    const next = place.act(now.part, now.knitting, action, mode(), step);
    if (next === now.knitting) {
      notify(NO_FURTHER[action] || "");
      return;
    }
    now.knitting = next;
    leaf = 0;
    if (screen) screen.awake.hidden = true;
    if (settings.get("tick")) walebook.speech.tick();
    if (settings.get("vibrate")) walebook.speech.vibrate();
    notify("");
    keep(now);
    show();
  }

  // A step that takes several screens is gone through first.
  /** @type {(action: wb.Action) => boolean} */
  function turned(action) {
    const to = leaf + (action === "forward" ? 1 : action === "undo" ? -1 : leaves);
    if (to < 0 || to >= leaves) return false;
    leaf = to;
    notify("");
    show();
    return true;
  }

  /** @type {(at: wb.Now) => void} */
  function keep(at) {
    const { stamp, isCut, isAside } = bookmark.keep(edition, at.part, at.name, at.knitting, at.began);
    at.stamp = stamp;
    if (isAside) notify(walebook.ask.ASIDE);
    if (isCut) notify(texts.thereIsNo);
  }

  // Another tab may have moved on: then its place holds, and is shown before anything is done.
  function follow(why = texts.anotherTabMoved) {
    const kept = now && bookmark.placeOf(edition, now.name);
    if (!now || !kept || kept.stamp === now.stamp) return false;
    now.stamp = kept.stamp;
    now.knitting = { ...place.within(now.part, kept), past: kept.past };
    leaf = 0;
    show();
    notify(texts.youAreNow(why, face.whereText(now)));
    return true;
  }

  const guarded = walebook.keys.guard(() => Number(settings.get("pause")),
    () => performance.now(), () => notify(texts.secondTouchIgnored));

  /** @type {wb.Doing["request"]} */
  function request(action) {
    guarded(() => act(action));
  }

  // Opening and leaving

  /** @type {wb.Bench["open"]} */
  function open(name) {
    const part = find(name);
    if (!part) return;
    store.probe();
    const found = bookmark.look(edition, part, name);
    const { kept } = found;
    const counts = walebook.steps.counts(document);
    const changed = kept ? bookmark.changes(edition, part, kept, bookmark.sizeOf(edition), counts) : null;
    if (changed || found.damage) askAbout(part, name, found, changed);
    else begin(part, name, kept ? { ...place.within(part, kept), past: kept.past } : place.begin());
  }

  // A part that is begun anew is of this version, whatever was kept of it.
  /** @type {(part: wb.Part, name: string, knitting: wb.Knitting) => void} */
  function begin(part, name, knitting) {
    const isNew = !knitting.step && !knitting.rows && !knitting.past.length;
    const began = isNew ? edition.version : corrected.begunWith(name) || edition.version;
    now = { part, name, knitting, stamp: "", began };
    leaf = 0;
    const { bench, forward } = built();
    keep(now);
    bookmark.keepSize(edition, name, titleOf(name), true, walebook.steps.counts(document));
    if (!bench.open) {
      bench.showModal();
      walebook.screen.arrange(built());
      walebook.awake.on(showAwake);
    }
    show();
    notify("");
    forward.focus();
  }

  function leave() {
    walebook.awake.off();
    walebook.speech.hush();
    if (!now) return;
    bookmark.keepSize(edition, now.name, titleOf(now.name), false, walebook.steps.counts(document));
    const at = now.part.steps[now.knitting.step];
    now = null;
    offer.show(open);
    corrected.show();
    if (at) at.item.scrollIntoView({ block: "center" });
  }

  // What is stored is of another version of the pattern, or cannot be read: the knitter chooses.
  // What she does not choose is kept aside.
  /** @type {(part: wb.Part, name: string, found: wb.Look, changed: wb.Changes | null) => void} */
  function askAbout(part, name, found, changed) {
    /** @type {wb.Go} */
    const choose = (knitting) => {
      if (changed) store.keepAside(bookmark.placeKey(edition, name));
      begin(part, name, knitting);
      if (found.damage) notify(walebook.ask.ASIDE);
    };
    if (changed) {
      const put = corrected.since(name, corrected.begunWith(name)).map(corrected.ofPart);
      walebook.ask.changed(titleOf(name), part, changed, put, choose);
    } else walebook.ask.damaged(titleOf(name), found, choose);
  }

  // Showing

  function built() {
    screen = screen || walebook.screen.build({ request, leave, openList, openMenu, openStep, refit: show,
      isOpen: () => now !== null });
    return screen;
  }

  /** @type {wb.Notify} */
  function notify(text) {
    if (screen) walebook.screen.notify(screen, text);
  }

  /** @type {wb.Awoken} */
  function showAwake(text, isOn) {
    const { awake } = built();
    awake.textContent = isOn ? "" : text;
    awake.hidden = isOn;
    if (!isOn) show();
  }

  function show() {
    if (!now) return;
    const { part, knitting } = now;
    const on = built();
    const done = place.isDone(part, knitting);
    const step = part.steps[knitting.step];
    [on.title.textContent, on.where.textContent] = face.head(now);
    walebook.screen.far(on, knitting.step, part.steps.length);
    on.next.textContent = face.nextText(now);
    on.whole.classList.remove("wb-has-more");
    on.whole.hidden = !step || !(step.more || step.stops.length > 1 || step.chart.length || step.hung.table);
    on.whole.textContent = !step ? "" : step.chart.length ? texts.chart
      : step.stops.length > 1 || step.hung.table ? texts.wholeTable : texts.how;
    on.pair.replaceChildren(...face.pairButtons(now, open));
    on.body.replaceChildren(...face.body(now, on.body.clientWidth, act, open));
    const { screens, isByPlace } = walebook.fit.fit(on, leaf);
    leaves = screens;
    leaf = Math.min(leaf, leaves - 1);
    if (leaf < leaves - 1) on.next.textContent = "";
    on.forward.replaceChildren(...face.forwardText(now, leaf, leaves, isByPlace));
    on.forward.classList.toggle("wb-is-off", done);
    on.main.scrollTop = 0;
    announce(now, on, done);
  }

  /** @type {(at: wb.Now, on: wb.Screen, done: boolean) => void} */
  function announce(at, on, done) {
    const text = face.spoken(at);
    const counted = at.knitting.rows > 0 && mode() === place.ROWS;
    on.live.textContent = done || counted ? text : texts.step(at.knitting.step + 1, text);
    if (leaf) return;
    if (settings.get("speak") && !walebook.speech.say(text)) notify(walebook.speech.NO_VOICE);
  }

  // Sheets over the bench

  function openList() {
    if (now) walebook.list.steps(now.part, now.knitting, remarks.all(edition), (step) => act("jump", step));
  }

  // The step as the page has it: its table, its drawing, and where the page says how it is done.
  function openStep() {
    const step = now && now.part.steps[now.knitting.step];
    if (!now || !step) return;
    const { knitting } = now;
    const chart = step.chart.length ? document.getElementById(`${now.part.key}-chart`) : null;
    const sheet = walebook.sheet(texts.step2(knitting.step + 1), [...[...step.item.childNodes].map(walebook.copy),
      ...(chart ? [walebook.copy(chart), ...walebook.links.below(chart)] : []), ...hungTable(step)],
      { class: "wb-sheet wb-sheet-step md-typeset", click: walebook.links.openPlace });
    face.markRow(sheet, walebook.counter.target(now.part, knitting));
    const section = sheet.querySelector(".wb-hanging > [aria-current]");
    if (section) section.scrollIntoView({ block: "center" });
  }

  // The hanging table, the section that the step hangs marked in it.
  /** @type {(step: wb.Step) => Node[]} */
  function hungTable({ hung: { table, section } }) {
    if (!table) return [];
    const made = make("div", { class: "wb-hanging" });
    for (const each of table.children) {
      const copied = walebook.copy(each);
      if (each === section && copied instanceof HTMLElement) copied.setAttribute("aria-current", "step");
      made.append(copied);
    }
    return [make("h3", {}, texts.hangingTable), made];
  }

  function openMenu() {
    if (!now) return;
    const { part, name: here, knitting } = now;
    const step = part.steps[knitting.step];
    /** @type {(then: () => void) => () => void} */
    const close = (then) => () => {
      sheet.close();
      then();
    };
    const say = () => {
      if (!walebook.speech.say(walebook.counter.spoken(part, knitting, mode()))) notify(walebook.speech.NO_VOICE);
    };
    const sheet = walebook.sheet(texts.menu, [
      step ? button(texts.yourNoteOn, close(() => remarks.ask(edition, step,
        knitting.step + 1, show))) : "",
      step ? button(texts.readAloud, close(say)) : "",
      step && report.isOffered ? button(texts.reportThisStep, close(() => report.ask(here, knitting.step))) : "",
      button(texts.settingsAndSaving, close(settings.open)),
      button(texts.beginThisPart, close(askAgain)),
      button(texts.showTheWhole, close(() => built().bench.close())),
      make("h3", {}, texts.partsOfThis),
      walebook.list.parts(names().map((name) => ({ name, title: titleOf(name), far: farText(name) })),
        (name) => close(() => open(name))()),
    ], { class: "wb-sheet wb-menu md-typeset" });
  }

  // Beginning again is asked about: a whole piece may be lost by one touch.
  function askAgain() {
    if (!now) return;
    const sheet = walebook.sheet(texts.beginAgain, [
      make("p", {}, texts.youAreAt(face.whereText(now), titleOf(now.name))),
      button(texts.beginThisPart, () => {
        sheet.close();
        act("jump", 0);
      }),
      button(texts.stayAtThis, () => sheet.close(), { class: "wb-main-button" })], { id: "wb-again" });
  }

  // What happens elsewhere: in other tabs, in the settings, in the browser's memory of pages

  store.onOtherTab((key) => {
    if (now && key === bookmark.placeKey(edition, now.name)) follow();
    else if (now) built().pair.replaceChildren(...face.pairButtons(now, open));
  });
  store.onState(() => notify(""));
  settings.onChange((name) => {
    if (screen) walebook.screen.arrange(screen);
    if (!now) return;
    if (name === "all") follow(texts.theFileThat);
    if (name !== "speak" || settings.get("speak")) show();
  });
  window.addEventListener("pageshow", (event) => { if (event.persisted) follow(); });

  walebook.bench = { parts, edition, open, act, at: () => now && { ...now.knitting, name: now.name } };
  offer.show(open);
  open(offer.requested());
}(window.walebook = window.walebook || {}));
