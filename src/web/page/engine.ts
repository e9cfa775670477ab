// The engine in its worker: unpacking, calling, stopping.

import workerText from 'worker-text';
import type {Answer} from './answers';

interface Waiting {
  id: number;
  request: unknown;
  done(answer: Answer<unknown>): void;
}

const stopped: Answer<never> = {ok: false, stopped: true, faults: []};

// The module as the page carries it.
export interface Packed {
  letters: string;
  count: number;  // of bytes
}

// Once the whole page is there; the script stands before it.
export async function packed(): Promise<Packed> {
  if (document.readyState === 'loading') {
    await new Promise((resolve) => document.addEventListener('DOMContentLoaded', resolve, {once: true}));
  }
  const element = document.getElementById('engine');
  return {letters: element?.textContent ?? '', count: Number(element?.dataset.bytes)};
}

// Puts on the style that is packed with the module.
export function wear(module: WebAssembly.Module): void {
  const [style] = WebAssembly.Module.customSections(module, 'style');
  if (!style) return;
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(new TextDecoder().decode(style));
  document.adoptedStyleSheets = [sheet];
}

// One worker. Requests are answered in their order; stop() ends the work at once.
export class Engine {
  private worker: Worker | undefined;
  private waiting: Waiting[] = [];
  private next = 1;
  // Told while a request is at work: from 0 to 1, or 0 where that is not known.
  onProgress: ((done: number) => void) | undefined;

  private module: WebAssembly.Module | undefined;
  readonly ready: Promise<void>;

  // What is asked for before it is ready waits.
  constructor(from: Promise<Packed | WebAssembly.Module>) { this.ready = this.start(from); }

  compiled(): WebAssembly.Module {
    if (!this.module) throw new Error('not started');
    return this.module;
  }

  busy(): boolean { return this.waiting.length > 0; }

  call<T>(request: object): Promise<Answer<T>> {
    return new Promise((resolve) => {
      const one = {id: this.next++, request, done: resolve as (a: Answer<unknown>) => void};
      this.waiting.push(one);
      this.worker?.postMessage({id: one.id, request});
    });
  }

  // Whatever waits is answered as stopped; the session is empty afterwards.
  async stop(): Promise<void> {
    const left = this.waiting;
    this.waiting = [];
    this.worker?.terminate();
    const started = this.start(Promise.resolve(this.compiled()));
    for (const one of left) one.done(stopped);
    await started;
  }

  private start(from: Promise<Packed | WebAssembly.Module>): Promise<void> {
    const url = URL.createObjectURL(new Blob([workerText], {type: 'text/javascript'}));
    const worker = new Worker(url);
    this.worker = worker;
    return new Promise((resolve, reject) => {
      worker.onerror = (event) => reject(new Error(event.message || 'The worker does not start.'));
      worker.onmessage = ({data}) => {
        if (data.ready) {
          URL.revokeObjectURL(url);
          this.module = data.ready;
          resolve();
        } else if (data.progress !== undefined) {
          this.onProgress?.(data.progress);
        } else if (data.broken !== undefined && data.id === undefined) {
          reject(new Error(data.broken));
        } else {
          this.answered(worker, data);
        }
      };
      from.then((what) => worker.postMessage(what instanceof WebAssembly.Module ? {module: what} : what), reject);
    });
  }

  private answered(worker: Worker, data: {id: number; answer?: Answer<unknown>; broken?: string}): void {
    if (worker !== this.worker) return;
    const at = this.waiting.findIndex((one) => one.id === data.id);
    if (at < 0) return;
    const [one] = this.waiting.splice(at, 1);
    one?.done(data.answer ?? {ok: false, faults: [{message: 'The engine failed: ' + data.broken + '.'}]});
  }
}
