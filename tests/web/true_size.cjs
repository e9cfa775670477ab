// Paper at true size, measured: printed into a PDF, which becomes pixels, which are counted.

'use strict';

const fs = require('node:fs');

const DPI = 250;
const px = (mm) => mm * DPI / 25.4;
const mm = (pixels) => pixels * 25.4 / DPI;

// The pages of a PDF as grey pixels.
function pages(tests, pdf) {
  const stem = pdf.replace(/\.pdf$/, '');
  tests.tool('pdftoppm', '-r', String(DPI), '-gray', pdf, stem);
  const folder = fs.readdirSync(tests.work);
  const own = folder.filter((f) => tests.work + '/' + f.replace(/-\d+\.pgm$/, '') === stem &&
                                   f.endsWith('.pgm'));
  return own.sort().map((file) => {
    const bytes = fs.readFileSync(`${tests.work}/${file}`);
    fs.rmSync(`${tests.work}/${file}`);
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
    const [width, height] = [Number(head[1]), Number(head[2])];
    const data = bytes.subarray(head[0].length);
    return {width, height, dark: (x, y) => data[Math.round(y) * width + Math.round(x)] < 128};
  });
}

// The middles of dark runs of `at` from one pixel to another, and how long they are.
function runs(at, from, to) {
  const found = [];
  let begin = -1;
  for (let i = Math.round(from); i <= to + 1; ++i) {
    const dark = i <= to && at(i);
    if (dark && begin < 0) begin = i;
    if (!dark && begin >= 0) {
      found.push({middle: (begin + i - 1) / 2, length: i - begin});
      begin = -1;
    }
  }
  return found;
}

// The two lines of 100 mm: by their ticks, a little beside the line itself.
function checkLines(tests, page, width, height, what) {
  const y = px(height - 15);
  const across = runs((x) => page.dark(x, y - px(1.5)), px(5), px(116));
  tests.equal(across.length, 2, `${what}: ticks of the line across`);
  const down = px(width - 13);
  const along = runs((at) => page.dark(down - px(1.5), at), px(13.4), px(115));
  tests.equal(along.length, 2, `${what}: ticks of the line along`);
  if (across.length !== 2 || along.length !== 2) return;
  for (const [ticks, which] of [[across, 'across'], [along, 'along']]) {
    const length = mm(ticks[1].middle - ticks[0].middle);
    tests.check(Math.abs(length - 100) < 0.2, `${what}: the line ${which} measures ${length} mm`);
    tests.measured.push(length);
  }
  let inked = 0;
  for (let x = across[0].middle; x <= across[1].middle; ++x) inked += page.dark(x, y) ? 1 : 0;
  tests.check(inked > px(99), `${what}: the line is whole`);
}

// Printers leave a rim white: nothing is in it.
function rimIsWhite(tests, page, what) {
  let inked = 0;
  const rim = Math.floor(px(9.5));
  for (let y = 0; y < page.height; ++y) {
    const inside = y >= rim && y < page.height - rim;
    for (let x = 0; x < page.width; ++x) {
      if (inside && x === rim) x = page.width - rim;
      inked += page.dark(x, y) ? 1 : 0;
    }
  }
  tests.equal(inked, 0, `${what}: dark pixels in the rim`);
}

// In the page: for each sheet where the plan and the crosses are, in mm of the sheet.
function sheetsOf() {
  return [...document.querySelectorAll('svg.sheet')].map((svg) => ({
    plan: ['x', 'y'].map((name) => Number(svg.querySelector('g[clip-path="url(#window)"] > use').getAttribute(name))),
    crosses: [...svg.querySelectorAll('.cross')].map(
        (cross) => /M([-\d.]+) ([-\d.]+)/.exec(cross.getAttribute('d')).slice(1).map(Number)),
    scale: ['width', 'height'].map((name) => parseFloat(svg.getAttribute(name)) /
                                             svg.viewBox.baseVal[name]),
    unit: svg.getAttribute('width').replace(/[\d.]+/, ''),
    says: svg.textContent,
  }));
}

// The same spot of the bed on two sheets at least, and ink where it should be.
function crosses(tests, sheets, images, what) {
  const seen = new Map();
  sheets.forEach((sheet, i) => {
    for (const [left, y] of sheet.crosses) {
      const x = left + 5;
      const spot = [x - sheet.plan[0], y - sheet.plan[1]].map((v) => Math.round(v * 20)).join(' ');
      seen.set(spot, (seen.get(spot) || 0) + 1);
      const inked = [-4, -3.5, 3.5, 4].every(
          (d) => runs((at) => images[i].dark(px(x + d), at), px(y - 0.5), px(y + 0.5)).length > 0);
      tests.check(inked, `${what}: sheet ${i + 1} has a cross at ${x}, ${y}`);
    }
  });
  if (sheets.length > 1) tests.check(seen.size >= 2, `${what}: there are crosses`);
  for (const [spot, count] of seen) tests.check(count >= 2, `${what}: ${spot} is on one sheet only`);
}

async function paper(tests, setup, name, options, size, count) {
  const file = tests.draw(setup, `${name}.html`, '--true-size', ...options);
  const page = await tests.open(file);
  const sheets = await page.evaluate(sheetsOf);
  await tests.close(page, name);
  tests.equal(sheets.length, count, `${name}: sheets`);
  sheets.forEach((sheet, i) => {
    tests.check(sheet.scale.every((s) => Math.abs(s - 1) < 1e-6) && sheet.unit === 'mm',
                `${name}: a unit is a mm`);
    if (count > 1) {
      tests.check(sheet.says.includes(`Sheet ${i + 1} of ${count}`), `${name}: sheet ${i + 1} says so`);
    }
  });
  const pdf = await tests.print(file, `${name}.pdf`);
  const info = tests.tool('pdfinfo', '-f', '1', '-l', String(count), pdf);
  const sizes = [...info.matchAll(/Page\s+\d+ size:\s+([\d.]+) x ([\d.]+)/g)];
  tests.equal(Number(/Pages:\s+(\d+)/.exec(info)[1]), count, `${name}: pages`);
  for (const found of sizes) {
    // Chromium rounds a page up to whole pixels of 1/96 inch.
    const [w, h] = [found[1], found[2]].map((pt) => Number(pt) * 25.4 / 72);
    tests.check(Math.abs(w - size[0]) < 0.3 && Math.abs(h - size[1]) < 0.3,
                `${name}: ${w} x ${h} mm, not ${size}`);
  }
  const images = pages(tests, pdf);
  tests.equal(images.length, count, `${name}: pages as pixels`);
  images.forEach((image, i) => {
    checkLines(tests, image, size[0], size[1], `${name}, sheet ${i + 1}`);
    rimIsWhite(tests, image, `${name}, sheet ${i + 1}`);
  });
  crosses(tests, sheets, images, name);
  return {images, sheets};
}

// The bed itself, between the middles of its edges: they alone are 0.4 mm wide.
function bedIs(tests, page, wide, along, what) {
  const edges = runs((x) => page.dark(x, along), px(10), page.width - px(20))
      .filter((run) => run.length > px(0.3));
  const measured = mm(edges[edges.length - 1].middle - edges[0].middle);
  tests.check(Math.abs(measured - wide) < 0.2, `${what}: the bed is ${measured} mm wide`);
  tests.measured.push(measured * 100 / wide);
}

async function aloneAsSvg(tests, setup) {
  const file = tests.draw(setup, 'alone.svg', '--true-size');
  const text = fs.readFileSync(file, 'utf8');
  const [, w, h, vw, vh] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"/
      .exec(text);
  tests.check(w === vw && h === vh, `alone: ${w} x ${h} mm in units of ${vw} x ${vh}`);
  const page = await tests.open(file);
  const [wide, lone] = await page.evaluate(() => [
    document.documentElement.getBoundingClientRect().width,
    document.getElementById('plan') !== null]);
  tests.check(lone, 'alone: holds its drawing');
  // CSS Values 3, 6.2: 96 px are an inch of 25.4 mm.
  tests.check(Math.abs(wide - Number(w) * 96 / 25.4) < 0.1, `alone: ${wide} px wide`);
  await tests.close(page, 'alone');
}

async function trueSize(tests) {
  tests.measured = [];
  const godwit = 'examples/godwit-side-bracket.json';
  await paper(tests, godwit, 'godwit-a4', [], [297, 210], 2);
  await paper(tests, 'examples/curlew-clips.json', 'curlew-letter', ['--paper', 'letter'],
              [279.4, 215.9], 4);
  await paper(tests, 'tests/web/files/hostile.json', 'hostile-a3', ['--paper', 'A3'], [420, 297], 1);
  const {images} = await paper(tests, godwit, 'godwit-bed', ['--paper', 'bed'], [277, 271], 1);
  bedIs(tests, images[0], 233, px(10 + 8 + 207 - 30), 'godwit-bed');
  await aloneAsSvg(tests, godwit);
  const worst = Math.max(...tests.measured.map((length) => Math.abs(length - 100)));
  console.log(`${tests.measured.length} lengths of 100 mm measured, at worst ${worst.toFixed(3)} off`);
}

module.exports = {trueSize};
