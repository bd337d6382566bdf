// What an editor may offer and explain at a place of a source: the keys on the way there, read from
// the text, and what the published schema says of them.
(function (walebook) {
  "use strict";
  const ITEM = "[]"; // on a path, an entry of a list
  const KEY = /^\s*("[^"]*"|'[^']*'|[^\s"'{}[\],#][^:{}[\],]*?)\s*:(?:\s|$)/;
  const OPENS = "{[";
  const CLOSES = "}]";

  /** @type {(key: string) => string} */
  const plain = (key) => key.replace(/^["']|["']$/g, "");

  // The position behind a text in quotes or a comment that begins at `at`; `at` where neither does.
  /** @type {(text: string, at: number, before: string) => number} */
  function skipped(text, at, before) {
    const sign = text[at];
    if (sign === "#" && (!before || /\s/.test(text[at - 1] || " "))) {
      const end = text.indexOf("\n", at);
      return end < 0 ? text.length : end;
    }
    if ((sign === "\"" || sign === "'") && /^[:,{[\n-]?$/.test(before)) {
      const end = text.indexOf(sign, at + 1);
      return end < 0 ? text.length : end + 1;
    }
    return at;
  }

  // The brackets that are open at `end`: where each stands, and where its last entry begins.
  /** @type {(text: string, end: number) => { at: number, start: number }[]} */
  function brackets(text, end) {
    /** @type {{ at: number, start: number }[]} */
    const open = [];
    let before = "";
    for (let at = 0; at < end; at += 1) {
      const behind = skipped(text, at, before);
      if (behind > at) at = behind - 1;
      else meet(text[at], at, before, open);
      if (text[at] === "\n" || /\S/.test(text[at] || "")) before = text[at];
    }
    return open;
  }

  // A sign outside quotes and comments: what it opens, closes or parts.
  /** @type {(sign: string, at: number, before: string, open: { at: number, start: number }[]) => void} */
  function meet(sign, at, before, open) {
    if (OPENS.includes(sign) && (open.length || /^[:\n-]?$/.test(before))) open.push({ at, start: at + 1 });
    else if (CLOSES.includes(sign)) open.pop();
    else if (sign === "," && open.length) open[open.length - 1].start = at + 1;
  }

  // The keys and the dashes of lines, each with its indent, the last first.
  /** @type {(lines: string[]) => { at: number, key: string }[]} */
  function marks(lines) {
    return lines.flatMap((line) => {
      const [, lead, dashes, content] = /^(\s*)((?:- +)*)(.*)$/.exec(line) || [];
      if (!content || content.startsWith("#")) return [];
      const key = KEY.exec(content);
      return [...dashes.matchAll(/-/g)].map(({ index }) => ({ at: lead.length + index, key: "" }))
        .concat(key ? [{ at: lead.length + dashes.length, key: plain(key[1]) }] : []);
    }).reverse();
  }

  // The keys above a line, the outermost first: those indented by less than `most`. A list's dash may
  // stand below its key, and is above only what is indented further than `dash`.
  /** @type {(lines: string[], most: number, dash: number) => string[]} */
  function above(lines, most, dash) {
    /** @type {string[]} */
    const path = [];
    let [before, least] = [most, dash];
    for (const { at, key } of marks(lines)) {
      if (at >= (key ? before : least)) continue;
      path.unshift(key || ITEM);
      before = key ? at : at + 1;
      least = at;
    }
    return path;
  }

  // A place among entries: the path to them, and what is written of the one at hand.
  /** @type {(path: string[], written: string, from: number, isList: boolean) => wb.SourcePlace} */
  function placed(path, written, from, isList) {
    const key = isList ? null : KEY.exec(written) || /^\s*("[^"]*"|[^:]+):$/.exec(written);
    const value = key ? written.slice(key[0].length) : written;
    const prefix = value.trimStart();
    return { path: [...path, ...(isList ? [ITEM] : key ? [plain(key[1])] : [])], prefix,
      from: from + written.length - prefix.length, isKey: !key && !isList };
  }

  // The place in a line that is in no bracket.
  /** @type {(text: string, at: number) => wb.SourcePlace} */
  function inBlock(text, at) {
    const start = at ? text.lastIndexOf("\n", at - 1) + 1 : 0;
    const line = text.slice(start, at);
    const [lead, dashes] = /^(\s*)((?:- +)*)/.exec(line)?.slice(1) || ["", ""];
    const indent = lead.length + dashes.length;
    const lines = text.slice(0, start).split("\n");
    const path = dashes ? [...above(lines, lead.length + 1, lead.length), ITEM] : above(lines, indent, indent);
    return placed(path, line.slice(indent), start + indent, false);
  }

  /** @type {wb.TrySchema["at"]} */
  function placeAt(text, at) {
    const open = brackets(text, at);
    if (!open.length) return inBlock(text, at);
    let { path } = inBlock(text, open[0].at);
    open.forEach(({ start }, n) => {
      if (n + 1 < open.length) path = placed(path, text.slice(start, open[n + 1].at), 0, text[open[n].at] === "[").path;
    });
    const last = open[open.length - 1];
    return placed(path, text.slice(last.start, at), last.start, text[last.at] === "[");
  }

  // The schema

  // A schema with all those that it stands for: what it refers to, and its choices.
  /** @type {(schema: wb.JSONSchema, root: wb.JSONSchema) => wb.JSONSchema[]} */
  function expanded(schema, root) {
    const named = schema.$ref ? (root.$defs || {})[schema.$ref.replace("#/$defs/", "")] : null;
    const further = [...(named ? [named] : []), ...(schema.anyOf || []), ...(schema.allOf || [])];
    return [schema, ...further.flatMap((each) => expanded(each, root))];
  }

  // What may stand under a key, or in a list, of any of these.
  /** @type {(schemas: wb.JSONSchema[], key: string, root: wb.JSONSchema) => wb.JSONSchema[]} */
  function under(schemas, key, root) {
    return schemas.flatMap((schema) => {
      const own = key === ITEM ? schema.items : Object.hasOwn(schema.properties || {}, key)
        ? (schema.properties || {})[key] : schema.additionalProperties;
      return own && typeof own === "object" ? expanded(own, root) : [];
    });
  }

  /** @type {(root: wb.JSONSchema, path: string[]) => wb.JSONSchema[]} */
  const reached = (root, path) => path.reduce((schemas, key) => under(schemas, key, root), expanded(root, root));

  // The keys of a mapping, each with its meaning.
  /** @type {(properties: Record<string, wb.JSONSchema | boolean>) => [string, string][]} */
  const keysOf = (properties) => Object.entries(properties).flatMap(([key, entry]) => (
    typeof entry === "object" && !entry.deprecated ? [[key, entry.description || ""]] : []));

  // What can be written at a place: keys with their meanings, or the words that a value may be.
  /** @type {wb.TrySchema["offers"]} */
  function offers(root, text, at) {
    const place = placeAt(text, at);
    const schemas = reached(root, place.path);
    /** @type {Map<string, wb.SourceOffer>} */
    const found = new Map();
    for (const { properties, enum: words, type } of schemas) {
      if (place.isKey) {
        for (const [label, info] of keysOf(properties || {})) found.set(label, { label, apply: `${label}: `, info });
      }
      // An entry behind a dash may be a mapping or a word.
      if (!place.isKey || place.path[place.path.length - 1] === ITEM) {
        const all = [...(words || []), ...(type === "boolean" ? [true, false] : [])];
        for (const word of all) found.set(String(word), { label: String(word), apply: String(word), info: "" });
      }
    }
    return { from: place.from, options: [...found.values()] };
  }

  // What the key at a place means: that which is nearest above, where it has no words.
  /** @type {wb.TrySchema["meaning"]} */
  function meaning(root, text, at) {
    const key = /^[^\s:{}[\],#"']*(?: [^\s:{}[\],#"']+)*/.exec(text.slice(at));
    const end = at + (key ? key[0].length : 0);
    const place = placeAt(text, end);
    const isAtKey = place.isKey && text[end] === ":";
    const path = isAtKey ? [...place.path, place.prefix.trimEnd()] : place.path;
    for (let length = path.length; length > 0; length -= 1) {
      const described = reached(root, path.slice(0, length)).find((each) => each.description);
      if (described) return { key: path.slice(0, length).filter((each) => each !== ITEM).pop() || "", text: described.description || "" };
    }
    return null;
  }

  walebook.trySchema = { at: placeAt, offers, meaning };
}(window.walebook = window.walebook || {}));
