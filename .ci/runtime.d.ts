/** What goes between a page and the worker that works at a reader's own gauge. */
declare namespace gauge {
  type File = [name: string, digest: string, bytes: number];
  interface Runtime { files: File[]; info: Record<string, string>; door: string }
  interface Said { loading?: number; working?: boolean; answer?: string; fault?: string }
}
