// What the tests of pages share: the browser, the program, and counting what was looked at.

'use strict';

const {execFileSync, spawnSync} = require('node:child_process');
const fs = require('node:fs');
const {createRequire} = require('node:module');
const path = require('node:path');
const {pathToFileURL} = require('node:url');

class Tests {
  constructor(root, folder, leeway) {
    this.root = root;
    this.folder = folder;
    this.leeway = leeway;
    this.work = path.join(folder, 'pages');
    this.looked = 0;
    this.failed = 0;
    this.begun = Date.now();
    fs.rmSync(this.work, {recursive: true, force: true});
    fs.mkdirSync(this.work, {recursive: true});
  }

  async start(executable) {
    const {chromium} = createRequire(path.join(this.folder, 'package.json'))('playwright-core');
    this.browser = await chromium.launch({executablePath: executable});
  }

  // Says how long the part took that ends here; nothing depends on it.
  lap(part) {
    const now = Date.now();
    console.log(`${part}: ${((now - (this.begun || this.lapped)) / 1000).toFixed(1)} s`);
    this.begun = undefined;
    this.lapped = now;
  }

  check(holds, what) {
    this.looked += 1;
    if (holds) return;
    this.failed += 1;
    console.error('wrong: ' + what);
  }

  equal(found, wanted, what) {
    this.check(found === wanted, `${what}: ${JSON.stringify(found)}, not ${JSON.stringify(wanted)}`);
  }

  // Runs leeway; statuses 0 and 1 are fine. Returns what it printed.
  run(...words) {
    const ran = spawnSync(this.leeway, words, {cwd: this.root, encoding: 'utf8'});
    if (ran.status !== 0 && ran.status !== 1) {
      throw new Error(`leeway ${words.join(' ')}: ${ran.stderr}`);
    }
    return ran.stdout;
  }

  // Draws a setup into a file of that name; returns its path.
  draw(setup, name, ...options) {
    const file = path.join(this.work, name);
    this.run('draw', setup, '--output', file, ...options);
    return file;
  }

  // Opens a page and watches what it does: `page.seen` lists whatever no page of ours may do. What
  // `own` matches it may ask for: it is within the page.
  async open(file, {own, hash = '', ...options} = {}) {
    const context = await this.browser.newContext(options);
    const page = await context.newPage();
    const url = file.startsWith('http') ? file : pathToFileURL(file).href;
    page.seen = [];
    const note = (kind) => (what) => page.seen.push(`${kind}: ${String(what).slice(0, 300)}`);
    page.on('console', (message) => note('console')(message.text()));
    page.on('pageerror', note('error'));
    page.on('dialog', (dialog) => { note('dialog')(dialog.message()); dialog.dismiss(); });
    page.on('popup', () => note('popup')(''));
    page.on('request', (request) => {
      if (request.url().split('#')[0] !== url && request.url() !== 'data:,' && !own?.test(request.url())) note('request')(request.url());
    });
    page.on('framenavigated', (frame) => {
      if (frame.url().split('#')[0] !== url) note('went to')(frame.url());
    });
    await page.goto(url + hash);
    return page;
  }

  async close(page, what) {
    this.equal(page.seen.join('; '), '', `${what} did what it must not`);
    await page.context().close();
  }

  // Prints a page into a PDF as the page asks for it.
  async print(file, name) {
    const page = await this.open(file);
    const pdf = path.join(this.work, name);
    await page.pdf({path: pdf, preferCSSPageSize: true, printBackground: true});
    await this.close(page, `${name}, printed,`);
    return pdf;
  }

  tool(program, ...words) {
    return execFileSync(program, words, {encoding: 'utf8', maxBuffer: 1 << 28});
  }
}

module.exports = {Tests};
