// What is said where the runtime does not work on a device.
/** @satisfies {Record<string, Record<string, string | ((...given: (string | number | undefined)[]) => string)>>} */
const RUNTIME_TEXTS = {
  myRuntime: {
    theConnectionBroke: "The connection broke off, and what counts the page anew is not saved on this device. Try again where there is a signal.",
    theSiteLacks: "The site lacks a part of what counts the page anew.",
    whatCountsThe: "What counts the page anew did not arrive as it should. Reload the page and try again.",
    thisBrowserDoes: "This browser does not run what counts the page anew (WebAssembly). Try another browser, or a newer one.",
    whatCountsThePage: "What counts the page anew came to no end. Reload the page and try again. If it happens again, tell the designer.",
    whatCountsThePageAnew: "What counts the page anew does not answer. This browser may refuse it (WebAssembly), or the device has too little memory. Close other pages, and try again.",
    theDesignersPage: " The designer’s page works as before.",
  },
};
