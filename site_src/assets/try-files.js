// The texts of "Try it": from the site, from a file of the device and to one, and the draft that a
// browser keeps until another one is begun.
(function (walebook) {
  "use strict";
  const { make, store, isRecord } = walebook;
  const DRAFT = "try/draft";
  const MOST = 400000; // characters of a file that is read at all
  const OWN = "my-pattern"; // the pattern's folder, where the text comes from no pattern of the site

  /** @type {(path: string) => Promise<any>} */
  async function fetched(path) {
    const response = await fetch(new URL(path, walebook.worker.ROOT));
    if (!response.ok) throw new Error("missing");
    return response.json();
  }

  // What goes with a source that belongs to no pattern of the site.
  /** @type {(source: string) => wb.TriedTexts} */
  const alone = (source) => ({ slug: OWN, source, shared: "", pictures: {}, picture_sizes: {}, own_chart: "" });

  /** @type {(slug: string) => Promise<wb.TriedTexts>} */
  const pattern = (slug) => fetched(`try-it/${slug}.json`);

  /**
   * @param {unknown} kept
   * @returns {kept is wb.TriedTexts}
   */
  function isTexts(kept) {
    return isRecord(kept) && ["slug", "source", "shared", "own_chart"].every((name) => typeof kept[name] === "string")
      && isRecord(kept.pictures) && isRecord(kept.picture_sizes);
  }

  // The draft of last time, with all that it needs and whether the reader has worked on it, or null.
  /** @type {wb.TryFiles["draft"]} */
  function draft() {
    const kept = store.get(DRAFT);
    return isRecord(kept) && isTexts(kept.texts) ? { texts: kept.texts, isTouched: kept.isTouched === true } : null;
  }

  /** @type {wb.TryFiles["keep"]} */
  const keep = (texts, isTouched) => store.set(DRAFT, { texts, isTouched });

  /** @type {(source: string) => void} */
  function save(source) {
    const address = URL.createObjectURL(new Blob([source], { type: "text/yaml" }));
    const link = make("a", { href: address, download: "pattern.yaml", hidden: true });
    document.body.append(link);
    link.click();
    link.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), 1000);
  }

  // A file's text; what is no source is thrown as a text for the reader.
  /** @type {(file: File) => Promise<string>} */
  async function read(file) {
    if (file.size > MOST) throw new Error("The file is too large to be the source of a pattern. Nothing was changed.");
    try {
      const text = new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
      return text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
    } catch {
      throw new Error("The file is no text in UTF-8. Nothing was changed. Save it as UTF-8 and load it again.");
    }
  }

  walebook.tryFiles = { start: () => fetched("try-it/start.json"), schema: () => fetched("patterns/pattern.schema.json"),
    pattern, alone, draft, keep, save, read };
}(window.walebook = window.walebook || {}));
