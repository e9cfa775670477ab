// The newcomer's story in Firefox, over WebDriver BiDi: the page from a file, numbers typed, a side dragged.
//
//   node firefox.cjs FOLDER_WITH_NODE_MODULES PAGE FIREFOX

'use strict';

const {createRequire} = require('node:module');
const path = require('node:path');
const {pathToFileURL} = require('node:url');

const [folder, file, executablePath] = process.argv.slice(2);

const kNumbers = {
  'The bed: width': '233', 'The bed: depth': '207', 'The travel: left end': '-5', 'The travel: right end': '239',
  'The travel: front end': '-2', 'The travel: back end': '211', 'The offset: x': '-38,5', 'The offset: y': '12',
  'The grid: columns': '5', 'The grid: rows': '5', 'The margins: all round': '20',
};

function holds(what, is) {
  if (is) return;
  console.error('wrong: ' + what);
  process.exitCode = 1;
}

const headline = (page) => page.$eval('.verdict h1', (element) => element.textContent);

async function story(page) {
  await page.goto(pathToFileURL(path.resolve(file)).href);
  await page.waitForSelector('.examples button');
  for (const [label, text] of Object.entries(kNumbers)) {
    await (await page.waitForSelector(`[aria-label="${label}"]`)).type(text);
  }
  await page.keyboard.press('Enter');
  await page.waitForSelector('.verdict h1');
  holds('20 of 25 points', (await headline(page)).includes('20 of 25 points reachable'));
  const box = await (await page.waitForSelector('[data-grip=right] .knob')).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 40, y, {steps: 5});
  await page.mouse.up();
  await page.waitForSelector('[aria-label="Undo: right side of the grid"]');
  await page.waitForFunction(() => document.querySelector('.verdict h1').textContent.includes('all 25 points are reachable'));
  await page.click('#tab-take');
  await page.waitForSelector('.numbers .value');
  holds('numbers to enter', (await page.$$('.numbers .value')).length > 10);
}

(async () => {
  const entry = createRequire(path.resolve(folder, 'package.json')).resolve('puppeteer-core');
  const {default: puppeteer} = await import(pathToFileURL(entry).href);
  const browser = await puppeteer.launch({browser: 'firefox', executablePath, headless: true});
  try {
    const page = await browser.newPage();
    const seen = [];
    page.on('pageerror', (error) => seen.push(error.message));
    page.on('request', (request) => { if (!/^(file|blob|data):/.test(request.url())) seen.push(request.url()); });
    await page.setViewport({width: 1280, height: 900});
    await story(page);
    holds('it did what it must not: ' + seen.join('; '), seen.length === 0);
  } finally {
    await browser.close();
  }
  if (!process.exitCode) console.log('firefox: the story holds');
})();
