// Keeps the screen on while knitting; taken again after the page was out of sight.
(function (walebook) {
  "use strict";
  const texts = BENCH_TEXTS.awake;
  let wanted = false;
  /** @type {WakeLockSentinel | null} */
  let lock = null;
  /** @type {wb.Awoken} */
  let notify = () => { /* nobody asked yet */ };

  const NONE = texts.thisBrowserCannot;
  const REFUSED = texts.theScreenMay;

  async function take() {
    if (!wanted || lock || document.visibilityState !== "visible") return;
    if (!("wakeLock" in navigator)) {
      notify(NONE, false);
      return;
    }
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
      notify(texts.theScreenStays, true);
      if (!wanted) release();
    } catch {
      notify(REFUSED, false);
    }
  }

  function release() {
    if (lock) lock.release();
    lock = null;
  }

  // `say(text, isOn)` receives the result, now and whenever that changes.
  /** @type {wb.Awake["on"]} */
  function on(say) {
    wanted = true;
    notify = say;
    take();
  }

  function off() {
    wanted = false;
    release();
  }

  document.addEventListener("visibilitychange", take);
  walebook.awake = { on, off, isOn: () => Boolean(lock) };
}(window.walebook = window.walebook || {}));
