/* Search from disk. The theme searches in a worker, and a page opened from disk may not start one:
   there, the worker's script runs in a hidden frame of the same page. Nothing is written into the
   frame as text, so the page's policy need not allow it. */
(() => {
  "use strict";
  if (location.protocol !== "file:") return;

  /** @type {(frame: Window, address: string) => Promise<unknown>} */
  const load = (frame, address) => new Promise((done, failed) => {
    const script = frame.document.createElement("script");
    script.onload = done;
    script.onerror = failed;
    script.src = address;
    frame.document.body.append(script);
  });

  class FrameWorker extends EventTarget {
    /** @param {string} address */
    constructor(address) {
      super();
      this.element = document.createElement("iframe");
      this.element.hidden = true;
      document.body.append(this.element);
      const frame = this.element.contentDocument && this.element.contentDocument.defaultView;
      if (!frame) throw new Error("no frame can be made in this page");
      this.frame = frame;
      /** @type {((event: MessageEvent) => void) | null} */
      this.onmessage = null;
      Object.assign(frame, {
        /** @param {unknown} data */
        postMessage: (data) => this.answer(data),
        /** @param {string[]} all */
        importScripts: (...all) => all.reduce(
          /** @param {Promise<unknown>} before */
          (before, each) => before.then(() => load(frame, each)), Promise.resolve()),
      });
      this.ready = load(frame, new URL(address, location.href).href);
    }

    /** @param {unknown} data */
    answer(data) {
      const event = new MessageEvent("message", { data });
      this.dispatchEvent(event);
      if (this.onmessage) this.onmessage(event);
    }

    /** @param {unknown} data */
    postMessage(data) {
      this.ready.then(() => this.frame.dispatchEvent(
        new this.frame.MessageEvent("message", { data: structuredClone(data) })));
    }

    terminate() {
      this.element.remove();
    }
  }

  // The theme knows such a worker by this name.
  Object.assign(window, { IFrameWorker: FrameWorker, Worker: FrameWorker });
})();
