/** What modules that run once, on the machine of who makes a site, use of others: their names alone. */
declare module "@codemirror/*";
declare module "@lezer/highlight";
declare module "node:fs";
declare module "node:url";
declare const process: { argv: string[] };
