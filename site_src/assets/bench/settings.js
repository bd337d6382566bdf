// The reader's settings: how every page looks, and how the page is knitted from.
(function (walebook) {
  "use strict";
  const texts = TEXTS.settings;
  const { store, make, isRecord } = walebook;
  const root = document.documentElement;

  // name: [label, choices as [value, said], the first being what holds until something is chosen]
  /** @type {wb.Fields} */
  const READING = {
    text: [texts.textSize, [["100", texts.normal], ["125", "125 %"], ["150", "150 %"], ["200", "200 %"],
      ["250", "250 %"], ["300", "300 %"]]],
    colours: [texts.colours, [["page", texts.normal], ["light", texts.blackOnWhite],
      ["dark", texts.whiteOnBlack]]],
    units: [texts.measuresIn, [["both", texts.cmAndInches], ["cm", "cm"], ["in", "inches"]]],
    spacing: [texts.wideSpacingOf],
    upright: [texts.noItalicsOne],
    still: [texts.lessMotion],
  };
  /** @type {wb.Fields} */
  const KNITTING = {
    count: [texts.oneTouchStands, [["steps", texts.aStepOr], ["rows", texts.eachRow]]],
    pause: [texts.aSecondTouch, [["400", "0.4 seconds"], ["800", "0.8 seconds"],
      ["1500", "1.5 seconds"], ["0", "off"]]],
    left: [texts.leftHandedForward],
    keysOff: [texts.singleKeysDo],
    speak: [texts.readEachStep],
    tick: [texts.tickAtEach],
    vibrate: [texts.vibrateAtEach],
  };
  const ALL = { ...READING, ...KNITTING };
  /** @type {((name: string, value?: wb.Value) => void)[]} */
  const watchers = [];

  /** @type {(name: string) => wb.Value} */
  function first(name) {
    const [, choices] = ALL[name];
    return choices ? choices[0][0] : false;
  }

  /** @type {(name: string, value: unknown) => boolean} */
  function isChosen(name, value) {
    if (!Object.keys(ALL).includes(name)) return false;
    const [, choices] = ALL[name];
    return choices ? choices.some(([each]) => each === value) : typeof value === "boolean";
  }

  /** @type {wb.Settings["isSettings"]} */
  function isSettings(kept) {
    return isRecord(kept) && Object.entries(kept).every(([name, value]) => isChosen(name, value));
  }

  /** @type {wb.Settings["get"]} */
  function get(name) {
    const kept = store.get("settings");
    return isSettings(kept) && name in kept ? kept[name] : first(name);
  }

  /** @type {wb.Settings["choose"]} */
  function choose(name, value) {
    const kept = store.get("settings");
    store.set("settings", { ...(isSettings(kept) ? kept : {}), [name]: value }, isSettings);
    apply();
    watchers.forEach((watcher) => watcher(name, value));
  }

  function apply() {
    const size = get("text");
    root.style.setProperty("--wb-text-size", String(Number(size) / 100));
    root.classList.toggle("wb-larger", size !== "100");
    root.classList.toggle("wb-huge", Number(size) >= 200);
    const colours = get("colours");
    root.classList.toggle("wb-plain-colours", colours !== "page");
    if (colours !== "page") {
      document.body.setAttribute("data-md-color-scheme", colours === "dark" ? "slate" : "default");
    }
    const units = get("units");
    if (units !== "both") markUnits();
    root.classList.toggle("wb-cm-only", units === "cm");
    root.classList.toggle("wb-in-only", units === "in");
    for (const [name, css] of [["spacing", "wb-spaced"], ["upright", "wb-upright"],
      ["still", "wb-still"], ["left", "wb-left-handed"]]) root.classList.toggle(css, Boolean(get(name)));
  }

  // "13 cm (5 in)" in a text becomes two measures, of which one can be hidden.
  const BOTH = /(\d[\d.,–]*[ \u00a0]cm) \(([\d¼½¾⅛⅜⅝⅞][\d./ \u00a0–¼½¾⅛⅜⅝⅞]*[ \u00a0]in)\)/;
  let marked = false;

  function markUnits() {
    if (marked) return;
    marked = true;
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    /** @type {Text[]} */
    const found = [];
    while (walker.nextNode()) {
      const node = walker.currentNode;
      if (node instanceof Text && BOTH.test(node.data) && isShown(node)) found.push(node);
    }
    found.forEach(splitUnits);
  }

  /** @type {(node: Text) => boolean} */
  function isShown(node) {
    return !node.parentElement?.closest("title, script, style, .wb-cm, .wb-in");
  }

  /** @type {(node: Text) => void} */
  function splitUnits(node) {
    const parent = node.parentElement;
    if (!parent) return;
    /** @type {(css: string, text: string) => Element} */
    const piece = (css, text) => {
      const made = document.createElementNS(parent.namespaceURI, parent.closest("svg") ? "tspan" : "span");
      made.setAttribute("class", css);
      made.append(text);
      return made;
    };
    /** @type {Text} */
    let rest = node;
    for (let match = BOTH.exec(rest.data); match; match = BOTH.exec(rest.data)) {
      const pair = rest.splitText(match.index);
      rest = pair.splitText(match[0].length);
      pair.replaceWith(piece("wb-cm", match[1]), piece("wb-or", " ("), piece("wb-in", match[2]),
        piece("wb-or", ")"));
    }
  }

  /** @type {(name: string) => HTMLElement} */
  function field(name) {
    const [label, choices] = ALL[name];
    const id = `wb-set-${name}`;
    if (!choices) {
      const box = make("input", { type: "checkbox", id,
        change: () => choose(name, box.checked) });
      box.checked = Boolean(get(name));
      return make("p", { class: "wb-set" }, box, make("label", { for: id }, label));
    }
    const list = make("select", { id, change: () => choose(name, list.value) },
      ...choices.map(([value, text]) => make("option", { value }, text)));
    list.value = String(get(name));
    return make("p", { class: "wb-set" }, make("label", { for: id }, label), list);
  }

  /** @type {(title: string, fields: wb.Fields) => HTMLElement} */
  function group(title, fields) {
    return make("fieldset", {}, make("legend", {}, title), ...Object.keys(fields).map(field));
  }

  function open() {
    const refused = make("p", { role: "status", class: "wb-told" }, store.stateText());
    walebook.sheet(texts.settings, [
      make("p", {}, texts.theyHoldFor), refused,
      group(texts.reading, READING), group(texts.knittingFromThe, KNITTING),
      walebook.carry.controls(() => { apply(); watchers.forEach((watcher) => watcher("all")); }),
    ], { id: "wb-settings" });
  }

  // The button stands in the running head; a single file has none, and gets one at its top.
  function addButton() {
    const stands = document.querySelector(".wb-run .wb-settings-button");
    if (stands) stands.addEventListener("click", open);
    else {
      document.body.prepend(walebook.button(texts.settings, open, { class: "wb-settings-button",
        "aria-haspopup": "dialog" }));
    }
  }

  store.onOtherTab((key) => { if (key === "settings") apply(); });
  apply();
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", addButton);
  else addButton();
  walebook.settings = { get, choose, open, isSettings, apply, onChange: (watcher) => { watchers.push(watcher); } };
}(window.walebook = window.walebook || {}));
