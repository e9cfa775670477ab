// The engine's side of the page. Gets the module once, then answers one request after another.

interface Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  malloc(size: number): number;
  free(at: number): void;
  leeway_open(): number;
  leeway_call(session: number, request: number): number;
}

type ToWorker = {bytes: ArrayBuffer} | {module: WebAssembly.Module} | {id: number; request: unknown};

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

function start(module: WebAssembly.Module): void {
  engine = new WebAssembly.Instance(module, imports).exports as unknown as Exports;
  engine._initialize();
  session = engine.leeway_open();
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

scope.onmessage = ({data}) => {
  try {
    if ('bytes' in data) {
      const module = new WebAssembly.Module(data.bytes);
      start(module);
      scope.postMessage({ready: module});
    } else if ('module' in data) {
      start(data.module);
      scope.postMessage({ready: data.module});
    } else {
      scope.postMessage({id: data.id, answer: call(data.request)});
    }
  } catch (thrown) {
    scope.postMessage({broken: String(thrown), id: 'id' in data ? data.id : undefined});
  }
};
