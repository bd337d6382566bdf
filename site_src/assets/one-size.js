/* In the file of a whole pattern: with scripts, one size at a time is on the page, so that it can
   be knitted from: the one that the address names, or the one that this tab had before. Its ids are
   then what they are on the size's own page. Without scripts all sizes are there. */
(() => {
  "use strict";
  const MINE = "walebook-size ";
  const sizes = [...document.querySelectorAll(".wb-size-part")];
  /** @type {(id: string) => Element | undefined} */
  const named = (id) => sizes.find((size) => size.id === id);
  const hash = () => decodeURIComponent(location.hash.slice(1));
  const before = window.name.startsWith(MINE) ? window.name.slice(MINE.length) : "";
  const chosen = named(hash()) || named(before);

  for (const size of sizes) if (size !== chosen) size.remove();
  if (chosen) {
    window.name = MINE + chosen.id;
    for (const element of chosen.querySelectorAll("*")) {
      for (const { name, value } of [...element.attributes]) {
        const own = `${chosen.id}--`;
        if (value.includes(own)) element.setAttribute(name, value.replaceAll(own, ""));
      }
    }
    const goal = document.getElementById(hash());
    if (goal) goal.scrollIntoView();
  }

  // A size that was taken out is still in the file: it comes back when the file is read again.
  window.addEventListener("hashchange", () => {
    const other = named(hash());
    if (other && other !== chosen) location.reload();
  });
})();
