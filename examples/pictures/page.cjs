// Makes the pictures of the page anew.
//
//   node page.cjs LEEWAY.HTML FOLDER-WITH-NODE-MODULES [CHROMIUM]
//
// FOLDER is one in which tests/web/run.sh installed playwright-core.
'use strict';

const {createRequire} = require('node:module');
const path = require('node:path');
const {pathToFileURL} = require('node:url');

const [file, folder, executablePath = '/usr/bin/chromium'] = process.argv.slice(2);
const {chromium} = createRequire(path.resolve(folder, 'package.json'))('playwright-core');

async function opened(browser, [width, height], colorScheme, example) {
  const page = await browser.newPage({viewport: {width, height}, colorScheme});
  await page.goto(pathToFileURL(path.resolve(file)).href);
  await page.locator('.examples button').first().waitFor();
  if (example) {
    await page.locator('.examples button', {hasText: example}).click();
    await page.locator('.desk .picture svg').waitFor();
    await page.mouse.move(2, 2);
    await page.waitForTimeout(500);
  }
  return page;
}

const kGodwit = 'Godwit, side bracket';
const kPictures = [
  ['page', [1440, 1000], 'light', kGodwit, (page) => page.getByRole('button', {name: /^grid 5,1/}).click()],
  ['page-start', [1280, 900], 'light', undefined, async (page) => {
    await page.getByLabel('The offset: x').fill('-38.5');
    await page.getByLabel('The offset: y').fill('12');
  }],
  ['page-window', [1440, 1000], 'light', kGodwit, async (page) => {
    await page.getByRole('button', {name: 'Where the probe may sit'}).click();
    await page.locator('svg.window image').waitFor({state: 'attached'});
    await page.getByRole('tab', {name: 'Mend'}).click();
    await page.locator('.card').first().waitFor();
  }],
  ['page-dark', [1440, 1000], 'dark', 'Curlew', async (page) => {
    await page.getByRole('tab', {name: 'Take away'}).click();
    await page.locator('.numbers').first().waitFor();
  }],
  ['page-tablet', [768, 1024], 'light', 'Plover', async () => {}],
  ['page-narrow', [320, 800], 'dark', undefined, async () => {}],
];

(async () => {
  const browser = await chromium.launch({executablePath});
  for (const [name, size, scheme, example, prepare] of kPictures) {
    const page = await opened(browser, size, scheme, example);
    await prepare(page);
    await page.waitForTimeout(400);
    await page.screenshot({path: path.join(__dirname, `${name}.png`)});
    await page.close();
  }
  await browser.close();
})();
