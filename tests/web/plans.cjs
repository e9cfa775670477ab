// Plans as a browser shows them, with the fonts that it has: no text on another, no line of a label
// through a text, each such line ends at something that is drawn; and how large their type is.

'use strict';

const fs = require('node:fs');
const path = require('node:path');

// In the page. Boxes are those of the glyphs' lines, so a little is allowed where they touch.
function faultsOfLabels() {
  const kTouch = 1.5;
  const texts = [...document.querySelectorAll('text')].map((element) => {
    const box = element.getBoundingClientRect();
    return {says: element.textContent, x0: box.left, x1: box.right, y0: box.top + kTouch, y1: box.bottom - kTouch};
  });
  const over = (a, b) => a.x0 < b.x1 - 0.5 && b.x0 < a.x1 - 0.5 && a.y0 < b.y1 && b.y0 < a.y1;
  const faults = [];
  texts.forEach((a, i) => texts.slice(i + 1).forEach((b) => {
    if (over(a, b)) faults.push(`"${a.says}" on "${b.says}"`);
  }));
  const drawn = [...document.querySelectorAll('.thing, .mark, .part, .nozzle, .ring, .probe, .spot, .leg, .leeway, .short')]
      .map((element) => element.getBoundingClientRect());
  const leads = [...document.querySelectorAll('.lead')];
  for (const lead of leads) {
    const matrix = lead.getScreenCTM();
    const at = (along) => lead.getPointAtLength(along).matrixTransform(matrix);
    const length = lead.getTotalLength();
    for (let i = 3; i <= 40; ++i) {  // it begins at its own text
      const p = at(length * i / 40);
      const hit = texts.find((t) => p.x > t.x0 && p.x < t.x1 && p.y > t.y0 && p.y < t.y1);
      if (hit) { faults.push(`a line through "${hit.says}"`); break; }
    }
    const end = at(length);
    if (!drawn.some((box) => end.x > box.left - 2 && end.x < box.right + 2 && end.y > box.top - 2 && end.y < box.bottom + 2)) {
      faults.push(`a line ends at nothing, ${Math.round(end.x)} ${Math.round(end.y)}`);
    }
  }
  return {faults, texts: texts.length, leads: leads.length};
}

// The smallest type of the report's plan, in px of the screen.
function smallestType() {
  const svg = document.querySelector('.leeway-plan');
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  return Math.min(...[...svg.querySelectorAll('text')].map((text) => parseFloat(getComputedStyle(text).fontSize) * scale));
}

async function plans(tests) {
  const folder = path.join(tests.root, 'tests/cases/ugly');
  const cases = fs.readdirSync(folder).filter((name) => name.endsWith('.json'));
  tests.check(cases.length >= 10, 'there are ugly cases');
  let leads = 0;
  for (const name of cases) {
    for (const options of [[], ['--at', 'x=20,y=20']]) {
      const what = `${name} ${options.join(' ')}`;
      const page = await tests.open(tests.draw(path.join(folder, name), 'ugly.svg', ...options));
      const found = await page.evaluate(faultsOfLabels);
      tests.equal(found.faults.join('; '), '', what);
      tests.check(found.texts > 10, `${what}: has texts`);
      leads += found.leads;
      await tests.close(page, what);
    }
  }
  tests.check(leads >= 10, `${leads} lines of labels were looked at`);
  const report = tests.draw(path.join(folder, 'thirty-obstacles.json'), 'ugly.html');
  for (const [width, least] of [[360, 9], [1280, 12]]) {
    const page = await tests.open(report, {viewport: {width, height: 900}});
    const size = await page.evaluate(smallestType);
    tests.check(size >= least - 0.01, `the report's plan at ${width}: type of ${size.toFixed(1)} px, ${least} is the least`);
    await tests.close(page, `the report at ${width}`);
  }
}

module.exports = {plans};
