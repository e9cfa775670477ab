// The page in a browser: whole stories by keyboard and by pointer, in all of its states under
// axe-core, and with what may be thrown at it.

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

const kNumbers = [['The bed: width', '233'], ['The bed: depth', '207'], ['The travel: left end', '-5'],
                  ['The travel: right end', '239'], ['The travel: front end', '-2'], ['The travel: back end', '211'],
                  ['The offset: x', '-38,5'], ['The offset: y', '12'], ['The grid: columns', '5'], ['The grid: rows', '5'],
                  ['The margins: all round', '20']];

// Five numbers, typed one after another with Tab, to numbers that are copied.
async function newcomerByKeyboard(tests) {
  const page = await started(tests);
  await accessible(tests, page, 'the start');
  await page.getByLabel(kNumbers[0][0]).focus();
  for (const [label, text] of kNumbers) {
    tests.equal(await page.evaluate(() => document.activeElement.getAttribute('aria-label')), label, 'the order of Tab');
    await page.keyboard.type(text);
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  await shows(tests, page, '20 of 25 points reachable');
  await page.getByRole('tab', {name: 'Reasons'}).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  const copy = page.getByRole('button', {name: 'Copy offset, nozzle to probe'});
  await copy.focus();
  await page.keyboard.press('Enter');
  await page.getByText('Copied: offset, nozzle to probe').waitFor();
  tests.equal(await copied(page), '-38.5, 12', 'the number copied');
  await accessible(tests, page, 'what to take away');
  const fitted = tests.run('fit', '--without-setup', '--bed', '233x207', '--travel', '-5..239,-2..211', '--offset', '-38.5,12',
                           '--grid', '5x5', '--margins', '20');
  const sides = await page.locator('.numbers output').allTextContents();
  tests.check(sides.length > 10, 'numbers to enter');
  for (const side of sides.slice(0, 4)) tests.check(fitted.includes(side), `fit prints ${side} too`);
  await page.getByRole('button', {name: 'Show this grid on the plan'}).click();
  await shows(tests, page, 'all 25 points are reachable');
  await page.getByRole('button', {name: 'Undo: This grid'}).click();
  await shows(tests, page, '20 of 25 points reachable');
  await tests.close(page, 'the newcomer');
}

// Faults stand at their fields, in the engine's words.
async function faultsOfTheForm(tests) {
  const page = await started(tests);
  await page.getByLabel('The bed: width').fill('wide');
  await page.getByRole('button', {name: 'Show what it can reach'}).click();
  await page.locator('[data-field=bed] .fault p').waitFor();
  tests.check((await page.textContent('[data-field=travel] .fault')).includes('needed'), 'travel is missing');
  await accessible(tests, page, 'a form with faults');
  await page.getByLabel('The bed: depth').fill('8 in');
  tests.check((await page.textContent('[data-field=bed]')).includes('203.2 mm'), 'inches are shown in mm');
  await tests.close(page, 'faults of the form');
}

function fragment(text) {
  return '#setup=' + zlib.deflateRawSync(Buffer.from(text)).toString('base64url');
}

// A link is opened, the mistake is found and mended, the reply copied.
async function volunteer(tests, reply) {
  const setup = tests.save('examples/godwit-front-probe.json');
  const page = await tests.open(tests.page, {hash: fragment(setup), viewport: {width: 1280, height: 900},
    permissions: ['clipboard-read', 'clipboard-write'], own: /^(blob|data):/});
  await shows(tests, page, 'Godwit, probe in front');
  tests.equal(await page.evaluate(() => location.hash), '', 'the fragment is taken out of the address');
  await page.getByRole('tab', {name: 'Mend'}).click();
  await page.locator('.card').first().waitFor({timeout: 20000});
  await accessible(tests, page, 'what mends it');
  const before = await headline(page);
  await page.locator('.card button').first().click();
  await page.waitForFunction((was) => document.querySelector('.verdict h1').textContent !== was, before);
  await page.getByRole('button', {name: /^Undo:/}).click();
  await shows(tests, page, before);
  await page.getByRole('tab', {name: 'Take away'}).click();
  await page.getByRole('button', {name: 'Copy the reply'}).click();
  await page.getByText('Copied: the reply').waitFor();
  tests.check((await copied(page)).includes('Godwit, probe in front'), 'the reply names the setup');
  if (reply) tests.equal((await copied(page)).trim(), reply.trim(), 'the reply is what the command prints');
  // A second link asks before it replaces the work.
  await page.evaluate((hash) => { location.hash = hash; }, fragment(tests.save('examples/plover-round.json')));
  await page.getByText('The link holds another setup').waitFor();
  await accessible(tests, page, 'a link that asks');
  await page.getByRole('button', {name: 'Keep mine'}).click();
  await shows(tests, page, 'Godwit, probe in front');
  await page.evaluate((hash) => { location.hash = hash; }, fragment(tests.save('examples/plover-round.json')));
  await page.getByRole('button', {name: 'Show it'}).click();
  await shows(tests, page, 'Plover, round bed');
  await page.keyboard.press('Control+z');
  await shows(tests, page, 'Godwit, probe in front');
  await page.getByRole('button', {name: 'Copy link'}).click();
  const link = await page.waitForFunction(() => navigator.clipboard.readText().then((text) => text.includes('#setup=') && text));
  const packed = (await link.jsonValue()).split('#setup=')[1];
  const sent = JSON.parse(zlib.inflateRawSync(Buffer.from(packed, 'base64url')).toString());
  tests.equal(sent.name, 'Godwit, probe in front', 'what the link holds');
  await tests.close(page, 'the volunteer');
}

async function drag(page, grip, dx, dy) {
  const box = await page.locator(`[data-grip=${grip}] .knob`).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 4; ++i) await page.mouse.move(x + dx * i / 4, y + dy * i / 4);
  await page.mouse.up();
}

// The probe is dragged until all works, by pointer and by keys; each drag is one step back.
async function designer(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, side bracket/}).click();
  await shows(tests, page, '21 of 27 points reachable');
  await page.getByRole('button', {name: 'Where the probe may sit'}).click();
  await page.locator('svg.window image').waitFor({state: 'attached', timeout: 20000});
  await accessible(tests, page, 'the desk');
  await drag(page, 'offset', 60, 10);
  await page.getByRole('button', {name: 'Undo: offset'}).waitFor();
  const x = Number(await value(page, 'Offset x'));
  tests.check(x > -38.5 && Number.isInteger(2 * x), `the offset was dragged in steps of half a millimetre: ${x}`);
  await page.locator('[data-grip=offset]').focus();
  await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('ArrowLeft');
  await holds(tests, page, 'Offset x', String(Math.round(10 * (x + 0.9)) / 10), 'arrows move it by 1 and 0.1');
  tests.equal(await page.evaluate(() => document.activeElement.dataset.grip), 'offset', 'the focus stays');
  for (let i = 0; i < 3; ++i) {
    await page.keyboard.press('Control+z');
  }
  await shows(tests, page, '21 of 27 points reachable');
  await drag(page, 'right', -60, 0);
  await page.getByRole('button', {name: 'Undo: right side of the grid'}).waitFor();
  tests.check(Number(await value(page, 'Grid, right side')) < 210, 'the right side was dragged');
  await drag(page, 'home', 10, 30);
  await page.getByRole('button', {name: 'Undo: homing point'}).waitFor();
  await page.getByLabel('Grid, right side', {exact: true}).fill('7.5 in');
  await page.keyboard.press('Enter');
  await holds(tests, page, 'Grid, right side', '190.5', 'inches');
  await page.getByLabel('Offset y', {exact: true}).fill('nowhere');
  await page.keyboard.press('Enter');
  await page.locator('.dial .fault').waitFor();
  await accessible(tests, page, 'a number that is none');
  await page.keyboard.press('Escape');
  await page.getByRole('button', {name: /^grid 2,1/}).focus();
  await page.locator('.said', {hasText: 'grid 2,1, unreachable'}).waitFor();
  await page.getByRole('button', {name: 'Put the head on it'}).click();
  await page.locator('[data-grip=head]').focus();
  await page.keyboard.press('Shift+ArrowUp');
  await page.locator('.said', {hasText: 'Nozzle at'}).waitFor();
  await accessible(tests, page, 'the head put down');
  await tests.close(page, 'the designer');
}

// What the setup's file is, whole, is what the command would read.
async function files(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Dunlin/}).click();
  await page.getByRole('tab', {name: 'Take away'}).click();
  for (const [button, words] of [['Points as CSV', ['check', '--format', 'csv']], ['Plan as SVG', ['draw', '--format', 'svg']]]) {
    const coming = page.waitForEvent('download');
    await page.getByRole('button', {name: button}).click();
    const text = fs.readFileSync(await (await coming).path(), 'utf8');
    tests.equal(text, tests.run(words[0], 'examples/dunlin-contact-pin.json', ...words.slice(1)), `${button}: as the command`);
  }
  const coming = page.waitForEvent('download');
  await page.getByRole('button', {name: 'Setup', exact: true}).click();
  const saved = path.join(tests.work, 'saved.json');
  await (await coming).saveAs(saved);
  tests.check(tests.run('check', saved).includes('Dunlin, contact pin'), 'the file saved can be read');
  await tests.close(page, 'files');
}

// A clip is added and dragged; readings become the offset; a template is filled.
async function clipsAndReadings(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, side bracket/}).click();
  await page.getByRole('tab', {name: 'Clips'}).click();
  await page.getByRole('button', {name: 'Add a clip'}).click();
  await page.getByRole('button', {name: 'Take clip 2 away'}).waitFor();
  await accessible(tests, page, 'clips');
  await page.locator('[data-grip=obstacle-1]').focus();
  await page.keyboard.press('Shift+ArrowUp');
  await holds(tests, page, 'clip 2, front side', '1', 'a clip moves by arrows');
  await page.getByRole('button', {name: 'Take clip 2 away'}).click();
  await page.getByRole('button', {name: 'Take clip 2 away'}).waitFor({state: 'detached'});
  await page.getByRole('tab', {name: 'Measure'}).click();
  await page.locator('.pasted-readings textarea').fill(fs.readFileSync(path.join(tests.root, 'examples/godwit-readings.csv'), 'utf8'));
  await page.getByRole('button', {name: 'Find the offset'}).click();
  await page.locator('.readings li').first().waitFor();
  await accessible(tests, page, 'readings');
  const printed = tests.run('measure', 'examples/godwit-readings.csv');
  tests.equal((await page.textContent('#panel-measure pre')).trim(), printed.trim(), 'as the command prints it');
  await page.getByRole('button', {name: 'Use this offset'}).click();
  await page.getByRole('button', {name: 'Undo: measured offset'}).waitFor();
  tests.check(await value(page, 'Offset x') !== '-38.5', 'the measured offset is used');
  await page.getByRole('tab', {name: 'Take away'}).click();
  await page.getByRole('button', {name: 'Show this grid on the plan'}).click();
  await shows(tests, page, 'all 27 points are reachable');
  await page.locator('.template textarea').fill('of {{setup}}.');
  await page.locator('#panel-take pre', {hasText: /^of Godwit, side bracket\.$/}).waitFor();
  await page.locator('.template textarea').fill('{{nobody}}');
  await page.locator('#panel-take .fault', {hasText: 'nobody'}).waitFor();
  await tests.close(page, 'clips and readings');
}

const kHostile = [
  ['not JSON', '{"format": "leeway-setup-1", '],
  ['markup', '<img src=x onerror="window.struck=1"><script>window.struck=1</script>'],
  ['too many points', JSON.stringify({format: 'leeway-setup-1', machine: {bed: {rectangle: {x: [0, 200], y: [0, 200]}},
    travel: {rectangle: {x: [0, 200], y: [0, 200]}}}, probe: {offset: [0, 0]}, request: {grid: {columns: 1000, rows: 1000, margins: 5}}})],
  ['deep', '['.repeat(100000)],
];

// Nothing runs, nothing is asked for, there is a message, and the page goes on.
async function hostile(tests) {
  const page = await started(tests);
  const chooser = page.locator('input[type=file]');
  let said = '';
  for (const [what, text] of kHostile) {
    await chooser.setInputFiles({name: `<b>${what}</b>.json`, mimeType: 'application/json', buffer: Buffer.from(text)});
    await page.waitForFunction((was) => !['', was].includes(document.querySelector('.faults').textContent), said);
    said = await page.textContent('.faults');
    tests.check(said.length > 30, `${what}: a message`);
    tests.equal(await page.locator('.faults b, .faults img').count(), 0, `${what}: no markup`);
  }
  await chooser.setInputFiles({name: 'long.json', mimeType: 'application/json', buffer: Buffer.alloc(16_000_000, 32)});
  await page.locator('.faults li', {hasText: 'more than 8 MB'}).waitFor();
  const named = JSON.parse(tests.save('examples/godwit-all-well.json'));
  named.name = '<img src=x onerror="window.struck=1"> \u202e\u0007';
  named.machine.obstacles[0].name = '"><script>window.struck=1</script>';
  await chooser.setInputFiles({name: 'names.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(named))});
  await page.waitForSelector('.verdict h1');
  tests.equal(await page.locator('.page img, .page script').count(), 0, 'names bring no elements');
  tests.check(!(await page.textContent('body')).includes('\u202e'), 'names turn no direction');
  await page.evaluate(() => { location.hash = '#setup=AAAA____not-deflate'; });
  await page.locator('[role=status]', {hasText: 'The link is not whole'}).waitFor({state: 'attached'});
  await page.evaluate((hash) => { location.hash = hash; }, fragment(' '.repeat(30_000_000)));
  await page.waitForTimeout(300);
  await page.keyboard.press('Control+z');
  tests.equal(await page.evaluate(() => window.struck), undefined, 'no script of a name ran');
  await page.getByRole('button', {name: 'Another setup'}).click();
  await page.getByRole('button', {name: /^Curlew/}).click();
  await shows(tests, page, 'Curlew, clips in the way');
  await tests.close(page, 'hostile input');
}

// All widths, in light, dark and forced colours; a picture of each lies in the folder of the pages.
async function looks(tests) {
  for (const [width, height] of [[320, 700], [768, 1024], [1280, 800], [2560, 1300]]) {
    for (const colorScheme of ['light', 'dark']) {
      const page = await started(tests, {viewport: {width, height}, colorScheme,
        forcedColors: width === 768 && colorScheme === 'dark' ? 'active' : 'none'});
      const what = `${width} ${colorScheme}`;
      await legible(tests, page, `the start at ${what}`);
      await page.screenshot({path: path.join(tests.work, `start-${width}-${colorScheme}.png`)});
      await page.getByRole('button', {name: /^Godwit, side bracket/}).click();
      await shows(tests, page, '21 of 27');
      await page.waitForTimeout(100);
      await legible(tests, page, `the desk at ${what}`);
      await page.screenshot({path: path.join(tests.work, `desk-${width}-${colorScheme}.png`)});
      if (colorScheme === 'dark') await accessible(tests, page, `the desk at ${what}`);
      await tests.close(page, what);
    }
  }
}

// Nothing is remembered unless one says so.
async function remembering(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, all well/}).click();
  await shows(tests, page, 'Godwit, all well');
  await page.reload();
  await page.waitForSelector('.examples button');
  tests.equal(await page.evaluate(() => localStorage.length), 0, 'nothing is kept');
  await page.getByRole('button', {name: /^Godwit, all well/}).click();
  await page.getByLabel('Remember here').check();
  await page.reload();
  await shows(tests, page, 'Godwit, all well');
  await page.getByLabel('Remember here').uncheck();
  tests.equal(await page.evaluate(() => localStorage.length), 0, 'it is forgotten');
  await tests.close(page, 'remembering');
}

async function withoutScripts(tests) {
  const page = await tests.open(tests.page, {javaScriptEnabled: false});
  tests.check((await page.textContent('noscript')).includes('leeway check'), 'without scripts it points at the command');
  await page.context().close();
  const bare = await tests.browser.newContext();
  await bare.addInitScript(() => { delete window.WebAssembly; });
  const lacking = await bare.newPage();
  await lacking.goto(require('node:url').pathToFileURL(tests.page).href);
  tests.check((await lacking.textContent('#starting')).includes('lacks WebAssembly'), 'without WebAssembly it says so');
  await bare.close();
}

async function page(tests, file) {
  tests.page = file;
  tests.save = (setup) => whole(tests.root, setup);
  await newcomerByKeyboard(tests);
  await faultsOfTheForm(tests);
  tests.lap('newcomer');
  await volunteer(tests, tests.run('explain', 'examples/godwit-front-probe.json', '--format', 'markdown'));
  tests.lap('volunteer');
  await designer(tests);
  tests.lap('designer');
  await clipsAndReadings(tests);
  await files(tests);
  await remembering(tests);
  await withoutScripts(tests);
  await hostile(tests);
  tests.lap('files, memory, hostile input');
  await looks(tests);
  tests.lap('looks');
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

module.exports = {page};
