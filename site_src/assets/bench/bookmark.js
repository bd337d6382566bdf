// Keeps the place in every part: by pattern, size and part, with the version it was kept in, and the
// one that the part was begun with (`began`; a place that was kept before it had this is of one).
// "part" here is a part's key, followed by ~2, ~3 … for the second or third of pieces knit alike.
(function (walebook) {
  "use strict";
  const { store, place, isRecord } = walebook;
  const FORM = 1; // of what is written here; one of a later form is another version's
  const PAST = /^(\d+\.\d+( |$))*$/;
  const KINDS = ["place", "size", "remarks", "gauge"]; // what is kept of one size
  const FEW = 20; // earlier places that are kept when there is no room for all

  /** @type {(edition: wb.SizeOf) => string} */
  const sizeKey = (edition) => `size/${edition.pattern}/${edition.size}`;
  /** @type {wb.Bookmark["placeKey"]} */
  const placeKey = (edition, part) => `place/${edition.pattern}/${edition.size}/${part}`;

  /** @type {(value: unknown) => value is number} */
  function isCount(value) {
    return typeof value === "number" && Number.isInteger(value) && value >= 0;
  }

  // True for a record of this form, whatever the place is.
  /** @type {(kept: Record<string, unknown>) => boolean} */
  const isOurs = (kept) => isCount(kept.rows) && isCount(kept.when) && (kept.form || FORM) === FORM
    && typeof kept.version === "string" && typeof kept.stamp === "string"
    && (kept.began === undefined || typeof kept.began === "string");

  // True for what this page writes itself, of a part that may have been another then.
  /** @type {wb.Bookmark["isPlace"]} */
  function isPlace(kept) {
    if (!isRecord(kept)) return false;
    const { step, past, digests } = kept;
    return isCount(step) && typeof past === "string" && typeof digests === "string" && isOurs(kept)
      && PAST.test(past) && [step, ...read(past).map(([each]) => each)].every((each) => each <= lengthOf({ digests }));
  }

  // The number of steps that a part had when its place was kept.
  /** @type {wb.Bookmark["lengthOf"]} */
  const lengthOf = (kept) => kept.digests.split(" ").length;

  // True for a place that the part has; one of another version is asked about, not refused.
  /** @type {(part: wb.Part, kept: wb.StoredPlace) => boolean} */
  function fits(part, kept) {
    if (kept.digests !== digestsOf(part)) return true;
    const at = place.within(part, kept);
    return at.step === kept.step && at.rows === kept.rows;
  }

  /** @type {wb.Bookmark["isSize"]} */
  function isSize(kept) {
    return isRecord(kept) && typeof kept.title === "string"
      && typeof kept.part === "string" && (kept.piece === undefined || typeof kept.piece === "string") && typeof kept.open === "boolean" && isCount(kept.when)
      && isRecord(kept.counts) && Object.values(kept.counts).every((count) => typeof count === "string");
  }

  /** @type {(past: wb.Past) => string} */
  const written = (past) => past.map((at) => at.join(".")).join(" ");
  /** @type {(past: string) => wb.Past} */
  const read = (past) => (past ? past.split(" ").map(readPlace) : []);
  /** @type {(at: string) => [number, number]} */
  const readPlace = (at) => {
    const [step, rows] = at.split(".");
    return [Number(step), Number(rows)];
  };

  /** @type {(part: wb.Part) => string} */
  const digestsOf = (part) => part.steps.map((step) => step.digest).join(" ");

  // What is kept of a part, or null.
  /** @type {wb.Bookmark["placeOf"]} */
  function placeOf(edition, name) {
    const kept = store.get(placeKey(edition, name));
    return isPlace(kept) ? { ...kept, past: read(kept.past) } : null;
  }

  // What is stored of a part: {kept}; {damage, step} where it cannot be read, `damage` telling why
  // and `step` what can still be made out; {} where nothing is.
  /** @type {wb.Bookmark["look"]} */
  function look(edition, part, name) {
    const key = placeKey(edition, name);
    if (store.text(key) === null) return {};
    const stored = store.get(key);
    if (isPlace(stored) && fits(part, stored)) return { kept: placeOf(edition, name) };
    const { step, form } = isRecord(stored) ? stored : {};
    return { damage: isCount(form) && form > FORM ? "newer" : "damaged",
      step: isCount(step) && step > 0 && step < part.steps.length ? step : 0 };
  }

  /** @type {wb.Bookmark["sizeOf"]} */
  function sizeOf(edition) {
    const kept = store.get(sizeKey(edition));
    return isSize(kept) ? kept : null;
  }

  // Keeps a place. Where there is no room for every earlier place, the latest few are kept, which
  // `isCut` then says; `isAside` says that something unreadable was there. Returns {stamp, isCut,
  // isAside}.
  /** @type {wb.Bookmark["keep"]} */
  function keep(edition, part, name, knitting, began = edition.version) {
    const record = {
      began,
      step: knitting.step, rows: knitting.rows, past: written(knitting.past),
      version: edition.version, digests: digestsOf(part), when: Date.now(),
      stamp: `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 8)}`,
    };
    const key = placeKey(edition, name);
    const isAside = Boolean(look(edition, part, name).damage);
    /** @type {wb.Sound} */
    const isSound = (before) => isPlace(before) && fits(part, before);
    const isWhole = store.set(key, record, isSound);
    const isCut = !isWhole && knitting.past.length > FEW
      && store.set(key, { ...record, past: written(knitting.past.slice(-FEW)) }, isSound);
    return { stamp: record.stamp, isCut, isAside };
  }

  /** @type {wb.Bookmark["keepSize"]} */
  function keepSize(edition, name, piece, open, counts) {
    store.set(sizeKey(edition), { title: edition.title, part: name, piece, open, counts,
      version: edition.version, when: Date.now() }, isSize);
  }

  // What has changed since a place was kept: null, or the steps and counts that differ.
  /** @type {wb.Bookmark["changes"]} */
  function changes(edition, part, kept, size, counts) {
    const now = digestsOf(part);
    if (kept.version === edition.version && kept.digests === now) return null;
    const before = kept.digests.split(" ");
    const known = new Set(before);
    const fresh = part.steps.map((step, n) => ({ step, n })).filter(({ step }) => !known.has(step.digest));
    return {
      from: kept.version, to: edition.version,
      steps: { before: before.length, now: part.steps.length, fresh: fresh.map(({ n }) => n) },
      counts: size ? compared(size.counts, counts) : [],
      // The step she was at, where it stands now: the same text, else the same number.
      step: sameStep(part, before[kept.step], kept.step),
    };
  }

  /** @type {(part: wb.Part, digest: string | undefined, step: number) => number} */
  function sameStep(part, digest, step) {
    const found = part.steps.map((_, n) => n).filter((n) => part.steps[n].digest === digest);
    if (!found.length) return Math.min(step, part.steps.length);
    return found.reduce((best, n) => (Math.abs(n - step) < Math.abs(best - step) ? n : best));
  }

  /** @type {(before: wb.Counts, now: wb.Counts) => wb.Difference[]} */
  function compared(before, now) {
    const names = [...new Set([...Object.keys(before), ...Object.keys(now)])];
    // An older page of ours named its counts otherwise: then there is nothing to compare.
    if (!names.some((name) => name in before && name in now)) return [];
    return names.filter((name) => before[name] !== now[name])
      .map((name) => ({ name, before: before[name] || "–", now: now[name] || "–" }));
  }

  // Every size that has a place, the latest first: {pattern, size, title, part, when}.
  /** @type {wb.Bookmark["all"]} */
  function all() {
    return store.keys().filter((key) => key.startsWith("size/")).flatMap((key) => {
      const [, pattern, size] = key.split("/");
      const kept = sizeOf({ pattern, size });
      return kept ? [{ pattern, size, ...kept }] : [];
    }).sort((a, b) => b.when - a.when);
  }

  // True for what is kept of a size's page, and of the reader's own pages beside it ("m.loose").
  /** @type {(size: string | undefined, page: string) => boolean} */
  const isOf = (size, page) => size === page || Boolean(size && size.startsWith(`${page}.`));

  // Where a key of this size leads that has a name which its pattern or the size had before; "" for
  // any other key.
  /** @type {(edition: wb.Edition, key: string) => string} */
  function nameNow(edition, key) {
    const [kind, pattern, size, ...rest] = key.split("/");
    const page = [edition.size, ...edition.formerSizes].find((each) => isOf(size, each));
    if (!KINDS.includes(kind) || page === undefined || ![edition.pattern, ...edition.former].includes(pattern)) {
      return "";
    }
    const to = [kind, edition.pattern, `${edition.size}${size.slice(page.length)}`, ...rest].join("/");
    return to === key ? "" : to;
  }

  // Takes over what is kept of this size under a name that it or its pattern had before: of several
  // names, the one under which a place was kept last. What is kept there stays: an older page of it
  // may be on the device. What is kept under the name now is not written over.
  /** @type {wb.Bookmark["takeOver"]} */
  function takeOver(edition) {
    /** @type {Record<string, number>} */
    const when = Object.fromEntries(all().map((one) => [`${one.pattern}/${one.size}`, one.when]));
    /** @type {(key: string) => number} */
    const last = (key) => when[key.split("/").slice(1, 3).join("/")] || 0;
    for (const key of store.keys().sort((one, other) => last(other) - last(one))) {
      const to = nameNow(edition, key);
      const stays = to && store.text(key);
      if (stays && store.text(to) === null) {
        const [kind, pattern, size] = key.split("/");
        const kept = to === sizeKey(edition) && kind === "size" ? sizeOf({ pattern, size }) : null;
        store.put(to, kept ? JSON.stringify({ ...kept, title: edition.title }) : stays);
      }
    }
  }

  walebook.bookmark = { takeOver, placeOf, look, sizeOf, keep, keepSize, changes, all, isPlace, isSize, placeKey,
    lengthOf };
}(window.walebook = window.walebook || {}));
