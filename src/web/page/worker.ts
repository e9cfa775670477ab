// The engine's side of the page. Gets the module once, then answers one request after another.

interface Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  malloc(size: number): number;
  free(at: number): void;
  leeway_open(): number;
  leeway_call(session: number, request: number): number;
}

type ToWorker = {letters: string; count: number} | {module: WebAssembly.Module} | {id: number; request: unknown};

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
  postMessage(message: unknown): void;
};

let engine: Exports | undefined;
let session = 0;
let shown = 0;  // when progress was told last

// None of what the C library may ask for is of use to the engine.
const system = new Proxy({}, {
  get: (_, name) => name === 'proc_exit' ? (code: number) => { throw new Error('exit ' + code); }
                                         : () => 52,  // ENOSYS
  has: () => true,
});

const imports = {
  env: {
    leeway_progress(done: number): number {
      const now = performance.now();
      if (now - shown > 200) {
        shown = now;
        scope.postMessage({progress: done});
      }
      return 0;
    },
    emscripten_notify_memory_growth() {},
  },
  wasi_snapshot_preview1: system as WebAssembly.ModuleImports,
};

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

// Compiled while it is unpacked.
function compiled(letters: string, count: number): Promise<WebAssembly.Module> {
  const stream = new Blob([bytesOf(letters, count)]).stream().pipeThrough(new DecompressionStream('gzip'));
  return WebAssembly.compileStreaming(new Response(stream, {headers: {'Content-Type': 'application/wasm'}}));
}

async function start(module: Promise<WebAssembly.Module> | WebAssembly.Module): Promise<void> {
  const made = await module;
  engine = new WebAssembly.Instance(made, imports).exports as unknown as Exports;
  engine._initialize();
  session = engine.leeway_open();
  scope.postMessage({ready: made});
}

function call(request: unknown): unknown {
  if (!engine) throw new Error('no engine');
  const text = new TextEncoder().encode(JSON.stringify(request) + '\0');
  const at = engine.malloc(text.length);
  if (at === 0) throw new Error('no memory for the request');
  new Uint8Array(engine.memory.buffer).set(text, at);
  const answer = engine.leeway_call(session, at);
  engine.free(at);
  const all = new Uint8Array(engine.memory.buffer);
  return JSON.parse(new TextDecoder().decode(all.subarray(answer, all.indexOf(0, answer))));
}

// Requests wait until the engine runs.
let begin: (running: Promise<void>) => void;
const running = new Promise<void>((resolve) => { begin = resolve; });
running.catch((thrown) => scope.postMessage({broken: String(thrown)}));

scope.onmessage = ({data}) => {
  if ('id' in data) {
    const {id, request} = data;
    running.then(() => scope.postMessage({id, answer: call(request)}))
      .catch((thrown) => scope.postMessage({id, broken: String(thrown)}));
  } else {
    begin(start('module' in data ? data.module : compiled(data.letters, data.count)));
  }
};
