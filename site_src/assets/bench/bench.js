// The bench: the size page turned into one step at a time, over the page and made from its steps.
(function (walebook) {
  "use strict";
  const { make, button, copy, store, place, bookmark, settings, remarks } = walebook;
  const edition = walebook.steps.edition(document);
  if (!edition || document.documentElement.classList.contains("wb-incomplete")) return;

  const parts = walebook.steps.read(document).filter((part) => part.steps.length);
  const COPIES = ["", "first", "second", "third", "fourth"];
  let now = null; // what is knitted: {part, name, knitting, stamp}
  let screen = null; // the elements that change, once the bench is built

  // Parts, and those that are knitted more than once under a name each

  function named(name) {
    const [key, again] = name.split("~");
    const part = parts.find((each) => each.key === key);
    return part && Number(again || 1) <= part.times ? part : null;
  }

  function titleOf(name) {
    const part = named(name);
    return part.times > 1 ? `${part.title}, ${COPIES[Number(name.split("~")[1] || 1)] || name}` : part.title;
  }

  function names() {
    return parts.flatMap((part) => Array.from({ length: part.times },
      (_, n) => (n ? `${part.key}~${n + 1}` : part.key)));
  }

  // The parts that are knitted side by side with this one: copies of it, or left and right.
  function together(name) {
    const part = named(name);
    if (part.times > 1) return names().filter((each) => named(each) === part);
    const swap = { left: "right", right: "left" };
    const other = part.key.replace(/\b(left|right)\b/, (side) => swap[side]);
    return other !== part.key && named(other) ? [name, other].sort().reverse() : [name];
  }

  // How the pieces of such a pair are told apart: "First", "Right".
  function shortOf(name) {
    const part = named(name);
    const said = part.times > 1 ? COPIES[Number(name.split("~")[1] || 1)] || name
      : /\b(left|right)\b/.exec(part.key)[1];
    return said.charAt(0).toUpperCase() + said.slice(1);
  }

  // True where the designer means these parts to be knitted side by side.
  const isMarked = (name) => edition.pairs.split(/[ +]/).includes(named(name).key);

  // What is to be done next at the other part of a marked pair, and what its counter shows.
  function otherSaid(name) {
    const part = named(name);
    const kept = bookmark.placeOf(edition, name);
    const at = place.within(part, kept || place.begin());
    if (place.isDone(part, at)) return "";
    return ` Counter ${place.counter(part, at)}, carriage ${place.side(part, at)}: ${
      walebook.counter.spoken(part, at, mode())}`;
  }

  function farSaid(name) {
    const { kept, damage } = bookmark.look(edition, named(name), name);
    const { length } = named(name).steps;
    if (damage) return "its place cannot be read";
    if (!kept) return "not begun";
    return kept.step >= length ? "done" : `step ${kept.step + 1} of ${length}`;
  }

  // Moving

  const mode = () => (settings.get("count") === "rows" ? place.ROWS : place.STEPS);

  function act(action, step) {
    if (!now || follow()) return;
    const next = place.act(now.part, now.knitting, action, mode(), step);
    if (next === now.knitting) {
      tell(action === "undo" ? "There is nothing to undo." : action === "back" ? "This is the first step."
        : "This part is done.");
      return;
    }
    now.knitting = next;
    if (settings.get("tick")) walebook.speech.tick();
    if (settings.get("vibrate")) walebook.speech.vibrate();
    tell("");
    keep();
    show();
  }

  function keep() {
    const { stamp, isCut, isAside } = bookmark.keep(edition, now.part, now.name, now.knitting);
    now.stamp = stamp;
    if (isAside) tell(walebook.ask.ASIDE);
    if (isCut) tell("There is no room for all that can be undone. Your place is kept.");
  }

  // Another tab may have moved on: then its place holds, and is shown before anything is done.
  function follow(why = "Another tab moved this part.") {
    const kept = bookmark.placeOf(edition, now.name);
    if (!kept || kept.stamp === now.stamp) return false;
    now.stamp = kept.stamp;
    now.knitting = { ...place.within(now.part, kept), past: kept.past };
    show();
    tell(`${why} You are now at ${whereSaid()}.`);
    return true;
  }

  const guarded = walebook.keys.guard(() => Number(settings.get("pause")),
    () => performance.now(), () => tell("Second touch ignored: it came too soon after the first."));

  function wish(action) {
    guarded(() => act(action));
  }

  // Opening and leaving

  function open(name) {
    const part = named(name);
    if (!part) return;
    store.probe();
    const found = bookmark.look(edition, part, name);
    const { kept } = found;
    const counts = walebook.steps.counts(document);
    const changed = kept && bookmark.changes(edition, part, kept, bookmark.sizeOf(edition), counts);
    if (changed || found.damage) askAbout(part, name, found, changed);
    else begin(part, name, kept ? { ...place.within(part, kept), past: kept.past } : place.begin());
  }

  function begin(part, name, knitting) {
    now = { part, name, knitting, stamp: "" };
    build();
    keep();
    bookmark.keepSize(edition, name, true, walebook.steps.counts(document));
    if (!screen.bench.open) {
      screen.bench.showModal();
      walebook.awake.on(awakeSaid);
    }
    show();
    tell("");
    screen.forward.focus();
  }

  function leave() {
    walebook.awake.off();
    walebook.speech.hush();
    bookmark.keepSize(edition, now.name, false, walebook.steps.counts(document));
    const at = now.part.steps[now.knitting.step];
    now = null;
    offer();
    if (at) at.item.scrollIntoView({ block: "center" });
  }

  // What is stored is of another version of the pattern, or cannot be read: the knitter chooses.
  // What she does not choose is kept aside.

  function askAbout(part, name, found, changed) {
    const choose = (knitting) => {
      if (changed) store.keepAside(bookmark.placeKey(edition, name));
      begin(part, name, knitting);
      if (found.damage) tell(walebook.ask.ASIDE);
    };
    if (changed) walebook.ask.changed(titleOf(name), part, changed, choose);
    else walebook.ask.damaged(titleOf(name), found, choose);
  }

  // Showing

  function tell(text) {
    if (!screen) return;
    const said = text || store.said(); // what is wrong with keeping stays in sight
    screen.told.textContent = said;
    screen.told.hidden = !said;
  }

  function awakeSaid(text, isOn) {
    screen.awake.textContent = isOn ? "" : text;
    screen.awake.hidden = isOn;
  }

  function whereSaid() {
    const { part, knitting } = now;
    return place.isDone(part, knitting) ? "all done" : `step ${knitting.step + 1} of ${part.steps.length}`;
  }

  function show() {
    const { part, knitting } = now;
    const done = place.isDone(part, knitting);
    screen.title.textContent = titleOf(now.name);
    screen.where.textContent = `${whereSaid()}${!done && part.steps[knitting.step].section
      ? `, ${part.steps[knitting.step].section}` : ""}`;
    screen.body.replaceChildren(...(done ? ended() : working()));
    screen.next.textContent = done ? "" : `Next: ${walebook.counter.next(part, knitting, mode())}`;
    screen.pair.replaceChildren(...pairButtons());
    screen.forward.replaceChildren(...forwardSaid(done));
    screen.forward.classList.toggle("wb-is-off", done);
    screen.undo.setAttribute("aria-label", `Undo, ${knitting.past.length} kept`);
    screen.main.scrollTop = 0;
    hint();
    announce(done);
  }

  function announce(done) {
    const { part, knitting } = now;
    const text = done ? `${titleOf(now.name)} is done.`
      : walebook.counter.spoken(part, knitting, mode());
    const counted = knitting.rows > 0 && mode() === place.ROWS;
    screen.live.textContent = done || counted ? text : `Step ${knitting.step + 1}. ${text}`;
    if (settings.get("speak") && !walebook.speech.say(text)) tell(walebook.speech.NO_VOICE);
  }

  function forwardSaid(done) {
    if (done) return ["All done"];
    const { part, knitting } = now;
    const step = part.steps[knitting.step];
    if (mode() === place.ROWS && place.isCounted(step) && knitting.rows < step.rows) {
      return ["Row done ", make("small", {}, `${knitting.rows + 1} of ${step.rows}`)];
    }
    return ["Done ", make("small", {}, "go on")];
  }

  function ended() {
    const every = names();
    const after = every.slice(every.indexOf(now.name) + 1).find((name) => farSaid(name) !== "done");
    return [make("p", { class: "wb-bench-do" }, `${titleOf(now.name)} is done.`),
      after ? button(`Go on with ${titleOf(after)}`, () => open(after), { class: "wb-main-button" })
        : make("p", {}, "It is the last part of this page."),
    ];
  }

  function working() {
    const { part, knitting } = now;
    const step = part.steps[knitting.step];
    const said = walebook.counter.lead(part, knitting, mode());
    const content = [...step.item.childNodes].map(copy);
    const first = content.findIndex((node) => node.nodeName === "P");
    const lead = said || content.splice(first, 1)[0];
    lead.classList.add("wb-bench-do");
    const facts = part.hasCounter
      ? [walebook.counter.face(part, knitting, mode()), walebook.counter.standing(part, knitting)]
      : [];
    const last = walebook.counter.isLast(part, knitting);
    const isCheck = (node) => last && node.classList && node.classList.contains("wb-check");
    const checks = content.filter(isCheck);
    const rest = make("div", { class: "wb-bench-more" }, ...content.filter((node) => !isCheck(node)));
    markRow(rest, walebook.counter.target(part, knitting, mode()));
    const remark = remarks.all(edition)[step.id];
    return [lead, ...facts, ...checks, wholeStep(step), rest,
      remark ? make("p", { class: "wb-bench-remark" }, make("b", {}, "Your remark: "), remark) : ""]
      .filter(Boolean);
  }

  function wholeStep(step) {
    if (mode() !== place.ROWS || !place.isCounted(step) || now.knitting.rows === step.rows) return "";
    return button("The whole step is done", () => act("finish"), { class: "wb-whole" });
  }

  // In a list of rows, the row that comes next is marked.
  function markRow(rest, counter) {
    for (const row of rest.querySelectorAll(".wb-rows > li, .wb-scroll tbody tr")) {
      const number = row.querySelector("b");
      if (number && Number(number.textContent) === counter) row.setAttribute("aria-current", "step");
    }
  }

  function pairButtons() {
    const members = together(now.name);
    if (members.length < 2) return [];
    return members.map((name) => {
      const isHere = name === now.name;
      const made = button(`${shortOf(name)}: ${farSaid(name).replace("step ", "")}`, () => open(name),
        { "aria-pressed": String(isHere) });
      if (!isHere && isMarked(name)) made.append(make("small", { class: "wb-bench-other" }, otherSaid(name)));
      return made;
    });
  }

  function hint() {
    const { main, more } = screen;
    more.hidden = main.scrollHeight - main.scrollTop - main.clientHeight < 24;
  }

  // Sheets over the bench

  function openList() {
    walebook.list.steps(now.part, now.knitting, remarks.all(edition), (step) => act("jump", step));
  }

  function openMenu() {
    const close = (then) => () => {
      sheet.close();
      then();
    };
    const { part, knitting } = now;
    const step = part.steps[knitting.step];
    const sheet = walebook.sheet("Menu", [
      step ? button("Your remark on this step", close(() => remarks.ask(edition, step,
        knitting.step + 1, show))) : "",
      step ? button("Say this step", close(() => walebook.speech.say(
        walebook.counter.spoken(part, knitting, mode())) || tell(walebook.speech.NO_VOICE))) : "",
      button("Settings, and saving to a file", close(settings.open)),
      button("Begin this part again", close(() => act("jump", 0))),
      button("Back to the whole page", close(() => screen.bench.close())),
      make("h3", {}, "Parts of this page"),
      walebook.list.parts(names().map((name) => ({ name, title: titleOf(name), said: farSaid(name) })),
        (name) => close(() => open(name))()),
    ].filter(Boolean), { class: "wb-sheet wb-menu md-typeset" });
  }

  // A link to another place of the page is shown over the bench, so that nobody leaves it.
  function openPlace(event) {
    const link = event.target.closest("a[href^='#']");
    const goal = link && document.getElementById(link.getAttribute("href").slice(1));
    if (!goal) return;
    event.preventDefault();
    const isHead = /^(H1|H2|H3|DT)$/.test(goal.nodeName);
    const title = isHead ? goal : goal.querySelector("h1, h2, h3");
    walebook.sheet(title ? walebook.steps.said(title).replace(/\s*¶$/, "") : "On this page",
      isHead ? below(goal) : [copy(goal)], { click: openPlace });
  }

  // What stands under a heading or a term, up to the next.
  function below(head) {
    const found = [];
    for (let node = head.nextElementSibling; node && !/^(H1|H2|H3|DT)$/.test(node.nodeName);
      node = node.nextElementSibling) found.push(copy(node));
    return found;
  }

  // Building, once

  function build() {
    if (screen) return;
    const title = make("b", { class: "wb-bench-part" });
    const where = make("span", { class: "wb-bench-where" });
    const heading = make("h2", { id: "wb-bench-title" }, where, " ", title);
    const pair = make("div", { class: "wb-bench-pair", role: "group", "aria-label": "Knitted side by side" });
    const body = make("div", { class: "wb-bench-body" });
    const more = button("More below", () => main.scrollBy(0, main.clientHeight - 60), { class: "wb-bench-down" });
    const awake = make("p", { class: "wb-bench-awake", hidden: true });
    const main = make("div", { class: "wb-bench-main", tabindex: "0", role: "region",
      "aria-label": "This step", scroll: hint, click: openPlace }, body, awake);
    const told = make("p", { class: "wb-bench-told", role: "status", hidden: true });
    const live = make("p", { class: "wb-unseen", "aria-live": "polite" });
    const next = make("p", { class: "wb-bench-next" });
    const backZone = button("Back", () => wish("back"), { class: "wb-zone wb-zone-back" });
    const undo = button("Undo", () => wish("undo"), { class: "wb-zone wb-zone-undo" });
    const forward = button("Done", () => wish("forward"), { class: "wb-zone wb-zone-forward" });
    const bench = make("dialog", { class: "wb-bench md-typeset", "aria-labelledby": heading.id,
      close: leave }, main, told, backZone, undo, forward, live);
    const top = make("div", { class: "wb-bench-top" }, heading, pair,
      button("All steps", openList, { class: "wb-bench-list" }),
      button("Menu", openMenu, { class: "wb-bench-menu" }));
    const foot = make("div", { class: "wb-bench-foot" }, next, more);
    screen = { bench, top, foot, title, where, pair, body, main, more, awake, told, live, next,
      undo, forward };
    document.body.append(bench);
    arrange();
    bench.addEventListener("click", restFocus);
    walebook.keys.listen(bench, () => !settings.get("keysOff"), wish);
    walebook.keys.swipes(main, wish);
    window.addEventListener("resize", () => now && hint());
  }

  // With large letters there is room for the step alone: the rest follows it when scrolled to.
  function arrange() {
    const { bench, main, top, foot, told } = screen;
    if (document.documentElement.classList.contains("wb-huge")) main.append(foot, top);
    else {
      bench.prepend(top);
      told.after(foot);
    }
  }

  // After a touch the focus goes back to where a pedal's keys do what they say.
  function restFocus(event) {
    if (event.detail > 0 && event.target.closest("button") && now
      && !document.querySelector("dialog.wb-sheet[open]")) screen.forward.focus();
  }

  // On the page itself

  function offer() {
    document.querySelectorAll(".wb-offer").forEach((old) => old.remove());
    const top = document.querySelector("[data-wb-pattern]");
    const size = bookmark.sizeOf(edition);
    const name = size && named(size.part) ? size.part : names()[0];
    const begun = bookmark.placeOf(edition, name);
    const label = begun ? `Go on with ${titleOf(name)}, ${farSaid(name)}` : `Knit from this page: ${titleOf(name)}`;
    top.after(make("p", { class: "wb-offer" }, button(label, () => open(name), { class: "wb-main-button" })));
    for (const each of names()) {
      const { heading } = named(each);
      const offers = document.querySelectorAll(`[data-wb-offers="${CSS.escape(named(each).key)}"]`);
      const last = offers.length ? offers[offers.length - 1] : heading;
      if (heading) {
        last.after(make("p", { class: "wb-offer", "data-wb-offers": named(each).key },
          button(`${titleOf(each)}, step by step (${farSaid(each)})`, () => open(each))));
      }
    }
  }

  function start() {
    if (!parts.length) return;
    offer();
    const asked = /^#knit-(.+)$/.exec(location.hash);
    const size = bookmark.sizeOf(edition);
    const name = asked ? decodeURIComponent(asked[1]) : size && size.open ? size.part : "";
    if (name && named(name)) open(name);
  }

  store.onOtherTab((key) => {
    if (now && key === bookmark.placeKey(edition, now.name)) follow();
    else if (now) screen.pair.replaceChildren(...pairButtons());
  });
  store.onState(() => tell(""));
  settings.onChange((name) => {
    if (screen) arrange();
    if (!now) return;
    if (name === "all") follow("The file that you loaded holds this part.");
    if (name !== "speak" || settings.get("speak")) show();
  });
  window.addEventListener("pageshow", (event) => { if (event.persisted && now) follow(); });

  walebook.bench = { parts, edition, open, act, at: () => now && { ...now.knitting, name: now.name } };
  start();
}(window.walebook = window.walebook || {}));
