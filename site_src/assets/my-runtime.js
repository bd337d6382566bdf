// Asks the runtime to work at the reader's gauge: starts its worker once, shows how far it is, and
// gives up in time. What went wrong is thrown as a text for the reader.
(function (walebook) {
  "use strict";
  const says = RUNTIME_TEXTS.myRuntime;
  const STARTS = 90_000; // ms from the last byte to the first word: a browser may refuse in silence
  const WORKS = 120_000;

  /** @type {Record<string, string>} */
  const WHY_NOT = {
    unreachable: says.theConnectionBroke,
    missing: says.theSiteLacks,
    damaged: says.whatCountsThe,
    refused: says.thisBrowserDoes,
    broken: says.whatCountsThePage,
    late: says.whatCountsThePageAnew,
  };
  // What is said behind it, where the page that asks says nothing else.
  const AS_BEFORE = says.theDesignersPage;

  const RESTS = 2_000; // ms that a page has for itself before its device makes a start to keep

  /** @type {Worker | null} */
  let worker = null;
  let isWanted = false; // the worker has been asked, or soon will be

  function stop() {
    if (worker) worker.terminate();
    worker = null;
    isWanted = false;
  }

  /** @type {(folder: string) => Worker} */
  function started(folder) {
    worker = worker || new Worker(new URL(`${folder}/worker.js`, walebook.worker.ROOT), { type: "module" });
    return worker;
  }

  // Lets the worker start before it is asked, where the device has all that this takes.
  /** @type {wb.Runtime["warm"]} */
  function warm(folder) {
    if (typeof Worker === "function" && !worker) started(folder).postMessage({ warm: true });
    isWanted = true;
  }

  // Lets the worker keep a start for the next time, where none is kept: it makes the designer's page, which
  // nobody reads, and ends.
  /** @type {wb.Runtime["rehearse"]} */
  function rehearse(folder, { asked, fabrics }, size) {
    const swatches = Object.fromEntries(fabrics.map(({ key, swatch }) => [key, swatch]));
    window.setTimeout(() => {
      if (typeof Worker !== "function" || worker) return;
      const on = started(folder);
      on.onerror = (event) => event.preventDefault();
      on.onmessage = ({ data }) => { if (data.rehearsed && !isWanted) stop(); };
      on.postMessage({ rehearsed: JSON.stringify({ ...asked, size, swatches, measures: {} }) });
    }, RESTS);
  }

  /** @type {wb.Runtime["ask"]} */
  function ask(folder, asked, tell, after = AS_BEFORE, keeps = false) {
    if (typeof Worker !== "function") return Promise.reject(new Error(WHY_NOT.refused + after));
    const on = started(folder);
    isWanted = true;
    return new Promise((done, fail) => {
      let limit = 0;
      /** @type {(why: string) => void} */
      const end = (why) => {
        window.clearTimeout(limit);
        stop();
        fail(new Error((WHY_NOT[why] || WHY_NOT.broken) + after));
      };
      /** @type {(ms: number) => void} */
      const within = (ms) => {
        window.clearTimeout(limit);
        limit = window.setTimeout(end, ms, "late");
      };
      on.onerror = (event) => {
        event.preventDefault();
        end("missing");
      };
      on.onmessage = ({ data }) => {
        if (data.fault) end(data.fault);
        else if (data.answer) {
          window.clearTimeout(limit);
          done(JSON.parse(data.answer));
        } else if (data.working) {
          within(WORKS);
          tell(1, true);
        } else if (data.loading !== undefined) {
          within(STARTS);
          tell(data.loading, false);
        }
      };
      within(STARTS);
      on.postMessage({ asked: JSON.stringify(asked), keeps });
    });
  }

  walebook.runtime = { ask, warm, rehearse };
}(window.walebook = window.walebook || {}));
