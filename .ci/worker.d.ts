/** What the worker knows beside its own parts, which are one script when they are published. */
interface WorkerGlobalScope {
  readonly clients: Clients;
  readonly registration: ServiceWorkerRegistration;
  skipWaiting(): Promise<void>;
}

interface WorkerGlobalScopeEventMap {
  activate: ExtendableEvent;
  fetch: FetchEvent;
  install: ExtendableEvent;
  message: ExtendableMessageEvent;
}

declare namespace sw {
  type File = [path: string, digest: string, bytes: number];
  interface Named { title: string; version: string }
  type Group = Named & ({ files: number[] } | { list: File; bytes: number });
  interface Edition { edition: string; list: string; files: File[]; groups: Record<string, Group> }
  type Titles = Record<string, [title: string, version: string]>;
  interface Saved { kept: string[]; titles: Titles; left: Titles; lost: string[]; aside: Titles }
  type Found = Pick<Saved, "left" | "aside"> & { kept: Titles };
  type Body = [body: ArrayBuffer, type: string | null];
  type Other = "changed" | "foreign";
  type Why = Other | "full" | "unreachable" | "missing" | "refused" | "incomplete";
  interface Shown {
    name: string;
    title: string;
    version?: string;
    bytes: number;
    kept: boolean;
    left?: boolean;
    aside?: boolean;
  }
  interface State {
    edition: string;
    groups: Shown[];
    gone: string[];
    left: string[];
    lost: string[];
    aside: string[];
    bytes: number;
    start?: number;
  }
  type Answer = State | { aside: boolean, html: string } | { taken: true } | { refused: string, pages?: number } | void;
}
