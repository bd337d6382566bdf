/** What goes between a page and the worker that works at a reader's own gauge. */
declare namespace gauge {
  type File = [name: string, digest: string, bytes: number];
  interface Runtime { files: File[]; wasm: string; info: Record<string, string>; door: string }
  interface How { bytes?: number; _makeSnapshot?: boolean; _loadSnapshot?: PromiseLike<unknown> }
  type Begin = (how: How) => Promise<Python>;
  interface Python { runPython: (code: string) => (asked: string) => string; makeMemorySnapshot: () => Uint8Array<ArrayBuffer> }
  interface Started { answer: (asked: string) => string; isKept: Promise<void> }
  interface Module { HEAP8: Int8Array; _malloc: (bytes: number) => number }
  type Make = (settings: unknown) => Promise<Module>;
  interface Said { loading?: number; working?: boolean; answer?: string; rehearsed?: boolean; fault?: string }
}
