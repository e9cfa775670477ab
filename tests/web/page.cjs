// The page in a browser: whole stories by keyboard and by pointer, in all of its states under
// axe-core, and with what may be thrown at it.

'use strict';

const fs = require('node:fs');
const path = require('node:path');
const zlib = require('node:zlib');
const {accessible, copied, fragment, headline, legible, shows, started, whole} = require('./page_kit.cjs');
const {deskStories} = require('./page_desk.cjs');

const kNumbers = [['The bed: width', '233'], ['The bed: depth', '207'], ['The bed: shape', ''], ['The travel: left end', '-5'],
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
  tests.equal(await page.evaluate(() => document.activeElement.tagName), 'H1', 'the verdict has the focus');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.locator('.numbers button').first().waitFor();
  for (let i = 0; i < 30 && !(await page.evaluate(() => document.activeElement.textContent)).startsWith('Copy offset, nozzle to probe'); ++i) {
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  await page.getByText('Copied: offset, nozzle to probe').waitFor();
  tests.equal(await copied(page), '-38.5, 12', 'the number copied');
  await accessible(tests, page, 'what to take away');
  const fitted = tests.run('fit', '--without-setup', '--bed', '233x207', '--travel', '-5..239,-2..211', '--offset', '-38.5,12',
                           '--grid', '5x5', '--margins', '20');
  const sides = await page.locator('.numbers button').evaluateAll((buttons) => buttons.slice(0, 8).map((button) =>
    button.querySelector('small').textContent.slice(-1) + ' = ' + button.querySelector('.value').textContent));
  tests.equal(sides.length, 8, 'numbers to enter');
  for (const side of sides) tests.check(fitted.includes(side), `fit prints ${side} too`);
  await page.getByRole('button', {name: 'Show this grid on the plan'}).click();
  await shows(tests, page, 'all 25 points are reachable');
  await page.getByRole('button', {name: 'Undo: A grid that fits'}).click();
  await shows(tests, page, '20 of 25 points reachable');
  await tests.close(page, 'the newcomer');
}

// Faults stand at their fields, in the engine's words.
async function faultsOfTheForm(tests) {
  const page = await started(tests);
  await page.getByLabel('The bed: width').fill('wide');
  await page.getByRole('button', {name: 'Show what it can reach'}).click();
  await page.locator('[data-field=bed] .fault p').first().waitFor();
  tests.check((await page.textContent('[data-field=travel] .fault')).includes('needed'), 'travel is missing');
  await accessible(tests, page, 'a form with faults');
  // A fault is at its box alone; units and decimal commas in any box, shown in mm.
  await page.getByLabel('The bed: width').fill('9,5 in');
  await page.getByLabel('The bed: depth').fill('deep');
  await page.keyboard.press('Enter');
  await page.locator('[data-field=bed] .fault p', {hasText: 'deep'}).waitFor();
  tests.equal(await page.getByLabel('The bed: width').getAttribute('aria-invalid'), 'false', 'the width is well');
  tests.equal(await page.getByLabel('The bed: depth').getAttribute('aria-invalid'), 'true', 'the depth is not');
  await page.locator('[data-field=bed] small', {hasText: '241.3 mm'}).waitFor();
  await page.getByLabel('The bed: depth').fill('8 in');
  await page.locator('[data-field=bed] small', {hasText: '203.2 mm'}).waitFor();
  await tests.close(page, 'faults of the form');
}

// A round bed, and all else that someone may know; what the command makes of the same options.
async function formInFull(tests) {
  const page = await started(tests);
  const fill = async (texts) => { for (const [label, text] of Object.entries(texts)) await page.getByLabel(label, {exact: true}).fill(text); };
  await page.getByLabel('The bed: shape').selectOption('round');
  await fill({'The bed: radius': '105', 'The travel: radius': '108', 'The offset: x': '0', 'The offset: y': '-25',
              'The grid: columns': '5', 'The grid: rows': '5', 'The margins: all round': '10'});
  await page.getByText('What else you know').click();
  await page.getByText('Leave out points of the grid').click();
  await page.getByRole('button', {name: 'Add a clip'}).click();
  await fill({'Its name: name': 'Sanderling', 'The homing point: x': '0', 'The homing point: y': '0', 'The probe senses: radius': '4',
              'clip 1: left': '-10', 'clip 1: right': '10', 'clip 1: front': '-106', 'clip 1: back': '-98'});
  await accessible(tests, page, 'the form in full');
  await page.getByRole('button', {name: 'Show it with all this'}).click();
  await page.locator('[data-field=obstacle] .fault p').waitFor();
  await fill({'clip 1: height': '-6'});
  await page.keyboard.press('Enter');
  await page.locator('[data-field=obstacle] .fault p', {hasText: '"clip 1", height: found the number -6'}).waitFor();
  tests.equal(await page.getByLabel('clip 1: height').getAttribute('aria-invalid'), 'true', 'the height is wrong');
  tests.equal(await page.getByLabel('clip 1: left').getAttribute('aria-invalid'), 'false', 'the left side is well');
  await fill({'clip 1: height': '6'});
  await page.keyboard.press('Enter');
  await shows(tests, page, 'Sanderling: ');
  const told = tests.run('check', '--without-setup', '--bed', 'round:105', '--travel', 'round:108', '--offset', '0,-25', '--grid', '5x5',
                         '--margins', '10', '--skip-outside', '--name', 'Sanderling', '--home', '0,0', '--spot', '4',
                         '--obstacle', 'clip 1=-10..10,-106..-98@6+1').replace(/\s+/g, ' ');
  const says = await headline(page);
  tests.check(told.includes(says), `the command says what the page does: ${says} / ${told.slice(0, 300)}`);
  await tests.close(page, 'the form in full');
}

// A link is opened, the mistake is found and mended, the reply copied.
async function volunteer(tests) {
  const reply = tests.run('explain', 'examples/godwit-front-probe.json', '--format', 'markdown');
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
  tests.equal((await copied(page)).trim(), reply.trim(), 'the reply is what the command prints');
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
  await page.getByText('Copied: the link').waitFor();
  const packed = (await copied(page)).split('#setup=')[1];
  const sent = JSON.parse(zlib.inflateRawSync(Buffer.from(packed, 'base64url')).toString());
  tests.equal(sent.name, 'Godwit, probe in front', 'what the link holds');
  await tests.close(page, 'the volunteer');
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
  const long = path.join(tests.work, 'long.json');
  fs.writeFileSync(long, Buffer.alloc(16_000_000, 32));
  await chooser.setInputFiles(long);
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
  for (const size of [[320, 700], [768, 1024], [1280, 800], [2560, 1300]]) {
    await Promise.all(['light', 'dark'].map((colorScheme) => look(tests, size, colorScheme)));
  }
}

async function look(tests, [width, height], colorScheme) {
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

const kStories = [newcomerByKeyboard, faultsOfTheForm, formInFull, volunteer, ...deskStories, files, remembering, withoutScripts,
                  hostile, looks];

// All of them, or those named.
async function page(tests, file, only = []) {
  tests.page = file;
  tests.save = (setup) => whole(tests.root, setup);
  for (const story of kStories) {
    if (only.length > 0 && !only.includes(story.name)) continue;
    await story(tests);
    tests.lap(story.name);
  }
}

module.exports = {page};
