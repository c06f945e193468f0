// What the publish gives to the page at the bench, and what its scripts give to each other.
// tests/types/test_script_types.py holds the data of published pages to these, and the scripts too.

type Group = "boxes" | "read" | "why" | "done" | "flights";
type Verdict = "" | "right" | "doubtful" | "wrong";
/** `[causes]`, or `[reading, yes, no]`; causes and readings are numbers of lines of words. */
type FaultTree = [number[]] | [number, FaultTree, FaultTree];

interface BenchScreen {
  id: string;
  stage: string;
  title: string;
  wording: string;
  step: string;
  gate: string;
  /** s, from and to, by the id of a joint's box. */
  dwell: Record<string, [number, number]>;
}
interface Band {
  name: string;
  label: string;
  kind: "open" | "joined" | "charges" | "alike" | "near" | "low" | "band" | "kept";
  unit?: string;
  low?: number;
  high?: number;
  ratio?: number;
  digit?: number;
  count?: number;
  wrong?: true;
  danger?: true;
  hard?: true;
}
interface FaultSymptom {
  seen: string;
  /** What to look for, and the number of the cause that it shows. */
  look: [string, number][];
  tree: FaultTree;
}
interface BenchData {
  build: string;
  digest: string;
  screens: BenchScreen[];
  fields: Record<string, Band>;
  trouble: { first: string; symptoms: FaultSymptom[]; readings: string[]; causes: string[] };
  /** By battery: s of the timer, V of the battery, mAh used. */
  alarms: Record<string, { seconds?: number; volts?: number; used?: number }>;
  words: ScriptWords;
}

interface Judged { verdict: Verdict; words: string }
interface KeptState extends Record<Group, Record<string, string>> { now: string }
interface Kept {
  readonly state: KeptState;
  load(): boolean;
  set(group: Group, name: string, value: string): void;
  stay(id: string): void;
  take(given: unknown): string | null;
}
interface Photo { place: string; id: string; step: string; day: string; words: string; data: string }
interface Photos {
  load(): Promise<void>;
  take(given: unknown): Promise<string | null>;
  all(): Omit<Photo, "place">[];
  at(step: string): void;
}
type Tell = (words: string) => void;

interface AtBench {
  byId<I extends keyof AtIds>(id: I): AtIds[I];
  byId(id: string): HTMLElement | null;
  make<T extends keyof HTMLElementTagNameMap>(tag: T, text?: string, name?: string): HTMLElementTagNameMap[T];
  button(text: string, act: () => void): HTMLButtonElement;
  short(text: unknown): text is string;
  plain(given: unknown): given is Record<string, unknown>;
  day(): string;
  judge(band: Band, text: string): Judged;
  data: BenchData;
  W: ScriptWords;
  kept(place: string): Kept;
  photos(place: string, tell: Tell): Photos;
  trouble(): () => void;
  field(place: string, keep: (name: string, text: string) => void, kept: () => string[], tell: Tell): { list(): void } | null;
}
type Word = "rises" | "none" | "beep";
interface Reading { word: "" | Word; values: number[]; unit: string }
/** A band of a kind whose rule reads all of them: the publish gives those that the rule asks for. */
type BoundedBand = Band & { low: number; high: number; ratio: number };
type Rule = (band: BoundedBand, got: Reading) => Judged;
/** A flight that is in the air: its battery, when it began by two clocks, and when it sounds next. */
interface Run { pack: string; day: number; now: number; next: number; beat: number }

interface Window { bench: AtBench }
declare const bench: AtBench;
