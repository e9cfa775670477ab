// The engine in its worker: unpacking, calling, stopping.

import workerText from 'worker-text';
import type {Answer} from './answers';

interface Waiting {
  id: number;
  request: unknown;
  done(answer: Answer<unknown>): void;
}

const stopped: Answer<never> = {ok: false, stopped: true, faults: []};

// The bytes behind build.mjs's letters: 13 bits in two letters of 91, from "!" on, with "~" for "<".
function bytesOf(letters: string, count: number): Uint8Array<ArrayBuffer> {
  const value = (at: number) => {
    const code = letters.charCodeAt(at);
    return code === 126 ? 27 : code - 33;
  };
  const bytes = new Uint8Array(count);
  let bits = 0;
  let held = 0;
  let next = 0;
  for (let i = 0; i < letters.length; i += 2) {
    held |= (91 * value(i) + value(i + 1)) << bits;
    for (bits += 13; bits >= 8 && next < count; bits -= 8) {
      bytes[next++] = held & 255;
      held >>= 8;
    }
  }
  return bytes;
}

// Unpacks the module that the page carries.
export async function unpack(): Promise<ArrayBuffer> {
  const packed = document.getElementById('engine');
  const bytes = bytesOf(packed?.textContent ?? '', Number(packed?.dataset.bytes));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Response(stream).arrayBuffer();
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

  private constructor(private module: WebAssembly.Module | undefined) {}

  static async from(what: ArrayBuffer | WebAssembly.Module): Promise<Engine> {
    const engine = new Engine(what instanceof ArrayBuffer ? undefined : what);
    await engine.start(what);
    return engine;
  }

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
    const started = this.start(this.compiled());
    for (const one of left) one.done(stopped);
    await started;
  }

  private start(what: ArrayBuffer | WebAssembly.Module): Promise<void> {
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
      worker.postMessage(what instanceof ArrayBuffer ? {bytes: what} : {module: what});
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
