/* What the worker says to a reader, by the part that says it. */
/** @satisfies {Record<string, Record<string, string | ((...given: (string | number | undefined)[]) => string)>>} */
const TEXTS = {
  pages: {
    allThatIs: "All that is saved on this device",
    thisPageIs: "This page is not saved on this device",
    thereIsNo: "There is no connection. What you chose to keep can be read without one, and the last pages you read.",
    theSiteHas: "The site has an update",
    thisPageIsNot: "This page is not saved on this device. The site has a newer version of it than the pages that you saved. The two are not mixed. Update first, or go back and read on in your version.",
    thisPageDid: "This page did not arrive",
    theAnswerWas: "The answer was not this site's page. Some networks answer in a site's place until you log in. Log in to the network, or try again later. What you saved offline is still here.",
  },
  asks: {
    theLastPages: "The last pages you read",
  },
};
