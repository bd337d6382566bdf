/** What the scripts of a page share. Each adds its part to one object, in the order of mkdocs.yml. */
interface Window {
  walebook: Walebook;
  walebookEditor?: { open: (asks: wb.EditorAsks) => wb.Editor };
}

interface Walebook {
  make: wb.Make;
  button: (label: wb.Child, press: (event: Event) => void, attributes?: wb.Attributes) => HTMLButtonElement;
  copy: <N extends Node>(node: N) => N;
  sheet: (title: string, body: wb.Child[], attributes?: wb.Attributes) => HTMLDialogElement;
  isRecord: (value: unknown) => value is Record<string, unknown>;
  store: wb.Store;
  steps: wb.Steps;
  acts: wb.Acts;
  beds: wb.Beds;
  drawn: wb.Drawn;
  fit: wb.Fits;
  fold: wb.Folds;
  place: wb.Places;
  bookmark: wb.Bookmark;
  remarks: wb.Remarks;
  settings: wb.Settings;
  merge: wb.Merge;
  carry: wb.Carry;
  awake: wb.Awake;
  speech: wb.Speech;
  keys: wb.Keys;
  counter: wb.Counter;
  list: wb.List;
  ask: wb.Ask;
  pieces: wb.Pieces | null;
  links: wb.Links;
  face: wb.Face;
  screen: wb.Screens;
  here: wb.Here;
  offer: wb.Offer;
  corrected: wb.Corrected;
  report: wb.Report;
  bench?: wb.Bench;
  worker: kept.Worker;
  myPage: wb.MyPage;
  runtime: wb.Runtime;
  trySchema: wb.TrySchema;
  tryFrame: wb.TryFrame;
  tryFiles: wb.TryFiles;
}

declare namespace wb {
  // Elements

  type Child = string | Node | null | undefined;
  type Listener = (event: Event) => void;
  type Attributes = Record<string, string | boolean | null | undefined | Listener>;
  type Make = <Tag extends keyof HTMLElementTagNameMap>(
    tag: Tag, attributes: Attributes, ...children: Child[]) => HTMLElementTagNameMap[Tag];

  // The page read

  interface Act {
    act: string;
    how: string;
    to: boolean;
    places: string[];
    stressed: string[];
    reasons: string[];
    side: string;
    comma: string;
  }
  interface Bed {
    work: number[];
    held: number[];
    empty: number[];
    second: number[];
    about: number[];
    loops: [number, number][];
  }
  interface ChartRow { row: number; at: number; acts: { act: string; how: string }[]; drawn: { kind: string; needles: number[] }[] }
  interface Chart { title: string; rows: number[][]; texts: [string, string, string?][] }
  interface Tokens { run: string; rows: string; beds: Bed[] }
  interface Stop { counter: number; acts: { side: string; act: string }[]; left: string }
  interface Reached extends Stop { at: number; bed: Bed | null }
  interface Standing { counter: number; side: string; dial: string; yarn: string }
  interface Step extends Standing {
    id: string;
    item: HTMLElement;
    section: string;
    acts: Act[];
    more: boolean;
    text: string;
    lead: string;
    digest: string;
    rows: number;
    bed: Bed | null;
    stops: Reached[];
    chart: ChartRow[];
    /** Of a step that hangs an edge: its hanging table, and what of it the step hangs. */
    hung: { table: HTMLElement | null; section: Element | null };
    lands: number[];
  }
  interface Part {
    key: string;
    heading: HTMLElement | null;
    title: string;
    times: number;
    starts: Standing;
    yarns: string[];
    hasCounter: boolean;
    chart: Chart | null;
    steps: Step[];
  }
  interface SizeOf { pattern: string; size: string }
  interface Edition extends SizeOf { version: string; title: string; pairs: string[][]; former: string[];
    formerSizes: string[]; own: string }
  interface FormerSize { label: string; page: string; now: string }
  interface PartFacts {
    id: string;
    title: string;
    starts: string;
    yarns: number[];
    times?: number;
    side?: string;
    part?: number;
  }
  interface Facts {
    schema: number;
    pattern: string;
    title: string;
    version: string;
    date: string;
    designer: string;
    licence: string;
    sizes: Record<string, string>;
    size?: string;
    heading?: string;
    yarns?: string[];
    counts?: Counts;
    pieces?: PartFacts[];
    bands?: PartFacts[];
    side_by_side?: string[][];
    making_up?: { id: string; heading: string; title: string }[];
    corrections?: Correction[];
    contact?: string;
    former?: string[];
    former_sizes?: FormerSize[];
  }
  interface Correction { version: string; text: string; parts?: string[]; step?: number }
  type Counts = Record<string, string>;
  interface Steps {
    read: (root: ParentNode) => Part[];
    edition: (root: ParentNode) => Edition | null;
    counts: (root: ParentNode) => Counts;
    corrections: (root: ParentNode) => Correction[];
    contact: (root: ParentNode) => string;
    digest: (text: string) => string;
    textOf: (node: Node | null | undefined) => string;
  }
  interface Acts {
    read: (item: Element) => { acts: Act[]; more: boolean };
    few: (step: { acts: Act[] }) => string;
    whole: (step: { acts: Act[]; counter: number }) => string;
  }
  interface Beds {
    name: (place: number) => string;
    needles: (written: string) => number[];
    read: (token: string) => Bed;
    list: (written: string, count: number, known: Bed | null) => Bed[][];
    rows: (chart: Chart | null, token: string, counter: number, knitted: number) => ChartRow[];
    span: (all: number[]) => string;
  }
  interface Run { kind: string; a: number; b: number }
  interface Drawn {
    svg: (tag: string, attributes: Record<string, string | number>, ...children: (Node | string)[]) => SVGElement;
    strip: (width: number, from: string, to: string, rows: number) => SVGElement;
    needles: (width: number, bed: Bed, about: number[], kinds: string[]) => SVGElement;
    chart: (width: number, rows: ChartRow[], here: number, bed: Bed, about: number[]) => SVGElement;
    piece: (key: string, row: number, last: number, isHem: boolean) => SVGElement | null;
    filled: (key: string, where: string, row: number, last: number, isHem: boolean) => { below: SVGElement[]; above: SVGElement[] } | null;
  }
  interface Folds {
    clear: (body: HTMLElement) => void;
    fold: (body: HTMLElement, fits: () => boolean) => boolean;
    places: (body: HTMLElement, leaf: number) => number;
    acts: (body: HTMLElement, leaf: number, fits: () => boolean) => number;
  }
  interface Fits {
    fit: (screen: Screen, leaf: number) => { screens: number; isByPlace: boolean };
    beside: () => number;
  }

  // Where the knitter is

  type Mode = "rows" | "steps";
  type Move = "forward" | "jump" | "finish";
  type Action = Move | "undo";
  interface Place { step: number; rows: number }
  type Past = [number, number][];
  interface Knitting extends Place { past: Past }
  interface Places {
    ROWS: "rows";
    STEPS: "steps";
    begin: () => Knitting;
    act: (part: Part, knitting: Knitting, action: Action, mode: Mode, step?: number) => Knitting;
    isDone: (part: Part, at: Place) => boolean;
    isCounted: (step: Step) => boolean;
    counter: (part: Part, at: Place) => number;
    side: (part: Part, at: Place) => string;
    before: (part: Part, step: number) => Standing;
    within: (part: Part, at: Place) => Place;
    landings: (step: Step) => number[];
  }

  // What is kept

  type State = "works" | "refused" | "full";
  type Sound = (value: unknown) => boolean;
  interface Store {
    get: (key: string) => unknown;
    set: (key: string, value: unknown, isSound?: Sound) => boolean;
    put: (key: string, written: string) => boolean;
    text: (key: string) => string | null;
    keepAside: (key: string) => void;
    remove: (key: string) => void;
    keys: () => string[];
    probe: () => State;
    onOtherTab: (watcher: (key: string) => void) => void;
    state: () => State;
    stateText: () => string;
    onState: (watcher: (state: State) => void) => void;
  }
  interface StoredPlace extends Place {
    past: string;
    version: string;
    digests: string;
    stamp: string;
    when: number;
    began?: string;
    form?: number;
  }
  type KeptPlace = Omit<StoredPlace, "past"> & Knitting;
  interface StoredSize { title: string; part: string; piece?: string; open: boolean; when: number; counts: Counts }
  interface Look { kept?: KeptPlace | null; damage?: "newer" | "damaged"; step?: number }
  interface Difference { name: string; before: string; now: string }
  interface Changes {
    from: string;
    to: string;
    steps: { before: number; now: number; fresh: number[] };
    counts: Difference[];
    step: number;
  }
  type KeptSize = StoredSize & SizeOf;
  interface Bookmark {
    takeOver: (edition: Edition) => void;
    placeOf: (edition: SizeOf, name: string) => KeptPlace | null;
    look: (edition: SizeOf, part: Part, name: string) => Look;
    sizeOf: (edition: SizeOf) => StoredSize | null;
    keep: (edition: Edition, part: Part, name: string, knitting: Knitting, began?: string) =>
      { stamp: string; isCut: boolean; isAside: boolean };
    keepSize: (edition: Edition, name: string, piece: string, open: boolean, counts: Counts) => void;
    changes: (edition: Edition, part: Part, kept: KeptPlace, size: StoredSize | null, counts: Counts) =>
      Changes | null;
    all: () => KeptSize[];
    isPlace: (kept: unknown) => kept is StoredPlace;
    isSize: (kept: unknown) => kept is StoredSize;
    placeKey: (edition: SizeOf, part: string) => string;
    lengthOf: (kept: { digests: string }) => number;
  }
  type Noted = Record<string, string>;
  interface Remarks {
    all: (edition: SizeOf) => Noted;
    keep: (edition: SizeOf, step: string, text: string) => boolean;
    ask: (edition: SizeOf, step: Step, number: number, done: () => void) => void;
    isRemarks: (kept: unknown) => kept is Noted;
  }
  type Value = string | boolean;
  type Fields = Record<string, [label: string, choices?: [value: string, text: string][]]>;
  type Chosen = Record<string, Value>;
  interface Settings {
    get: (name: string) => Value;
    choose: (name: string, value: Value) => void;
    open: () => void;
    isSettings: (kept: unknown) => kept is Chosen;
    apply: () => void;
    onChange: (watcher: (name: string, value?: Value) => void) => void;
  }

  // The reader's own gauge

  type Swatches = Record<string, Record<string, string>>;
  interface OwnPage { html: string; mark: string; version: string }
  interface Hers { swatches: Swatches; measures?: Record<string, string> }
  interface Figures extends Hers { mark: string; when: number }
  interface Typed { fields: Record<string, string>; when: number }
  interface MadePage { name: string; mark: string; html: string }
  interface MyPage {
    address: (page: string, name: string) => string;
    keep: (pattern: string, page: string, made: OwnPage & MadePage & Hers) => boolean;
    drop: (pattern: string, page: string, name: string) => void;
    all: (pattern: string) => (Figures & { page: string; name: string; isMade: boolean })[];
    asked: () => string;
    isFigures: (kept: unknown) => kept is Figures;
    isTyped: (kept: unknown) => kept is Typed;
    typedKey: (pattern: string, page: string, name: string) => string;
  }
  interface OfferedFabric { key: string; called: string; gauge: string; swatch: Record<string, string> }
  interface OfferedMeasure { name: string; called: string; how: string; theirs: string }
  interface Offered {
    version: string;
    within: number | null;
    fabrics: OfferedFabric[];
    measures: Record<string, OfferedMeasure[]>;
    measures_within: string | null;
    stays: string[];
    asked: Record<string, unknown>;
  }
  interface NearFigures {
    said: string;
    swatches?: Swatches;
    measure?: string;
    text?: string;
  }
  interface Unread { said: string; fabric?: string; field?: string; measure?: string }
  interface GaugeRefused {
    said: string[];
    gauges: NearFigures[] | null;
    searched: string;
    sizes: Record<string, string>;
  }
  interface GaugeAnswer {
    page?: MadePage;
    unread?: Unread[];
    refused?: GaugeRefused;
  }
  interface Runtime {
    warm: (folder: string) => void;
    rehearse: (folder: string, from: Offered, size: string) => void;
    ask: (folder: string, asked: Record<string, unknown>, notify: (share: number, isWorking: boolean) => void,
      after?: string, keeps?: boolean) => Promise<unknown>;
  }

  // Try it

  interface JSONSchema {
    $ref?: string;
    $defs?: Record<string, JSONSchema>;
    description?: string;
    deprecated?: boolean;
    type?: string | string[];
    enum?: (string | number | boolean)[];
    properties?: Record<string, JSONSchema | boolean>;
    additionalProperties?: JSONSchema | boolean;
    items?: JSONSchema;
    anyOf?: JSONSchema[];
    allOf?: JSONSchema[];
  }
  interface SourcePlace { path: string[]; prefix: string; from: number; isKey: boolean }
  interface SourceOffer { label: string; apply: string; info: string }
  interface TrySchema {
    at: (text: string, at: number) => SourcePlace;
    offers: (root: JSONSchema, text: string, at: number) => { from: number; options: SourceOffer[] };
    meaning: (root: JSONSchema, text: string, at: number) => { key: string; text: string } | null;
  }
  interface TriedPage { size: string; name: string; title: string; html: string }
  interface TryFinding {
    severity: string;
    code: string;
    file: string;
    line: number;
    column: number;
    sizes: string[];
    found: string;
    expected: string;
    remedy: string;
    message: string;
  }
  interface TryAnswer { findings: TryFinding[]; sizes: Record<string, string>; page: TriedPage | null }
  interface TryPreview { frame: HTMLIFrameElement; show: (made: TriedPage, slug: string) => void }
  interface TryFrame { open: () => TryPreview }
  interface TriedTexts {
    slug: string;
    source: string;
    shared: string;
    pictures: Record<string, unknown>;
    picture_sizes: Record<string, unknown>;
    own_chart: string;
    has_notes?: boolean;
  }
  interface TryStart {
    units: string;
    beds: Record<string, string>;
    charts: Record<string, string>;
    collection: Record<string, string>;
    blank: string;
    patterns: { slug: string; title: string }[];
  }
  interface TryFiles {
    start: () => Promise<TryStart>;
    schema: () => Promise<JSONSchema>;
    pattern: (slug: string) => Promise<TriedTexts>;
    alone: (source: string) => TriedTexts;
    draft: () => { texts: TriedTexts; isTouched: boolean } | null;
    keep: (texts: TriedTexts, isTouched: boolean) => boolean;
    save: (source: string) => void;
    read: (file: File) => Promise<string>;
  }
  interface EditorAsks {
    parent: HTMLElement;
    text: string;
    attributes: Record<string, string>;
    complete: (source: string, at: number, isRequested: boolean) =>
      { from: number; options: SourceOffer[]; validFor: RegExp } | null;
    explain: (source: string, at: number) => string;
    changed: (source: string) => void;
    moved: (source: string, at: number) => void;
  }
  interface Editor {
    text: () => string;
    replace: (source: string) => void;
    mark: (findings: TryFinding[]) => void;
    go: (place: { line: number; column: number }) => void;
  }

  // To a file and back

  type Entries = Record<string, unknown>;
  type Whose = "here" | "file";
  interface Differing {
    key: string;
    step?: string;
    label: string;
    here: string;
    file: string;
    newer?: Whose;
  }
  type Texts = [string, string | null][];
  interface Loaded { before: Texts; after: string[] }
  interface Merge {
    differences: (entries: Entries) => Differing[];
    merged: (entries: Entries, found: Differing[], choices: Whose[]) => Entries;
    ask: (found: Differing[], then: (choices: Whose[]) => void, not: () => void) => void;
    putBack: (entries: Entries) => boolean;
    undo: () => string;
    canUndo: () => boolean;
    sound: (key: string) => Sound;
  }
  type Notify = (text: string) => void;
  interface Carry {
    pack: () => string;
    unpack: (text: string) => { entries: Entries; fault?: undefined } | { entries?: undefined; fault: string };
    controls: (done: () => void) => HTMLFieldSetElement;
  }

  // The device

  type Awoken = (text: string, isOn: boolean) => void;
  interface Awake { on: (say: Awoken) => void; off: () => void; isOn: () => boolean }
  interface Speech {
    say: (text: string) => boolean;
    hush: () => void;
    tick: () => void;
    vibrate: () => boolean;
    spoken: (text: string) => string;
    voice: () => SpeechSynthesisVoice | null;
    NO_VOICE: string;
  }
  type Requested = "forward" | "undo";
  interface Keys {
    guard: (pause: () => number, now: () => number, refuse: () => void) => (act: () => void) => boolean;
    actionOf: (event: KeyboardEvent, single: boolean) => Requested | "";
    listen: (screen: Element, area: HTMLElement, single: () => boolean, act: (request: Requested) => void) => void;
    swipes: (area: HTMLElement, act: (request: Requested) => void) => void;
  }

  // The bench

  interface Moment {
    acts: Act[];
    rows: number;
    /** The needles when the row counter shows the target: what is checked then. */
    bed: Bed | null;
    /** The needles that are drawn: as they lie when the acts are done. */
    lies: Bed | null;
    left: string;
    isHowKnown: boolean;
    chart: { rows: ChartRow[]; here: number } | null;
  }
  interface Counter {
    moment: (part: Part, at: Place, mode: Mode) => Moment;
    inPiece: (part: Part, at: Place, row?: number | null) => [row: number, last: number, isHem: boolean];
    isLast: (part: Part, at: Place) => boolean;
    next: (part: Part, at: Place, mode: Mode) => string;
    target: (part: Part, at: Place) => number;
    sideThen: (part: Part, at: Place) => string;
    spoken: (part: Part, at: Place, mode: Mode) => string;
    rowsText: (rows: number) => string;
  }
  interface Listed { name: string; title: string; far: string }
  interface List {
    steps: (part: Part, at: Place, remarks: Noted, go: (step: number) => void) => void;
    parts: (every: Listed[], go: (name: string) => void) => HTMLElement;
    stateOf: (n: number, at: Place) => "done" | "here" | "";
    isDone: Places["isDone"];
  }
  type Go = (knitting: Knitting) => void;
  interface Ask {
    changed: (title: string, part: Part, changes: Changes, put: HTMLElement[], go: Go) => void;
    damaged: (title: string, found: Look, go: Go) => void;
    ASIDE: string;
  }
  interface Pieces {
    edition: Edition;
    parts: Part[];
    find: (name: string) => Part | null;
    named: (name: string) => Part;
    titleOf: (name: string) => string;
    names: () => string[];
    together: (name: string) => string[];
    shortOf: (name: string) => string;
    isMarked: (name: string) => boolean;
    farText: (name: string) => string;
    mode: () => Mode;
  }
  interface Now { part: Part; name: string; knitting: Knitting; stamp: string; began: string }
  interface Screen {
    bench: HTMLDialogElement;
    top: HTMLElement;
    foot: HTMLElement;
    title: HTMLElement;
    where: HTMLElement;
    pair: HTMLElement;
    body: HTMLElement;
    main: HTMLElement;
    far: HTMLElement;
    whole: HTMLElement;
    awake: HTMLElement;
    notice: HTMLElement;
    live: HTMLElement;
    next: HTMLElement;
    undo: HTMLElement;
    forward: HTMLElement;
  }
  interface Doing {
    request: (action: Requested) => void;
    leave: () => void;
    openList: () => void;
    openMenu: () => void;
    openStep: () => void;
    refit: () => void;
    isOpen: () => boolean;
  }
  interface Screens {
    build: (doing: Doing) => Screen;
    arrange: (screen: Screen) => void;
    far: (screen: Screen, step: number, steps: number) => void;
    notify: (screen: Screen, text: string) => void;
  }
  interface Links { openPlace: (event: Event) => void; below: (head: Element) => Element[] }
  interface Face {
    whereText: (now: Now) => string;
    head: (now: Now) => [string, string];
    spoken: (now: Now) => string;
    nextText: (now: Now) => string;
    forwardText: (now: Now, leaf: number, leaves: number, isByPlace: boolean) => (string | Node)[];
    body: (now: Now, width: number, act: (action: Action) => void, open: (name: string) => void) => HTMLElement[];
    markRow: (within: Element, at: number) => void;
    pairButtons: (now: Now, open: (name: string) => void) => HTMLElement[];
  }
  interface Corrected {
    compare: (a: string, b: string) => number;
    begunWith: (name: string) => string;
    since: (name: string, began: string) => Correction[];
    ofPart: (one: Correction) => HTMLElement;
    atStep: (name: string, step: number, began: string) => HTMLElement[];
    show: () => void;
  }
  interface Report {
    ask: (name: string, step: number) => void;
    text: (name: string, step: number, words: string) => string;
    isOffered: boolean;
  }
  interface Here { show: () => void; card: (card: Element, name: string) => string }
  interface Offer { show: (open: (name: string) => void) => void; requested: () => string }
  interface Bench {
    parts: Part[];
    edition: Edition;
    open: (name: string) => void;
    act: (action: Action, step?: number) => void;
    at: () => (Knitting & { name: string }) | null;
  }
}

// Saving offline

declare namespace kept {
  interface Group {
    name: string;
    title: string;
    version?: string;
    bytes: number;
    kept: boolean;
    left?: boolean;
    aside?: boolean;
  }
  interface State {
    refused?: undefined;
    edition: string;
    groups: Group[];
    gone: string[];
    left?: string[];
    lost: string[];
    aside?: string[];
    bytes: number;
    start?: number;
  }
  type Why = "full" | "unreachable" | "changed" | "foreign" | "missing" | "refused";
  interface Refused { refused: Why }
  interface Taken { refused?: "open"; pages?: number }
  interface Instead { refused?: undefined; aside: boolean; html: string }
  interface Answers {
    state: State | Refused;
    keep: State | Refused;
    drop: State | Refused;
    visit: State | Refused;
    take: Taken;
    instead: Instead | Refused;
  }
  type Ask = <What extends keyof Answers>(
    worker: ServiceWorker | null, what: What, name?: string) => Promise<Answers[What]>;
  interface Worker {
    ROOT: URL;
    ask: Ask;
    come: (worker: ServiceWorker, ...states: ServiceWorkerState[]) => Promise<ServiceWorkerState>;
    register: () => Promise<ServiceWorkerRegistration>;
    goneText: (registration: ServiceWorkerRegistration, place: string) => Promise<string>;
    headingOf: (path: string) => Promise<string>;
  }
  interface Shown { say: (text: string) => void; start: (registration: ServiceWorkerRegistration) => Promise<void> }
}
