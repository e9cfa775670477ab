// The work on one setup: what the engine said last, what can be undone, what is asked for next.

import type {Answer, Box, Changes, Evidence, Fault, Frame, OffsetWindow, Pair, PlanView, Read, Setup} from './answers';
import {joined, OtherSession, type Other} from './compare';
import {Engine, packed, wear} from './engine';
import {grips} from './grips';
import {forget, kept, keep} from './kept';
import {fragmentOf, hasSetup, setupIn} from './link';
import {tidy} from './typed';

export interface Step {
  setup: Setup;
  name: string;
  evidence: Evidence;
  did: string;  // "offset", for the button that undoes it
}

export const kNoEvidence: Evidence = {seen: [], observed: []};

export interface State {
  phase: 'starting' | 'start' | 'work' | 'broken';
  broken: string;
  name: string;
  setup: Setup | undefined;
  frame: Frame | undefined;
  faults: Fault[];        // of what was to be opened
  refused: Fault[];       // of the last change
  evidence: Evidence;     // for `explain`; kept with the setup, but not in its file
  past: Step[];
  future: Step[];
  // Where the head is drawn, as a position of the probe.
  pointed: Pair | undefined;   // by pointer or focus, for a moment
  head: Pair | undefined;      // put down
  dragging: boolean;
  legend: boolean;
  tab: string;                 // of the panel beside the plan
  // Where the probe may sit, for a setup but its offset; shown while the probe is held, or always.
  showsWindow: boolean;
  window: {of: string; scale: number; answer: OffsetWindow} | undefined;
  other: Other | undefined;    // what it is compared with
  beside: boolean;             // the two plans; or laid over one another
  keeps: boolean;              // remembered on this machine
  offered: {text: string; name: string} | undefined;  // by a link, while there is own work
  notice: string;              // said once, politely
}

type Listener = () => void;

const kMostSteps = 200;
const kRest = 120;  // ms without a move: what is dragged rests
const kTogether = 800;  // ms between presses of one step

export class Work {
  state: State = {
    phase: kept() !== undefined || hasSetup(location.hash) ? 'starting' : 'start', broken: '', name: '', setup: undefined, frame: undefined, faults: [], refused: [], evidence: kNoEvidence, past: [], future: [],
    pointed: undefined, head: undefined, dragging: false, legend: false, tab: 'reasons', showsWindow: false, window: undefined, other: undefined, beside: true,
    keeps: kept() !== undefined,
    offered: undefined, notice: '',
  };
  engine = new Engine(packed());  // frames
  private longWork: Engine | undefined;
  revision = 0;      // of the setup
  private listeners = new Set<Listener>();
  private framing = false;
  private wanted: {changes: Changes | undefined} | undefined;
  private width = 700;
  private extent: Box | undefined;  // held while something is dragged
  private still: Box | undefined;   // of the plan without a head: held while points are pointed at
  private together: Box | undefined;  // of both plans, while two are compared
  private another = new OtherSession();
  private settled: Array<() => void> = [];

  listen(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  set(part: Partial<State>): void {
    this.state = {...this.state, ...part};
    for (const listener of this.listeners) listener();
  }

  private module(): Promise<WebAssembly.Module> { return this.engine.ready.then(() => this.engine.compiled()); }
  get helper(): Engine { return (this.longWork ??= new Engine(this.module())); }

  async begin(): Promise<void> {
    const own = kept();
    this.module().then(wear, (thrown: unknown) => {
      this.set({phase: 'broken', broken: String(thrown instanceof Error ? thrown.message : thrown)});
    });
    if (hasSetup(location.hash)) {
      await this.openLink(location.hash);
    } else if (own) {
      await this.read({text: own, name: 'the setup kept here'}, '');
    }
    if (this.state.phase === 'starting') this.set({phase: 'start'});
    window.addEventListener('hashchange', () => void this.openLink(location.hash));
    void this.helper;  // so that it is ready when it is asked
  }

  // A setup becomes the work; the one before can be had back by undoing.
  async read(what: {text: string; name: string; files?: Record<string, string>} | {example: string},
             did: string): Promise<Fault[]> {
    return this.take(await this.engine.call<Read>({do: 'read', ...what}), did);
  }

  async form(fields: Record<string, unknown>): Promise<Fault[]> {
    return this.take(await this.engine.call<Read>({do: 'form', fields}), 'form');
  }

  private async take(answer: Answer<Read>, did: string): Promise<Fault[]> {
    if (!answer.ok) return answer.faults;
    this.remember(did);
    this.extent = this.still = undefined;
    this.revision += 1;
    this.set({setup: answer.setup, name: answer.name, evidence: kNoEvidence, faults: [], refused: [], pointed: undefined, head: undefined,
              phase: 'work', offered: undefined});
    this.save();
    await this.frame();
    return [];
  }

  // What changes the setup waits for what was begun before.
  private turn: Promise<unknown> = Promise.resolve();
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.turn.then(work);
    this.turn = mine.catch(() => undefined);
    return mine;
  }

  // Changes the setup as one step that can be undone.
  change(changes: Changes, did: string): Promise<Fault[]> {
    return this.inTurn(async () => {
      const before = this.step(did);
      await this.frame(changes);
      if (this.state.refused.length === 0) this.done(before);
      return this.state.refused;
    });
  }

  // Moves what can be dragged, by keys: presses that follow each other at once are one step.
  private nudged = {id: '', when: 0};
  nudge(id: string, by: Pair): Promise<void> {
    return this.inTurn(async () => {
      const {frame} = this.state;
      const grip = frame && grips(this.state, frame).find((one) => one.id === id);
      if (!grip) return;
      const to: Pair = [tidy(grip.at[0] + by[0]), tidy(grip.at[1] + by[1])];
      if (id === 'head') {
        this.set({head: to, pointed: undefined});
        await this.frame();
        return;
      }
      const before = this.step(grip.did);
      await this.frame(grip.changes(to));
      if (this.state.refused.length > 0) return;
      const now = performance.now();
      const together = this.nudged.id === id && now - this.nudged.when < kTogether;
      this.nudged = {id, when: now};
      this.done(before, together);
    });
  }

  // Something more is known of the machine, or less.
  learn(evidence: Evidence, did: string): void {
    const before = this.step(did);
    this.set({evidence});
    this.done(before);
  }
  // As `explain` is told of it.
  evidence(): object {
    const {seen, observed} = this.state.evidence;
    return {answers: seen.map((one) => one.answer), observed};
  }

  // A drag: many changes that are undone together.
  private dragged: Step | undefined;
  startDrag(did: string): void {
    this.dragged = this.step(did);
    if (this.state.frame) this.extent = extentOf(this.state.frame.view);
    this.set({dragging: true, pointed: undefined});
    if (did === 'offset') void this.findWindow();
  }
  // The head is moved: what is seen of the machine stays.
  holdView(yes: boolean): void {
    this.extent = yes && this.state.frame ? extentOf(this.state.frame.view) : undefined;
    if (!yes) void this.frame();
  }
  drag(changes: Changes): void { void this.frame(changes); }
  async endDrag(): Promise<void> {
    await this.quiet();
    this.extent = undefined;
    const before = this.dragged;
    this.dragged = undefined;
    this.set({dragging: false, pointed: undefined});
    if (before && before.setup !== this.state.setup) this.done(before);
    await this.frame();
  }
  async dropDrag(): Promise<void> {
    await this.quiet();
    const before = this.dragged;
    this.dragged = undefined;
    this.extent = undefined;
    this.set({dragging: false, pointed: undefined});
    if (before) await this.show(before);
  }

  private step(did: string): Step | undefined {
    const {setup, name, evidence} = this.state;
    return setup ? {setup, name, evidence, did} : undefined;
  }
  private remember(did: string): void {
    const before = this.step(did);
    if (before) this.set({past: [...this.state.past, before].slice(-kMostSteps), future: []});
  }
  private done(before: Step | undefined, together = false): void {
    if (!before) return;
    this.revision += 1;
    const past = together ? this.state.past : [...this.state.past, before].slice(-kMostSteps);
    this.set({past, future: []});
    this.save();
    if (this.state.showsWindow) void this.findWindow();
  }

  undo(): Promise<void> { return this.inTurn(() => this.back()); }
  redo(): Promise<void> { return this.inTurn(() => this.again()); }
  private async back(): Promise<void> {
    this.nudged.id = '';
    const past = [...this.state.past];
    const to = past.pop();
    const here = to && this.step(to.did);
    if (!to || !here) return;
    this.set({past, future: [...this.state.future, here]});
    await this.show(to);
  }
  private async again(): Promise<void> {
    const future = [...this.state.future];
    const to = future.pop();
    const here = to && this.step(to.did);
    if (!to || !here) return;
    this.set({future, past: [...this.state.past, here]});
    await this.show(to);
  }
  private async show(step: Step): Promise<void> {
    const answer = await this.engine.call<Read>({do: 'read', text: JSON.stringify(step.setup), name: step.name || 'the setup'});
    if (!answer.ok) return;
    this.revision += 1;
    this.set({setup: answer.setup, name: step.name, evidence: step.evidence, refused: []});
    this.save();
    await this.frame();
    if (this.state.showsWindow) void this.findWindow();
  }

  // Asks for a frame, with changes if any; those that wait already are joined with them.
  frame(changes?: Changes): Promise<void> {
    const waiting = this.wanted?.changes;
    this.wanted = {changes: waiting || changes ? {...waiting, ...changes} : undefined};
    const settled = this.quiet();
    void this.pump();
    return settled;
  }

  private quiet(): Promise<void> {
    if (!this.framing && !this.wanted) return Promise.resolve();
    return new Promise((resolve) => this.settled.push(resolve));
  }

  // The list of points is long, and waits until what is dragged rests.
  private rests = false;
  private resting: ReturnType<typeof setTimeout> | undefined;
  private waitForRest(): void {
    this.resting = setTimeout(() => {
      this.rests = true;
      void this.frame();
    }, kRest);
  }

  private async pump(): Promise<void> {
    if (this.framing) return;
    this.framing = true;
    while (this.wanted && this.state.setup) {
      const {changes} = this.wanted;
      this.wanted = undefined;
      clearTimeout(this.resting);
      const moves = this.extent !== undefined && !this.rests;
      this.rests = false;
      if (moves) this.waitForRest();
      const {pointed, head, legend} = this.state;
      const plan: Record<string, unknown> = {width: this.width, legend, titles: false};
      const extent = this.extent ?? this.together ?? (pointed && !head ? this.still : undefined);
      if (extent) plan.extent = extent;
      const at = pointed ?? head;
      if (at) Object.assign(plan, {head: at, frame: 'probe'});
      const request: Record<string, unknown> = {do: 'frame', plan, points: !moves};
      if (changes) request.changes = changes;
      const answer = await this.engine.call<Frame>(request);
      if (answer.ok) {
        if (!at && !this.extent && !this.together) this.still = extentOf(answer.view);
        const frame = {...answer, points: answer.points ?? this.state.frame?.points};
        this.set({frame, setup: answer.setup ?? this.state.setup,
                  refused: changes ? [] : this.state.refused});
      } else {
        this.set({refused: answer.faults});
      }
    }
    this.wanted = undefined;
    this.framing = false;
    const settled = this.settled;
    this.settled = [];
    for (const one of settled) one();
  }

  resize(width: number): void {
    if (Math.abs(width - this.width) < 1) return;
    this.width = width;
    if (!this.state.setup) return;
    if (this.state.other) void this.drawBoth();
    else void this.frame();
  }

  // Another setup is shown too. Returns what is wrong with it.
  async compareWith(what: object): Promise<Fault[]> {
    const faults = await this.another.read(this.module(), what);
    if (faults.length === 0) await this.drawBoth();
    return faults;
  }
  private async drawBoth(): Promise<void> {
    const first = await this.another.draw(this.width, undefined);
    if (!first) return;
    this.together = undefined;
    await this.frame();
    if (!this.state.frame) return;
    const both = joined(extentOf(first.frame.view), extentOf(this.state.frame.view));
    const other = await this.another.draw(this.width, both);
    if (!other) return;
    this.together = both;
    this.set({other});
    await this.frame();
  }
  showBeside(beside: boolean): void { this.set({beside}); }
  stopComparing(): void {
    this.another.close();
    this.together = undefined;
    this.set({other: undefined});
    void this.frame();
  }
  async changePlaces(): Promise<void> {
    const {other, setup} = this.state;
    if (!other || !setup) return;
    const faults = await this.read({text: JSON.stringify(other.setup), name: other.setup.name}, 'change of places');
    if (faults.length === 0) await this.compareWith({text: JSON.stringify(setup), name: setup.name});
  }

  point(at: Pair | undefined): void {
    const before = this.state.pointed;
    if (before === at || (before && at && before[0] === at[0] && before[1] === at[1])) return;
    this.set({pointed: at});
    void this.frame();
  }
  putHead(at: Pair | undefined): void {
    this.set({head: at, pointed: undefined});
    void this.frame();
  }
  showLegend(legend: boolean): void {
    this.set({legend});
    void this.frame();
  }

  showTab(tab: string): void { this.set({tab}); }

  showWindow(yes: boolean): void {
    this.set({showsWindow: yes});
    if (yes) void this.findWindow();
  }
  // The offsets that work don't depend on the present one: what is dragged keeps its window.
  async findWindow(): Promise<void> {
    const {setup, frame, window} = this.state;
    if (!setup || !frame) return;
    const {scale} = frame.view;
    const of = JSON.stringify({...setup, probe: {...setup.probe, offset: 0}});
    if (window?.of === of && window.scale === scale) return;
    const [answer] = await this.ask<OffsetWindow>([{do: 'window', map: true, scale}]);
    if (answer?.ok) this.set({window: {of, scale, answer}});
  }

  // Long work on the setup as it is now. The newest request of a kind wins.
  private long = 0;
  async ask<T>(requests: object[]): Promise<Answer<T>[]> {
    const turn = ++this.long;
    if (this.helper.busy()) await this.helper.stop();
    if (turn !== this.long) return [];
    const text = JSON.stringify(this.state.setup);
    void this.helper.call({do: 'read', text, name: this.state.name || 'the setup'});
    const answers = await Promise.all(requests.map((request) => this.helper.call<T>(request)));
    return turn === this.long ? answers : [];
  }

  // What would come of changes, each for itself.
  outcomes(all: Changes[]): Promise<Answer<Frame>[]> {
    const text = JSON.stringify(this.state.setup);
    const requests = all.flatMap((changes) => [{do: 'frame', changes, points: false, plan: {}}, {do: 'read', text, name: 'the setup'}]);
    return this.ask<Frame>(requests).then((answers) => answers.filter((_, i) => i % 2 === 0));
  }

  async link(): Promise<string> {
    const fragment = await fragmentOf(JSON.stringify(this.state.setup));
    return location.href.split('#')[0] + fragment;
  }

  // Shows a link's setup, or offers it where there is own work.
  async openLink(link: string): Promise<string> {
    if (!hasSetup(link)) return '';
    try {
      const text = await setupIn(link);
      history.replaceState(null, '', location.pathname + location.search);
      if (this.state.setup) {
        this.set({offered: {text, name: nameIn(text)}});
        return '';
      }
      this.set({keeps: false});  // what is kept stays as it is
      const faults = await this.read({text, name: 'the link'}, 'link');
      if (faults.length > 0) this.set({faults, notice: 'The setup of the link can\'t be used.'});
      return faults.map((fault) => fault.message).join(' ');
    } catch (thrown) {
      const says = thrown instanceof Error ? thrown.message : String(thrown);
      this.set({notice: says});
      return says;
    }
  }
  async takeOffered(): Promise<void> {
    const offered = this.state.offered;
    if (!offered) return;
    const faults = await this.read({text: offered.text, name: 'the link'}, 'link');
    this.set({offered: undefined, faults});
  }
  async compareOffered(): Promise<void> {
    const offered = this.state.offered;
    if (!offered) return;
    const faults = await this.compareWith({text: offered.text, name: 'the link'});
    this.set({offered: undefined, faults});
  }

  startAnew(): void { this.set({phase: 'start', pointed: undefined, faults: []}); }
  backToWork(): void { if (this.state.setup) this.set({phase: 'work'}); }

  keepHere(yes: boolean): void {
    this.set({keeps: yes});
    if (yes) this.save();
    else forget();
  }
  private save(): void {
    if (this.state.keeps && this.state.setup) keep(JSON.stringify(this.state.setup));
  }
}

// What of the machine is seen, mm.
function extentOf(view: PlanView): Box {
  const [x0, x1, y0, y1] = view.drawing;
  const [cx, cy] = view.corner;
  return [(x0 - cx) / view.scale, (x1 - cx) / view.scale, (cy - y1) / view.scale, (cy - y0) / view.scale];
}

function nameIn(text: string): string {
  try {
    const name: unknown = JSON.parse(text).name;
    return typeof name === 'string' ? name.slice(0, 80) : 'without a name';
  } catch {
    return 'without a name';
  }
}
