/* -- Pages ------------------------------------------------------------------------------------- */

const IN_TIME = 300; // ms in which a server has to say that it has another edition
const RUNTIME = /^runtime\//; // larger than all else, and never remembered
const UNPACKED = "python.wasm";
const NAMED = /\.[0-9a-f]{8,}\.(?:min\.)?(?:css|js)$/; // by the digest of what is in it

/** @type {(title: string, ...paragraphs: string[]) => Response} */
function notice(title, ...paragraphs) {
  const text = paragraphs.map((each) => `<p>${each}</p>`).join("");
  return new Response(
    `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1"><title>${title}</title>
<style>:root{color-scheme:light dark}
body{max-width:42rem;margin:2rem;font:1.125rem/1.55 Roboto,"Segoe UI",Arial,sans-serif;color:#18202c;background:#f5f2e8}
h1{font:600 min(11.5vw,2.5rem)/1.12 Georgia,"Noto Serif",serif}a{color:inherit}
@media(prefers-color-scheme:dark){body{color:#ede8db;background:#12161d}}</style></head>
<body><main><h1>${title}</h1>${text}
<p><a href="${address("offline.html")}">${TEXTS.pages.allThatIs}</a></p></main></body></html>`,
    { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}

const notKept = () => notice(TEXTS.pages.thisPageIs,
  TEXTS.pages.thereIsNo);

/** @type {Record<string, () => Response>} */
const OTHERS = {
  changed: () => notice(TEXTS.pages.theSiteHas,
    TEXTS.pages.thisPageIsNot),
  foreign: () => notice(TEXTS.pages.thisPageDid,
    TEXTS.pages.theAnswerWas),
};

/* The server's answer: the `file` of this edition, or anything where none is given. */
/** @type {(path: string, file: sw.File | null) => Promise<Response>} */
async function fromServer(path, file) {
  const response = await fetch(address(path), { cache: "no-cache" });
  if (!response.ok || !file) return response;
  const body = await response.clone().arrayBuffer();
  // A server may alter what it sends; if it says that the edition is ours, it is not a newer one.
  if (await digest(body) === file[1]) return response;
  const edition = await editionOfServer().catch(() => null);
  if (edition === LIST.edition) return response;
  throw new Refusal(edition ? "changed" : "foreign");
}

/* A response that was redirected may not answer a navigation. */
/** @type {(response: Response) => Response} */
const plain = (response) => !response.redirected ? response
  : new Response(response.body, { status: response.status, headers: response.headers });

/* One answer for a page and all that it asks for, so that it is not put together from two editions. */
/** @type {Map<string, Promise<boolean>>} */
const answers = new Map();

/** @type {(client: string) => Promise<boolean>} */
function isNewest(client) {
  const before = client ? answers.get(client) : undefined;
  if (before) return before;
  /** @type {Promise<string | null>} */
  const late = new Promise((done) => { setTimeout(done, IN_TIME, LIST.edition); });
  const answer = Promise.race([late, editionOfServer().catch(() => LIST.edition)])
    .then((edition) => edition === LIST.edition);
  answers.set(client, answer);
  return answer;
}

/** @type {(path: string, isPage: boolean, event: FetchEvent) => Promise<Response>} */
async function serve(path, isPage, event) {
  const cache = await caches.open(NAME);
  const held = await cache.match(address(path));
  const isNamed = NAMED.test(path);
  if (held && isNamed) return held;
  const nothingKept = !(await record(cache)).kept.length;
  const client = event.resultingClientId || event.clientId;
  if (held && (!nothingKept || await isNewest(client))) return held;
  try {
    const response = await fetched(path, nothingKept && !isNamed, isPage, event);
    // A page that the server gave asks the server for all else.
    if (isPage) answers.set(client, Promise.resolve(false));
    if (!held) rememberLater(path, response, event);
    return plain(response);
  } catch (fault) {
    return held || withoutServer(path, isPage, fault);
  }
}

/* What the server has at a path: the file of this edition, or where `mayBeNewer` whatever is there. */
/** @type {(path: string, mayBeNewer: boolean, isPage: boolean, event: FetchEvent) => Promise<Response>} */
async function fetched(path, mayBeNewer, isPage, event) {
  const file = mayBeNewer ? null : await fileOf(path);
  return file === undefined ? elsewhere(path, isPage, event) : fromServer(path, file);
}

/** @type {(path: string, response: Response, event: FetchEvent) => void} */
function rememberLater(path, response, event) {
  if (!response.ok) return;
  // Read at once: an answer left unread would hold back the next request for the same file.
  const body = response.clone().arrayBuffer();
  body.catch(() => null);
  later(event, () => remember(path, body, response.headers.get("content-type")));
}

/** @type {(path: string, isPage: boolean, fault: unknown) => Promise<Response>} */
async function withoutServer(path, isPage, fault) {
  const other = await fromLeft(path);
  if (other || !isPage) return other || Response.error();
  return fault instanceof Refusal ? OTHERS[fault.message]() : notKept();
}

/* A page that she saved and that this edition has no more, also where the site now has another at its
   address: that of a withdrawal. */
/** @type {(path: string) => Promise<Response | undefined>} */
async function fromAside(path) {
  const cache = await caches.open(NAME);
  const isAside = Object.hasOwn((await record(cache)).aside, ownerOf(path) || "");
  return isAside && !await cache.match(address(path)) ? fromLeft(path) : undefined;
}

/* What is not in this edition: set aside before, or the server's. */
/** @type {(path: string, isPage: boolean, event: FetchEvent) => Promise<Response>} */
async function elsewhere(path, isPage, event) {
  const left = await fromLeft(path);
  if (left) return left;
  return isPage ? fetch(event.request).catch(notKept) : fetch(event.request);
}

/* What works at a reader's own gauge is saved, or comes from the server as it is: whoever loads it
   looks at its digests, and shows how much of it has come. Python unpacked lies with the kept start alone. */
/** @type {(path: string, event: FetchEvent) => Promise<Response>} */
async function runtime(path, event) {
  if (path.endsWith(UNPACKED)) {
    const folder = address(path.slice(0, -UNPACKED.length));
    return await caches.match(address(path), { cacheName: STARTS + folder }) || Response.error();
  }
  return await (await caches.open(NAME)).match(address(path)) || fetch(event.request);
}

self.addEventListener("fetch", (event) => {
  const path = event.request.method === "GET" ? pathOf(event.request.url) : null;
  const isPage = event.request.mode === "navigate";
  if (path === null) return;
  if (RUNTIME.test(path)) {
    event.respondWith(runtime(path, event));
    return;
  }
  const isOurs = FILES.has(path) || hasGroup(ownerOf(path) || "");
  event.respondWith(isOurs ? fromAside(path).then((saved) => saved || serve(path, isPage, event)) : elsewhere(path, isPage, event));
});
