// leeway.wasm under node: a session that takes requests as objects.
"use strict";
const fs = require("fs");

// `progress` gets the share done and stops the work by returning true.
async function openEngine(file, progress = () => false) {
  let memory;
  const {instance} = await WebAssembly.instantiate(fs.readFileSync(file), {
    env: {
      leeway_progress: (done) => (progress(done) ? 1 : 0),
      emscripten_notify_memory_growth() {},
    },
    wasi_snapshot_preview1: wasi(),
  });
  const engine = instance.exports;
  engine._initialize();
  const bytes = () => new Uint8Array(engine.memory.buffer);
  return () => {
    const session = engine.leeway_open();
    const textOf = (request) => {
      const text = Buffer.from(request + "\0", "utf8");
      const at = engine.malloc(text.length);
      if (at === 0) throw new Error("no memory for the request");
      bytes().set(text, at);
      const answer = engine.leeway_call(session, at);
      engine.free(at);
      const all = bytes();
      return Buffer.from(all.subarray(answer, all.indexOf(0, answer))).toString("utf8");
    };
    return {
      text: textOf,
      call: (request) => JSON.parse(textOf(JSON.stringify(request))),
      close: () => engine.leeway_close(session),
    };
  };
}

// What the C library may ask for. None of it is of use to the engine.
function wasi() {
  const refuse = () => 52;  // ENOSYS
  return new Proxy({}, {
    get: (_, name) => (name === "proc_exit" ? (code) => { throw new Error("exit " + code); } : refuse),
    has: () => true,
  });
}

module.exports = {openEngine};
