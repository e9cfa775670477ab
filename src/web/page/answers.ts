// What the engine answers; see src/web/answers.h. All lengths are mm.

export type Pair = [number, number];
export type Verdict = 'reachable' | 'marginal' | 'unreachable';

export interface Fault {
  message: string;
  pointer?: string;
  field?: string;
  box?: number;   // of a field with several
  item?: number;  // of a list of them
  file?: string;
  line?: number;
  column?: number;
}

export interface Refused {
  ok: false;
  faults: Fault[];
  stopped?: boolean;
}

export type Answer<T> = ({ok: true} & T) | Refused;

// Only what the page itself reads or changes; the rest passes through untouched.
export interface Shape {
  rectangle?: {x: Pair; y: Pair};
  disc?: {center: Pair; radius: number};
}

export interface Obstacle {
  name: string;
  shape: Shape;
  height?: number;
  clearance?: number;
}

export interface Part {
  name: string;
  outline: Shape;
  underside: number;
}

export interface Setup {
  name: string;
  machine: {bed: Shape; travel: Shape; obstacles?: Obstacle[]; head?: Part[]; [key: string]: unknown};
  probe: {
    offset: Pair; offset_uncertainty?: Pair; spot?: Shape;
    edge_distance?: number; trigger_height?: number; travel_height?: number;
    [key: string]: unknown;
  };
  request?: {
    grid?: {
      columns: number; rows: number; x?: Pair; y?: Pair; margins?: unknown; margins_from?: string;
      frame?: 'probe' | 'nozzle';
    };
    home?: {at: Pair; frame?: 'probe' | 'nozzle'};
    [key: string]: unknown;
  };
  [key: string]: unknown;
}

export interface Read {
  name: string;
  setup: Setup;
  read?: Record<string, string>;
}

export interface PlanPoint {
  id: number;
  name: string;
  probe: Pair;
  nozzle: Pair;
  verdict: Verdict;
  limit: string;
  leeway: number | null;
  guard: number;
  reason: string;
  column?: number;
  row?: number;
}

export type Box = [number, number, number, number];  // x0, x1, y0, y1

export interface Handles {
  offset: Pair;
  grid?: Box;
  home?: {probe: Pair; nozzle: Pair};
  bed: Box;
  travel: Box;
  obstacles: {name: string; box: Box}[];
}

export interface PlanView {
  scale: number;
  corner: Pair;
  width: number;
  height: number;
  drawing: Box;
}

export interface HeadSays {
  probe: Pair;
  nozzle: Pair;
  verdict: Verdict;
  leeway: number | null;
  reason: string;
}

export interface Frame {
  verdict: Verdict | null;
  counts: {points: number; reachable: number; marginal: number; unreachable: number; skipped: number};
  headline: string;
  fraction: {fraction: number | null} | null;
  before: string;
  remarks: string[];
  tightest: string;
  coverage: string;
  home: string;
  moves: string;
  empty: string[];
  caution: string;
  points?: PlanPoint[];  // where they were asked for
  handles: Handles;
  head?: HeadSays;
  view: PlanView;
  plan: string;
  setup?: Setup;
}

export interface Example {
  name: string;
  title: string;
  says: string;
}

export interface Card {
  kind: string;
  title: string;
  says: string;
  confirm?: string;  // how to find out whether it is so
  changes: Changes;
}

// What could be looked at next; `means`: what an answer would make of the mistakes.
export interface Question {
  asks: string;
  answers: {answer: string; says: string; means: string}[];
}

export interface Explained extends Told {
  question?: Question;
  too_much?: {says: string; first: boolean};  // first: it is likelier than any mistake
}

// What was seen at the machine, in the engine's words, and what its controller did.
export interface Evidence {
  seen: {answer: string; asks: string; says: string}[];
  observed: {point: string; accepted: boolean}[];
}

// JSON Pointers (RFC 6901) into the setup, and what shall stand there; null removes.
export type Changes = Record<string, unknown>;

// What a command prints.
export interface Told {
  text: string;
  status: number;
  apply?: Card[];
}

// One value, or those of the four sides.
export interface NumberToEnter {
  what: string;
  frame: string;
  value?: string;
  left?: string;
  right?: string;
  front?: string;
  back?: string;
}

export interface Fitted extends Told {
  fits: boolean;
  numbers: NumberToEnter[];
}

// Of the grid that is asked for; none where it is not `safe`, and `says` why.
export interface OwnNumbers {
  safe: boolean;
  says?: string;
  numbers: NumberToEnter[];
}

// A length as it was typed; `read` says what it is in mm where it was in another unit.
export interface Length {
  value: number;
  read: string;
}

// What is another in the other setup, in words.
export interface Differs {
  differs: {what: string; this: string; other: string}[];
  says: string;
}

// Where the probe may sit; the path is around the nozzle, in units of the picture.
export interface OffsetWindow {
  says?: string;
  window?: {
    empty: boolean; path: string; inside: boolean; leeway: number | null;
    best: {offset: Pair; leeway: number} | null; nearest: {offset: Pair; leeway: number} | null;
  };
  map?: {x: [number, number, number]; y: [number, number, number]; shares: number[]; colours: string[]};
}

export interface Measured extends Told {
  readings: {label: string; offset: Pair; dropped: boolean}[];
  outliers: {reading: number; axis: string; score: number}[];
  changes: Changes | null;
}

// A template filled; what check would not pass is not `safe`, and `says` why.
export interface Filled extends Told {
  safe?: boolean;
  says?: string;
}

export interface FillName {
  kind: string;
  name: string;
  within: string;
  meaning: string;
}
