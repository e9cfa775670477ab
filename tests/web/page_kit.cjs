// What the stories of the page share.

'use strict';

const fs = require('node:fs');
const {createRequire} = require('node:module');
const path = require('node:path');
const zlib = require('node:zlib');

// WCAG 2.2 level A and AA, and what axe-core calls best practice.
async function accessible(tests, page, what) {
  if (!(await page.evaluate(() => 'axe' in window))) {
    const axe = createRequire(path.join(tests.folder, 'package.json')).resolve('axe-core/axe.min.js');
    await page.evaluate(fs.readFileSync(axe, 'utf8'));  // not as an element: the policy forbids it
  }
  const found = await page.evaluate(async () => {
    const result = await window.axe.run(document, {resultTypes: ['violations']});
    return {
      passed: result.passes.length,
      wrong: result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).slice(0, 3).join(' | ')}`),
    };
  });
  tests.equal(found.wrong.join('; '), '', `${what}: axe-core`);
  tests.check(found.passed > 10, `${what}: axe-core looked at something`);
}

async function started(tests, options = {}) {
  const page = await tests.open(tests.page, {viewport: {width: 1280, height: 900},
    permissions: ['clipboard-read', 'clipboard-write'], own: /^(blob|data):/, ...options});
  await page.waitForSelector('.examples button');
  return page;
}

const headline = (page) => page.textContent('.verdict h1');
const copied = (page) => page.evaluate(() => navigator.clipboard.readText());
const value = (page, label) => page.getByLabel(label, {exact: true}).inputValue();

// Waits until a field holds that.
async function holds(tests, page, label, text, what) {
  try {
    await page.waitForFunction(([name, wanted]) => document.querySelector(`[aria-label="${name}"]`).value === wanted,
                               [label, text], {timeout: 10000});
    tests.check(true, what);
  } catch {
    tests.equal(await value(page, label), text, what);
  }
}
const shows = (tests, page, text) =>
  page.locator('.verdict h1', {hasText: text}).waitFor({timeout: 20000}).then(
    () => tests.check(true, text),
    async () => tests.check(false, `the headline says ${text}, not: ${await page.textContent('body').then((t) => t.slice(0, 400))}`));

// No text is smaller than 12 px, in pictures neither, and nothing is wider than the window.
async function legible(tests, page, what) {
  const found = await page.evaluate(() => {
    const small = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const element = walker.currentNode.parentElement;
      if (!walker.currentNode.data.trim() || element.closest('script, title, desc, noscript')) continue;
      const picture = element.closest('svg');
      const scale = picture ? picture.getBoundingClientRect().width / picture.viewBox.baseVal.width : 1;
      const size = parseFloat(getComputedStyle(element).fontSize) * scale;
      if (size > 0 && size < 11.99) small.push(`${size}: ${walker.currentNode.data.trim().slice(0, 30)}`);
    }
    return {small: small.slice(0, 5), over: document.documentElement.scrollWidth - innerWidth};
  });
  tests.equal(found.small.join('; '), '', `${what}: text of less than 12 px`);
  tests.check(found.over <= 0, `${what}: ${found.over} px wider than the window`);
}

function fragment(text) {
  return '#setup=' + zlib.deflateRawSync(Buffer.from(text)).toString('base64url');
}

async function drag(page, grip, dx, dy) {
  const box = await page.locator(`[data-grip=${grip}] .knob`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 4; ++i) await page.mouse.move(x + dx * i / 4, y + dy * i / 4);
  await page.mouse.up();
}

// A setup of the examples with its profiles in it.
function whole(root, name) {
  const read = (file) => JSON.parse(fs.readFileSync(file, 'utf8').replace(/^\s*\/\/.*$/gm, '').replace(/\s\/\/ .*$/gm, ''));
  const file = path.join(root, name);
  const setup = read(file);
  const beside = (relative) => read(path.join(path.dirname(file), relative));
  if (typeof setup.machine === 'string') setup.machine = beside(setup.machine);
  if (typeof setup.probe === 'string') setup.probe = beside(setup.probe);
  else if (setup.probe.profile) {
    const {profile, ...own} = setup.probe;
    setup.probe = {...beside(profile), ...own};
  }
  delete setup.machine.format;
  delete setup.probe.format;
  return JSON.stringify(setup);
}

module.exports = {accessible, copied, drag, fragment, headline, holds, legible, shows, started, value, whole};
