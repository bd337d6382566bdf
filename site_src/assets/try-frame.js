// The page of a source, in a frame that runs no script: with the styles of the site, and with links
// that lead out of it only where a page of the site is there.
(function (walebook) {
  "use strict";
  const texts = TRY_TEXTS.tryFrame;
  const { make } = walebook;
  const HERE = "about:srcdoc";

  // Links within the page stay in it; those to other sizes and files of the pattern lead nowhere
  // here, for the site has at most those of its published text.
  /** @type {(link: Element) => void} */
  function settle(link) {
    const to = link.getAttribute("href") || "";
    if (to.startsWith("#")) link.setAttribute("href", HERE + to);
    else if (/^(?:\.\.\/|https?:|mailto:)/.test(to)) {
      link.setAttribute("target", "_blank");
      link.setAttribute("rel", "noopener");
    } else link.removeAttribute("href");
  }

  /** @type {(made: wb.TriedPage, slug: string) => string} */
  function written({ html, title, size }, slug) {
    const page = new DOMParser().parseFromString(html, "text/html");
    page.querySelectorAll("script").forEach((each) => each.remove());
    page.querySelectorAll("a[href]").forEach(settle);
    const root = page.documentElement;
    const own = document.documentElement;
    root.lang = own.lang;
    root.className = own.className;
    const scheme = document.body.getAttribute("data-md-color-scheme");
    if (scheme) page.body.setAttribute("data-md-color-scheme", scheme);
    const article = make("article", { class: "md-typeset" });
    article.append(...page.body.childNodes);
    page.body.append(make("main", { class: "wb-wrap wb-main" }, article));
    const styles = [...document.querySelectorAll("head link[rel=stylesheet]:not([media])")].map(
      (each) => make("link", { rel: "stylesheet", href: each instanceof HTMLLinkElement ? each.href : "" }));
    page.head.append(make("meta", { charset: "utf-8" }),
      make("base", { href: new URL(`patterns/${slug}/`, walebook.worker.ROOT).href }),
      make("title", {}, texts.size(title, size)), ...styles);
    return `<!doctype html>\n${root.outerHTML}`;
  }

  /** @type {wb.TryFrame["open"]} */
  function open() {
    const frame = make("iframe", { class: "wb-try-frame", title: texts.thePageOf, hidden: true,
      sandbox: "allow-same-origin allow-popups allow-popups-to-escape-sandbox" });
    /** @type {wb.TryPreview["show"]} */
    function show(made, slug) {
      const at = frame.contentWindow && !frame.hidden ? frame.contentWindow.scrollY : 0;
      frame.addEventListener("load", () => frame.contentWindow?.scrollTo(0, at), { once: true });
      frame.srcdoc = written(made, slug);
      frame.hidden = false;
    }
    return { frame, show };
  }

  walebook.tryFrame = { open };
}(window.walebook = window.walebook || {}));
