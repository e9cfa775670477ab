// How long the page takes from a pointer that moves to the picture that follows it, and to start.
// Run it on a quiet machine.
//
//   node page_frames.cjs LEEWAY.HTML FOLDER-WITH-NODE-MODULES [CHROMIUM]
//
// FOLDER is one in which tests/web/run.sh installed playwright-core.
'use strict';

const fs = require('node:fs');
const os = require('node:os');
const {createRequire} = require('node:module');
const path = require('node:path');
const {pathToFileURL} = require('node:url');

const [file, folder, executablePath = '/usr/bin/chromium'] = process.argv.slice(2);
const {fragment, whole} = require('../web/page_kit.cjs');
const {chromium} = createRequire(path.resolve(folder, 'package.json'))('playwright-core');
const kMoves = 200;

const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(1);

// From the event to the next picture in the document, laid out and painted: after the frame in which it is.
function watch() {
  window.frames_ = [];
  let moved = 0;
  window.addEventListener('pointermove', (event) => { moved ||= event.timeStamp; }, true);
  new MutationObserver(() => {
    if (!moved) return;
    const from = moved;
    moved = 0;
    const done = performance.now();
    requestAnimationFrame(() => {
      const channel = new MessageChannel();  // its message comes after the frame is painted
      channel.port1.onmessage = () => window.frames_.push([done - from, performance.now() - from]);
      channel.port2.postMessage(0);
    });
  }).observe(document.querySelector('.picture'), {childList: true, subtree: true, attributes: true});
}

// Processor ms a frame, of the page's thread and of the engine's: they hold on a busy machine too.
function processor(trace, frames) {
  const {traceEvents} = JSON.parse(trace.toString());
  const names = new Map(traceEvents.filter((one) => one.name === 'thread_name').map((one) => [`${one.pid} ${one.tid}`, one.args.name]));
  const spent = (thread, task) => traceEvents
    .filter((one) => one.name === task && one.tdur && (names.get(`${one.pid} ${one.tid}`) ?? '').startsWith(thread))
    .reduce((sum, one) => sum + one.tdur, 0) / 1000 / frames;
  return [spent('CrRendererMain', 'RunTask'), spent('DedicatedWorker', 'HandlePostMessage')].map((ms) => ms.toFixed(1));
}

async function dragged(browser, page, grip) {
  const box = await page.locator(`[data-grip=${grip}] .knob`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.evaluate(watch);
  await browser.startTracing(page, {categories: ['toplevel', 'devtools.timeline', 'disabled-by-default-devtools.timeline']});
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= kMoves; ++i) {
    await page.mouse.move(x + 40 * Math.sin(i / 12), y + 25 * Math.sin(i / 17));
    await page.waitForTimeout(20);
  }
  await page.mouse.up();
  const pairs = await page.evaluate(() => window.frames_);
  const spent = processor(await browser.stopTracing(), pairs.length);
  return [...[0, 1].map((i) => pairs.map((pair) => pair[i]).sort((a, b) => a - b)), spent];
}

// From opening the file until it is painted: the form, the examples, and the verdict on a link's setup.
const kStarts = [['the form', '.row input', ''], ['the examples', '.examples button', ''],
                 ['the verdict on a link', '.verdict h1', fragment(whole(path.join(__dirname, '../..'), 'examples/curlew-clips.json'))]];

function waitToBePainted(selector) {
  const look = () => {
    if (window.painted_ || !document.querySelector(selector)) return;
    window.painted_ = -1;
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => { window.painted_ = performance.now(); };
      channel.port2.postMessage(0);
    });
  };
  new MutationObserver(look).observe(document, {childList: true, subtree: true});
}

async function starts(browser) {
  const out = [];
  for (const [what, selector, hash] of kStarts) {
    const times = [];
    for (let i = 0; i < 7; ++i) {
      const page = await browser.newPage({viewport: {width: 1280, height: 900}});
      await page.addInitScript(waitToBePainted, selector);
      await page.goto(pathToFileURL(path.resolve(file)).href + hash);
      times.push(await (await page.waitForFunction(() => window.painted_ > 0 && window.painted_)).jsonValue());
      await page.close();
    }
    out.push(`${what} ${Math.round(times.sort((a, b) => a - b)[3])} ms`);
  }
  return out.join(', ');
}

(async () => {
  const browser = await chromium.launch({executablePath});
  const busy = () => os.loadavg()[0].toFixed(1);
  console.log(`leeway.html: ${Math.round(fs.statSync(file).size / 1000)} KB; ${os.cpus().length} cores, ${busy()} busy before\n`);
  console.log('| dragged on Curlew, 9 x 9 | frames | picture after ms: median | 95 of 100 | painted after ms: median | 95 of 100 | processor ms: page | engine |');
  console.log('| --- | --- | --- | --- | --- | --- | --- | --- |');
  for (const grip of ['offset', 'right', 'home']) {
    const page = await browser.newPage({viewport: {width: 1280, height: 900}});
    await page.goto(pathToFileURL(path.resolve(file)).href);
    await page.locator('.examples button', {hasText: 'Curlew'}).waitFor();
    await page.locator('.examples button', {hasText: 'Curlew'}).click();
    for (const label of ['Columns of the grid', 'Rows of the grid']) {
      await page.getByLabel(label).fill('9');
      await page.keyboard.press('Enter');
    }
    await page.waitForTimeout(1500);
    const [picture, painted, [own, engine]] = await dragged(browser, page, grip);
    console.log(`| ${grip} | ${picture.length} | ${at(picture, 0.5)} | ${at(picture, 0.95)} | ${at(painted, 0.5)} | ${at(painted, 0.95)} | ${own} | ${engine} |`);
    await page.close();
  }
  console.log(`\nFrom opening the file, median of 7: ${await starts(browser)}; ${busy()} busy after`);
  await browser.close();
})();
