// The report in a browser: nothing runs, nothing is asked for, everything can be read and reached.

'use strict';

const fs = require('node:fs');
const http = require('node:http');

// WCAG 2.2: relative luminance and contrast, in the page. Looks at every text that shows and
// returns the worst, with the ground that it stands on.
function worstContrast() {
  const channel = (c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
  const numbers = (colour) => colour.match(/[\d.]+/g).map(Number);
  const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
  const ground = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = numbers(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] === 1) return colour;
    }
    return [255, 255, 255];
  };
  let worst = {ratio: 99, texts: 0};
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let texts = 0;
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || element.closest('svg, script')) continue;
    texts += 1;
    const a = luminance(numbers(getComputedStyle(element).color));
    const b = luminance(ground(element));
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < worst.ratio) worst = {ratio, text: walker.currentNode.data.trim().slice(0, 40)};
  }
  return {...worst, texts};
}

// What a name could have brought into the page.
function intruders() {
  const found = [];
  for (const element of document.querySelectorAll('*')) {
    for (const {name, value} of element.attributes) {
      if (/^on/i.test(name)) found.push(`${element.tagName} ${name}`);
      if (name === 'style') found.push(`${element.tagName} style`);
      if (/href|src|action/.test(name) && !/^(#|data:,$)/.test(value)) found.push(`${name} ${value}`);
    }
    if (/^(img|iframe|object|embed|form|input|base|foreignobject|b|i)$/i.test(element.tagName)) {
      found.push(element.tagName);
    }
  }
  if (document.scripts.length !== 1) found.push(`${document.scripts.length} scripts`);
  if (window.struck !== undefined) found.push('a script of a name ran');
  // Controls, and what turns the direction of reading (Unicode 15); but for the two isolates, which
  // keep a name's own direction within it in the picture.
  const unseen = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2067\u206a-\u206f\ufeff]/;
  if (unseen.test(document.documentElement.outerHTML)) found.push('an unseen character');
  return found.join('; ');
}

// Which point has the focus, in plan or table, and what lights up; nothing elsewhere.
function focusedPoint() {
  const here = document.activeElement.id || document.activeElement.getAttribute('href') || '';
  const found = /^(#?)p-(\d+)$/.exec(here);
  if (!found) return null;
  const row = document.getElementById('row-' + found[2]);
  const mark = document.getElementById('p-' + found[2]);
  const plain = [...document.querySelectorAll('tr[data-point]')].find((r) => r !== row);
  return {
    where: found[1] ? 'table' : 'plan',
    index: found[2],
    row: row.classList.contains('lit') &&
         getComputedStyle(row).backgroundColor !== getComputedStyle(plain).backgroundColor,
    mark: mark.classList.contains('lit') &&
          getComputedStyle(mark.querySelector('.halo')).fill !== 'none',
    lit: document.querySelectorAll('.lit').length,
    shown: document.getElementById('shown').textContent,
    why: row.cells[3].textContent,
  };
}

async function keyboard(tests, page, what) {
  const count = await page.locator('tr[data-point]').count();
  tests.check(count > 5, `${what} has rows`);
  const idle = await page.locator('#shown').innerText();
  const seen = {plan: new Set(), table: new Set()};
  for (let i = 0; i < 2 * count + 8; ++i) {
    await page.keyboard.press('Tab');
    const state = await page.evaluate(focusedPoint);
    if (!state) continue;
    const n = state.index;
    seen[state.where].add(n);
    tests.check(state.row && state.mark, `${what}: point ${n} lights up in plan and table`);
    tests.equal(state.lit, 2, `${what}: alone, with point ${n}`);
    tests.check(state.shown.includes(state.why), `${what}: the reason of ${n} is shown`);
  }
  tests.equal(seen.plan.size, count, `${what}: points of the plan reached by keyboard`);
  tests.equal(seen.table.size, count, `${what}: rows reached by keyboard`);
  await page.keyboard.press('Escape');
  tests.equal(await page.locator('#shown').innerText(), idle, `${what}: Escape lets go`);
}

async function pointing(tests, page, what) {
  const row = page.locator('tr[data-point]').first();
  const n = await row.getAttribute('data-point');
  const why = await row.locator('td').last().textContent();
  await page.mouse.move(1, 1);
  const box = await page.locator(`#p-${n} .halo`).boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  tests.check((await row.getAttribute('class')).includes('lit'), `${what}: pointing lights the row`);
  tests.check((await page.locator('#shown').textContent()).includes(why),
              `${what}: pointing shows the reason`);
  await page.mouse.move(1, 1);
  tests.equal(await page.locator('.lit').count(), 0, `${what}: and lets go again`);
  await row.locator('td').last().hover();
  tests.check((await page.locator(`#p-${n}`).getAttribute('class')).includes('lit'),
              `${what}: a row lights its mark`);
}

// Without scripts: every reason is there, and the links lead from plan to table and back.
async function withoutScripts(tests, setup, file, what) {
  const page = await tests.open(file, {javaScriptEnabled: false,
                                       viewport: {width: 1280, height: 860}});
  const flat = (text) => text.replace(/\s+/g, ' ');
  const text = flat(await page.locator('body').innerText());
  const checked = JSON.parse(tests.run('check', setup, '--format', 'json'));
  const rows = await page.locator('tr[data-point]').count();
  tests.equal(rows, checked.points.length, `${what}: a row for each point`);
  for (const point of checked.points) {
    if (point.name.startsWith('grid ')) {
      tests.check(text.includes(point.name), `${what}: ${point.name} is there without scripts`);
    }
    const numbers = point.probe.map((value) => String(Math.round(value * 1e3) / 1e3)).join(', ');
    tests.check(text.includes(numbers), `${what}: ${numbers} is there without scripts`);
  }
  for (const format of ['explain', 'fit']) {
    const lines = tests.run(format, setup).split('\n\n');
    for (const paragraph of lines.map(flat).filter((line) => /^[A-Z][^:]*\.$/.test(line.trim()))) {
      tests.check(text.includes(paragraph.trim()), `${what}: says "${paragraph.slice(0, 60)}"`);
    }
  }
  const mark = page.locator('a.point').first();
  const href = await mark.getAttribute('href');
  const plain = await page.locator('tr[data-point]').last()
      .evaluate((row) => getComputedStyle(row).backgroundColor);
  await mark.locator('.halo').click();
  tests.check(page.url().endsWith(href), `${what}: a mark leads to its row`);
  const row = page.locator(href);
  await page.mouse.move(1, 1);
  tests.check(await row.evaluate((r) => getComputedStyle(r).backgroundColor) !== plain,
              `${what}: which stands out`);
  await row.locator('a').click();
  await page.mouse.move(1, 1);
  const lit = await page.locator(`${href.replace('row', 'p')} .halo`)
      .evaluate((halo) => getComputedStyle(halo).fill);
  tests.check(lit !== 'none', `${what}: and the row back to its mark`);
  await tests.close(page, `${what} without scripts`);
}

async function layouts(tests, file, what) {
  const page = await tests.open(file);
  for (const width of [360, 800, 1280]) {
    await page.setViewportSize({width, height: 740});
    const [wide, there] = await page.evaluate(
        () => [document.documentElement.scrollWidth, window.innerWidth]);
    tests.check(wide <= there, `${what}: ${wide} px wide in ${width}`);
    for (const colorScheme of width === 800 ? [] : ['light', 'dark']) {
      await page.emulateMedia({colorScheme});
      const worst = await page.evaluate(worstContrast);
      tests.check(worst.texts > 20 && worst.ratio >= 4.5,
                  `${what}, ${colorScheme}: contrast ${worst.ratio} of "${worst.text}"`);
      const dark = await page.evaluate(
          () => getComputedStyle(document.body).backgroundColor.match(/\d+/g)[0] < 128);
      tests.equal(dark, colorScheme === 'dark', `${what}: the ground is dark`);
    }
  }
  await tests.close(page, `${what} at any width`);
}

// From a server: one request, not even for an icon.
async function served(tests, file) {
  const asked = [];
  const server = http.createServer((request, response) => {
    asked.push(request.url);
    response.setHeader('content-type', 'text/html');
    response.end(fs.readFileSync(file));
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const page = await tests.open(`http://127.0.0.1:${server.address().port}/report`);
  await page.waitForTimeout(300);
  await tests.close(page, 'a report from a server');
  server.close();
  tests.equal(asked.join(' '), '/report', 'asked of the server');
}

async function printed(tests, file, name, words) {
  const pdf = await tests.print(file, name);
  const info = tests.tool('pdfinfo', pdf);
  const [, wide, high] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(info).map(Number);
  tests.check(Math.abs(wide * 25.4 / 72 - 210) < 0.3 && Math.abs(high * 25.4 / 72 - 297) < 0.3,
              `${name}: A4, not ${wide} x ${high} pt`);
  const text = tests.tool('pdftotext', '-layout', pdf, '-').replace(/\s+/g, ' ');
  for (const word of words) tests.check(text.includes(word), `${name}: prints "${word}"`);
  tests.check(!text.includes('Skip the plan'), `${name}: prints no link for keyboards`);
}

async function report(tests) {
  const hostile = 'tests/web/files/hostile.json';
  const godwit = 'examples/godwit-side-bracket.json';
  const wicked = tests.draw(hostile, 'hostile.html');
  const side = tests.draw(godwit, 'side.html');

  for (const [file, what] of [[wicked, 'hostile'], [side, 'side bracket']]) {
    const page = await tests.open(file, {viewport: {width: 1280, height: 860}});
    tests.equal(await page.evaluate(intruders), '', `${what} let in`);
    await keyboard(tests, page, what);
    await pointing(tests, page, what);
    tests.equal(await page.evaluate(intruders), '', `${what} let in, later`);
    await tests.close(page, what);
    await layouts(tests, file, what);
  }
  await withoutScripts(tests, godwit, side, 'side bracket');
  await withoutScripts(tests, hostile, wicked, 'hostile');
  await served(tests, side);
  await printed(tests, side, 'side.pdf', ['Godwit, side bracket', 'grid 5,5', 'front left screw',
                                          'The numbers to enter', 'keep fingers out']);
  for (const name of ['plover-round', 'curlew-clips', 'dunlin-contact-pin', 'godwit-all-well']) {
    await layouts(tests, tests.draw(`examples/${name}.json`, `${name}.html`), name);
  }
}

module.exports = {report};
