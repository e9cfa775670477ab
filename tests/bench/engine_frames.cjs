// The page's engine under node: its size, and how long a frame of dragging the probe takes, from the
// request to the answer, as text. Run it on a quiet machine.
//
//   node engine_frames.cjs LEEWAY.WASM [ANOTHER.WASM...]
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const zlib = require('node:zlib');
const {openEngine} = require('../web/engine/engine.cjs');

const kFrames = 160;
const kWarm = 30;  // not counted: they are compiled meanwhile

// A traced outline, as in bench_heavy.cpp: bays and bulges round an ellipse.
function traced(x, y, halfWidth, halfDepth, vertices, phase) {
  const outer = [];
  for (let i = 0; i < vertices; ++i) {
    const angle = 2 * Math.PI * i / vertices;
    const bulge = 1 + 0.18 * Math.sin(3 * angle + phase) + 0.07 * Math.sin(7 * angle + 2 * phase) +
                  0.08 * Math.sin(2.3 * i * i + phase);
    outer.push([x + halfWidth * bulge * Math.cos(angle), y + halfDepth * bulge * Math.sin(angle)]
      .map((v) => Math.round(100 * v) / 100));
  }
  return {polygon: {outer}};
}

function heavy() {
  const clips = [[15, 3], [215, 3], [15, 207], [215, 207]];
  const obstacles = clips.map(([x, y], i) => ({name: 'clip ' + i, shape: traced(x, y, 12, 7, 40, i), height: 6, clearance: 1}));
  return JSON.stringify({
    machine: {
      format: 'leeway-machine-1', bed: {rectangle: {x: [0, 233], y: [0, 207]}},
      travel: {rectangle: {x: [-5, 239], y: [-2, 211]}}, obstacles,
      head: [{name: 'fan duct', outline: traced(0, -19, 22, 12, 40, 0.4), underside: 3}],
    },
    probe: {offset: [-38.5, 12], trigger_height: 2, travel_height: 8, spot: {disc: {center: [0, 0], radius: 4}}},
    request: {grid: {columns: 12, rows: 12, x: [20, 185], y: [25, 185]}},
  });
}

const nineByNine = {'/request/grid/columns': 9, '/request/grid/rows': 9};
const kWork = [
  ['Godwit', {do: 'read', example: 'godwit-all-well'}, {}],
  ['Curlew, 9 x 9', {do: 'read', example: 'curlew-clips'}, nineByNine],
  ['Plover', {do: 'read', example: 'plover-round'}, {}],
  ['a duct of 40 vertices over four clips of 40, 12 x 12', {do: 'read', text: heavy()}, {}],
];

function at(times, share) {
  return [...times].sort((a, b) => a - b)[Math.floor(share * times.length)].toFixed(1);
}

function measured(open, [, first, changes], plan) {
  const session = open();
  for (const request of [first, {do: 'change', changes}]) {
    const answer = session.call(request);
    if (!answer.ok) throw new Error(JSON.stringify(answer.faults));
  }
  const [x, y] = session.call({do: 'frame'}).handles.offset;
  const times = [];
  for (let i = 0; i < kFrames; ++i) {
    const offset = [x + 0.1 * (i % 40), y + 0.05 * (i % 60)];
    const request = JSON.stringify({do: 'frame', changes: {'/probe/offset': offset}, ...plan});
    const start = performance.now();
    session.text(request);
    times.push(performance.now() - start);
  }
  session.close();
  return times.slice(kWarm);
}

(async () => {
  for (const file of process.argv.slice(2)) {
    const bytes = fs.readFileSync(file);
    const kilobytes = (count) => Math.round(count / 1000) + ' KB';
    console.log(`${path.basename(file)}: ${kilobytes(bytes.length)}, ${kilobytes(zlib.gzipSync(bytes, {level: 9}).length)} gzipped\n`);
    const open = await openEngine(file);
    console.log('| a frame of dragging the probe | ms: median | 95 of 100 | without list and titles: median | 95 of 100 |');
    console.log('| --- | --- | --- | --- | --- |');
    for (const work of kWork) {
      const whole = measured(open, work, {plan: {width: 800, links: true}});
      const less = measured(open, work, {points: false, plan: {width: 800, links: true, titles: false}});
      console.log(`| ${work[0]} | ${[whole, less].map((times) => `${at(times, 0.5)} | ${at(times, 0.95)}`).join(' | ')} |`);
    }
    console.log();
  }
})();
