// A rule for eslint: what a reader reads stands in the files of texts (`texts.js`, `*-texts.js`), and
// in no other script. A text has two words beside each other, or is one word with a capital letter,
// or begins or ends with a space as a part of a sentence does. Names, selectors, paths of drawings,
// markup, and what a fault says that is thrown are none.

const WORDS = /[A-Za-z’']{2,}[,:;.!?…”)]* +[A-Za-z0“(–’']|[A-Za-z0’'] +[A-Za-z“]{2,}/;
const ONE = /^[,.;( ]*[A-Z][a-z’']+[.!?:…]?$/;
const PART = /^[ ,.;:]+ ?[a-z]{2,}|[a-z]{2,} $/;
// What looks like a text: a directive, classes, a query of a selector or of media, markup, a path of a
// drawing, a type of content; names in the store and of caches; words that only the bench compares.
const NONE = new RegExp(["^use strict$", "^ ?wb-", "^[.#:]\\S", ":not\\(", "^\\((?:max|orientation)", "<",
  "^M[-0-9]", "^text/", "^head link", "^(?:allow-[a-z-]+ ?)+$", "^walebook", "^older $", "^0? ?left$",
  "^start 0 $", "^now 0?$", "^(?:(?:standing|same|known|chart|next|needles|strip) ?)+$",
  "^(?:Enter|Escape|Home|End|Tab)$"].join("|"));
const LOOKS_UP = new Set(["querySelector", "querySelectorAll", "closest", "matches", "getElementById",
  "add", "remove", "toggle", "contains", "startsWith", "endsWith", "includes", "split", "replace",
  "Error", "TypeError", "RangeError"]);
const SHOWN = new Set(["aria-label", "title", "placeholder"]);
const NAMES = new Set(["class", "id", "type", "role", "sandbox", "rel", "style"]);

/** A string's text; of one with values in it, 0 for each value. */
export function textOf(node) {
  return node.type === "TemplateLiteral" ? node.quasis.map((part) => part.value.cooked).join("0")
    : typeof node.value === "string" ? node.value : "";
}

export const isText = (text) => !NONE.test(text) && (WORDS.test(text) || ONE.test(text) || PART.test(text));

/** True for what is compared, looked up by, thrown, or the value of an attribute that is a name. */
export function isName(node) {
  for (let [child, above] = [node, node.parent]; above; [child, above] = [above, above.parent]) {
    if (above.type === "BinaryExpression" && /^[!=]==?$/.test(above.operator) && child === node) return true;
    if (above.type === "SwitchCase" && above.test === child) return true;
    if (above.type === "ThrowStatement") return true;
    if (above.type === "MemberExpression" && above.property === child && child === node) return true;
    if (above.type === "Property" && !above.computed) {
      if (above.key === child) return true;
      if (NAMES.has(above.key.name || above.key.value) && above.value === child) return true;
    }
    if ((above.type === "CallExpression" || above.type === "NewExpression") && above.arguments.includes(child)) {
      const name = above.callee.property ? above.callee.property.name : above.callee.name;
      if (LOOKS_UP.has(name)) return true;
      if (name === "setAttribute" && !SHOWN.has(above.arguments[0].value)) return true;
    }
    if (/Function/.test(above.type)) return false;
  }
  return false;
}

export default {
  create(context) {
    const look = (node) => {
      if (isText(textOf(node)) && !isName(node)) {
        context.report({ node, message: "What a reader reads stands in a file of texts: {{text}}",
          data: { text: textOf(node) } });
      }
    };
    return { Literal: look, TemplateLiteral: look };
  },
};
