document.documentElement.classList.replace("no-js", "js");
addEventListener("error", ({ target, error }) => {
  const { body, documentElement: { classList } } = document;
  const isLoaded = target instanceof Element && target.matches("script[src],link[rel=stylesheet]");
  if (!(isLoaded || error instanceof SyntaxError) || classList.contains("wb-incomplete")) return;
  classList.add("wb-incomplete");
  const show = () => {
    document.body.insertAdjacentHTML("afterbegin", `<p role="status" style="margin:0;padding:1rem;font-size:1.25rem;color:#000;background:#ffe9a8">A part of this page did not arrive. The site may have been updated while the page was loading. You can read the page, but you cannot knit from it step by step. <button type="button">Reload the page</button></p>`);
    document.querySelector("button")?.addEventListener("click", () => location.reload());
  };
  if (body) show();
  else addEventListener("DOMContentLoaded", show);
}, true);
