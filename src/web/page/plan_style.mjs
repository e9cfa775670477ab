// The styles of the plan, asked of the engine while the page is put together.

export async function planStyle(wasm) {
  const nothing = new Proxy({}, {get: () => () => 52, has: () => true});
  const {instance} = await WebAssembly.instantiate(wasm, {
    env: {leeway_progress: () => 0, emscripten_notify_memory_growth() {}},
    wasi_snapshot_preview1: nothing,
  });
  const engine = instance.exports;
  engine._initialize();
  const request = Buffer.from('{"do":"style"}\0');
  const at = engine.malloc(request.length);
  new Uint8Array(engine.memory.buffer).set(request, at);
  const found = engine.leeway_call(engine.leeway_open(), at);
  const all = new Uint8Array(engine.memory.buffer);
  const answer = JSON.parse(Buffer.from(all.subarray(found, all.indexOf(0, found))).toString('utf8'));
  if (!answer.text) throw new Error('The engine has no style: ' + JSON.stringify(answer));
  return answer.text;
}
