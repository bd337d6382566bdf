/** What goes between a page and the worker that works at a reader's own gauge. */
declare namespace gauge {
  type File = [name: string, digest: string, bytes: number];
  type Coming = Map<string, Promise<Uint8Array>>;
  interface Runtime { files: File[]; wasm: string; info: Record<string, string>; door: string }
  interface How { fill?: ((made: Module) => Promise<void>) | null; _makeSnapshot?: boolean; _loadSnapshot?: PromiseLike<unknown> }
  type Begin = (how: How) => Promise<Python>;
  interface Python { runPython: (code: string) => string; makeMemorySnapshot: () => Uint8Array<ArrayBuffer>; _module: Module; FS: Files }
  interface Files { lookupPath: (path: string) => { node: { contents: Uint8Array; usedBytes: number } } }
  interface Started { answer: (asked: string) => string; keep: () => Promise<void> }
  interface Module { HEAP8: Int8Array<ArrayBuffer>; _malloc: (bytes: number) => number }
  type Make = (settings: unknown) => Promise<Module>;
  interface Kept { bytes: number; head: Uint8Array; first: Uint32Array; places: Uint32Array; read: (into: Uint8Array) => Promise<Uint8Array>; digest: string }
  interface Zstd { decompress: (packed: Uint8Array) => Uint8Array; Decompress: new (more: (part: Uint8Array, isLast: boolean) => void) => { push: (part: Uint8Array, isLast: boolean) => void } }
  interface Compiling { module: Promise<WebAssembly.Module>; more: (part: Uint8Array) => void }
  interface Loading { files: Coming; module: Promise<WebAssembly.Module | null> }
  interface Said { loading?: number; working?: boolean; answer?: string; rehearsed?: boolean; fault?: string }
}
