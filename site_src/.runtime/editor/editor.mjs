// The editor of "Try it": joins its library into one script, and gives a page one function of it.
import { autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { bracketMatching, indentOnInput, syntaxHighlighting, syntaxTree } from "@codemirror/language";
import { lintGutter, nextDiagnostic, previousDiagnostic, setDiagnostics } from "@codemirror/lint";
import { search, searchKeymap } from "@codemirror/search";
import { EditorState } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, hoverTooltip, keymap, lineNumbers } from "@codemirror/view";
import { classHighlighter } from "@lezer/highlight";

/** @type {Record<string, string>} */
const SEVERITIES = { error: "error", warning: "warning", caution: "warning", remark: "info" };

/**
 * From the place of a finding to the end of what stands there, within its line. Lines and columns
 * count from 1, columns in whole characters.
 * @param {any} state the editor's
 * @param {{ line: number, column: number }} place
 */
function range(state, { line, column }) {
  const at = state.doc.line(Math.min(Math.max(line, 1), state.doc.lines));
  const before = [...at.text].slice(0, column - 1).join("").length;
  const from = at.from + Math.min(before, at.length);
  const node = syntaxTree(state).resolveInner(from, 1);
  const to = node.from === from && node.firstChild === null ? Math.min(node.to, at.to) : from;
  if (to > from) return { from, to };
  const word = /^[^\s,:{}[\]]+/.exec(at.text.slice(from - at.from));
  return { from, to: Math.min(from + (word ? word[0].length : 1), at.to) };
}

/** @param {wb.EditorAsks["explain"]} explain */
function tooltip(explain) {
  return hoverTooltip((/** @type {any} */ view, /** @type {number} */ at) => {
    const text = explain(view.state.doc.toString(), at);
    if (!text) return null;
    const create = () => {
      const dom = document.createElement("div");
      dom.className = "wb-try-meaning";
      dom.textContent = text;
      return { dom };
    };
    return { pos: at, create };
  }, { hideOnChange: true });
}

/**
 * Opens an editor in `parent`. Tab leaves it.
 * @param {wb.EditorAsks} asks
 * @returns {wb.Editor}
 */
function open({ parent, text, attributes, complete, explain, changed, moved }) {
  const view = new EditorView({
    parent,
    state: EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(), history(), drawSelection(), indentOnInput(), bracketMatching(), closeBrackets(),
        highlightActiveLine(), yaml(), syntaxHighlighting(classHighlighter), lintGutter(), search({ top: true }),
        EditorView.lineWrapping, EditorView.contentAttributes.of(attributes),
        autocompletion({ icons: false, override: [(/** @type {any} */ { state, pos, explicit }) =>
          complete(state.doc.toString(), pos, explicit)] }),
        tooltip(explain),
        keymap.of([{ key: "F8", run: nextDiagnostic }, { key: "Shift-F8", run: previousDiagnostic },
          ...closeBracketsKeymap, ...completionKeymap, ...searchKeymap, ...historyKeymap, ...defaultKeymap]),
        EditorView.updateListener.of((/** @type {any} */ update) => {
          if (update.docChanged) changed(update.state.doc.toString());
          if (update.docChanged || update.selectionSet) {
            moved(update.state.doc.toString(), update.state.selection.main.head);
          }
        }),
      ],
    }),
  });
  return {
    text: () => view.state.doc.toString(),
    replace: (next) => view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: next },
      selection: { anchor: 0 }, scrollIntoView: true }),
    mark: (findings) => view.dispatch(setDiagnostics(view.state, findings.map((each) => ({
      ...range(view.state, each), severity: SEVERITIES[each.severity], message: each.message, source: each.code })))),
    go: (place) => {
      const { from, to } = range(view.state, place);
      view.dispatch({ selection: { anchor: from, head: to }, effects: EditorView.scrollIntoView(from, { y: "center" }) });
      view.focus();
    },
  };
}

window.walebookEditor = { open };
