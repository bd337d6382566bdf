/* Search from disk. The theme searches in a worker, and a page opened from disk may not start one:
   there, the worker's script runs in a hidden frame of the same page. Nothing is written into the
   frame as text, so the page's policy need not allow it. */
(() => {
  "use strict";
  if (location.protocol !== "file:") return;

  const load = (frame, address) => new Promise((done, failed) => {
    const script = frame.document.createElement("script");
    script.onload = done;
    script.onerror = failed;
    script.src = address;
    frame.document.body.append(script);
  });

  // The theme knows such a worker by this name.
  window.IFrameWorker = class extends EventTarget {
    constructor(address) {
      super();
      this.element = document.createElement("iframe");
      this.element.hidden = true;
      document.body.append(this.element);
      this.frame = this.element.contentWindow;
      this.frame.postMessage = (data) => this.answer(data);
      this.frame.importScripts = (...all) => all.reduce(
        (before, each) => before.then(() => load(this.frame, each)), Promise.resolve());
      this.ready = load(this.frame, new URL(address, location).href);
    }

    answer(data) {
      const event = new MessageEvent("message", { data });
      this.dispatchEvent(event);
      if (this.onmessage) this.onmessage(event);
    }

    postMessage(data) {
      this.ready.then(() => this.frame.dispatchEvent(
        new this.frame.MessageEvent("message", { data: structuredClone(data) })));
    }

    terminate() {
      this.element.remove();
    }
  };
  window.Worker = window.IFrameWorker;
})();
