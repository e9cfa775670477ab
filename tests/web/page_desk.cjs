// Stories of the desk: what is dragged, typed, measured and compared.

'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {accessible, copied, drag, holds, shows, started, value} = require('./page_kit.cjs');

// A picture that was changed piece by piece is the one that a page draws that opens the same setup.
async function samePicture(tests, page) {
  await page.getByRole('button', {name: 'Copy link'}).click();
  await page.getByText('Copied: the link').waitFor();
  await page.mouse.move(2, 2);
  const anew = await tests.open(tests.page, {hash: '#' + (await copied(page)).split('#')[1], viewport: {width: 1280, height: 900}, own: /^(blob|data):/});
  await anew.waitForSelector('.verdict h1');
  // But for blanks between elements.
  const picture = (one) => one.evaluate(() => document.querySelector('.picture').innerHTML.replace(/>\s+</g, '><'));
  let [whole, mine] = ['', ''];
  for (let i = 0; i < 50 && (whole === '' || whole !== mine); ++i) {  // until both are at rest
    await page.waitForTimeout(100);
    [whole, mine] = [await picture(anew), await picture(page)];
  }
  tests.check(whole.length > 10000, 'a picture');
  const at = [...whole].findIndex((letter, i) => letter !== mine[i]);
  tests.equal(at < 0 ? '' : mine.slice(at - 60, at + 60), at < 0 ? '' : whole.slice(at - 60, at + 60), 'the picture after many changes');
  await tests.close(anew, 'the same picture');
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
  await samePicture(tests, page);
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

// A clip is added and dragged; readings become the offset; a template is filled.
async function clipsAndReadings(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, side bracket/}).click();
  await page.getByRole('tab', {name: 'Machine'}).click();
  await page.getByRole('button', {name: 'Add a clip'}).click();
  await page.getByRole('button', {name: 'Take clip 2 away'}).waitFor();
  await accessible(tests, page, 'clips');
  await page.locator('[data-grip=obstacle-1]').focus();
  await page.keyboard.press('Shift+ArrowUp');
  await holds(tests, page, 'clip 2, front side', '1', 'a clip moves by arrows');
  await page.getByRole('button', {name: 'Take clip 2 away'}).click();
  await page.getByRole('button', {name: 'Take clip 2 away'}).waitFor({state: 'detached'});
  await page.getByRole('button', {name: 'Add a part of the head'}).click();
  await page.getByLabel('part 2, underside', {exact: true}).fill('4');
  await page.keyboard.press('Enter');
  await page.getByLabel('Travel, right side', {exact: true}).fill('10 in');
  await page.keyboard.press('Enter');
  await holds(tests, page, 'Travel, right side', '254', 'the travel is typed, in inches too');
  await page.getByLabel('Probe, radius of the spot that it senses').fill('5');
  await page.keyboard.press('Enter');
  await page.getByRole('button', {name: 'Undo: spot'}).waitFor();
  await accessible(tests, page, 'the machine');
  for (const did of ['spot', 'travel', 'part 2', 'a part more']) await page.getByRole('button', {name: 'Undo: ' + did}).click();
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
  // What check would not pass is filled only if one says so.
  await page.locator('.template textarea').fill('of {{setup}}.');
  const filled = page.locator('#panel-take pre', {hasText: /^of Godwit, side bracket\.$/});
  await page.locator('.unsafe .fault').waitFor();
  tests.equal(await filled.count(), 0, 'nothing is filled with numbers that fail');
  await page.getByLabel('Fill it all the same').check();
  await filled.waitFor();
  await page.getByLabel('Look for a grid that fits').check();
  await page.locator('.unsafe').waitFor({state: 'detached'});
  await accessible(tests, page, 'a template filled');
  await page.getByLabel('Look for a grid that fits').uncheck();
  await page.getByRole('button', {name: 'Show this grid on the plan'}).click();
  await shows(tests, page, 'all 27 points are reachable');
  await page.getByText('Of the grid as it stands').waitFor();
  tests.equal(await page.locator('.numbers .value').first().textContent(), await value(page, 'Grid, left side'),
              "one's own numbers, once they pass");
  await page.locator('.unsafe').waitFor({state: 'detached'});
  await filled.waitFor();
  await page.locator('.template textarea').fill('{{nobody}}');
  await page.locator('#panel-take .fault', {hasText: 'nobody'}).waitFor();
  await tests.close(page, 'clips and readings');
}

// Before and after, another bracket, another setup: side by side, laid over one another, with what differs.
async function comparing(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, side bracket/}).click();
  await page.getByRole('tab', {name: 'Compare'}).click();
  await page.getByRole('button', {name: 'Keep this one to compare with'}).click();
  await page.getByText('Nothing differs').waitFor();
  await page.locator('[data-grip=offset]').focus();
  await page.keyboard.press('Shift+ArrowRight');
  await page.locator('.differs tr', {hasText: 'offset'}).filter({hasText: '-37.5, 12'}).filter({hasText: '-38.5, 12'}).waitFor();
  tests.equal(await page.locator('.frames svg.leeway-plan').count(), 2, 'two plans');
  await accessible(tests, page, 'two plans side by side');
  const again = await page.evaluate(() => {
    const all = [...document.querySelectorAll('[id]')].map((element) => element.id);
    return all.filter((id, i) => all.indexOf(id) !== i).join();
  });
  tests.equal(again, '', 'no id twice');
  await page.getByRole('button', {name: 'Stop comparing'}).click();
  await page.getByLabel('Other offset x').fill('-20');
  await page.getByLabel('Other offset y').fill('nowhere');
  await page.getByRole('button', {name: 'Compare this offset'}).click();
  await page.locator('#panel-compare .fault').waitFor();
  await page.getByLabel('Other offset y').fill('0');
  await page.keyboard.press('Enter');
  await page.getByLabel('laid over one another').check();
  await page.locator('.ghost svg').waitFor({state: 'attached'});
  await accessible(tests, page, 'two plans laid over one another');
  await page.getByText('One offset that would do for both').click();
  await page.locator('#panel-compare pre').waitFor();
  await page.getByRole('button', {name: 'Change places'}).click();
  await holds(tests, page, 'Offset x', '-20', 'the other is worked on');
  await page.locator('.differs tr', {hasText: 'offset'}).filter({hasText: '-37.5, 12'}).waitFor();
  await page.getByRole('button', {name: 'Stop comparing'}).click();
  tests.equal(await page.locator('.frames svg.leeway-plan').count(), 1, 'one plan again');
  await tests.close(page, 'comparing');
}

// Several grids in a table, as the command compares them; a click takes one.
async function grids(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, side bracket/}).click();
  await page.getByRole('button', {name: 'What would help'}).click();
  await page.getByLabel('Columns to compare').fill('many');
  await page.getByRole('button', {name: 'Compare grids'}).click();
  await page.locator('#panel-mend .fault').waitFor();
  await page.getByLabel('Columns to compare').fill('4..6');
  await page.getByLabel('Rows to compare').fill('4..6');
  await page.keyboard.press('Enter');
  await page.locator('.grids tbody tr').first().waitFor();
  tests.equal(await page.locator('.grids tbody tr').count(), 9, 'nine grids');
  await accessible(tests, page, 'grids side by side');
  const printed = tests.run('fit', 'examples/godwit-side-bracket.json', '--columns', '4..6', '--rows', '4..6').replace(/\s+/g, ' ');
  for (const row of await page.locator('.grids tbody tr').all()) {
    const cells = await row.locator('th, td').allTextContents();
    tests.check(printed.includes(cells.slice(0, 3).join(' ')), `the command has the row ${cells.join(' ')}`);
  }
  const button = page.locator('.grids button').last();
  const [columns, rows] = (await button.textContent()).split(' x ');
  await button.click();
  await holds(tests, page, 'Columns of the grid', columns, 'the columns of the grid taken');
  await holds(tests, page, 'Rows of the grid', rows, 'its rows');
  await shows(tests, page, /all \d+ points are reachable/);
  tests.equal(await page.locator('.grids tbody tr').count(), 9, 'the table stays');
  await tests.close(page, 'grids side by side');
}

// What was seen at the machine, and what its controller did, changes what is likely; each a step back.
async function evidence(tests) {
  const page = await started(tests);
  await page.getByRole('button', {name: /^Godwit, margins for the nozzle/}).click();
  await page.getByRole('tab', {name: 'Mend'}).click();
  const question = page.getByRole('group', {name: 'The next thing to find out'});
  await question.waitFor({timeout: 20000});
  const asked = (await question.locator('p').textContent()).trim();
  const mistakes = async () => {
    await page.getByRole('heading', {name: 'What works'}).waitFor({timeout: 20000});
    const told = (await page.locator('#panel-mend .card h3, #panel-mend .card p, .too-much').allTextContents()).join('|');
    return told.replace(/then [^|]* reachable/g, '');  // what a card would do is added when it is known
  };
  const before = await mistakes();
  const printed = tests.run('explain', 'examples/godwit-nozzle-margins.json').replace(/\s+/g, ' ');
  tests.check(printed.includes(asked), `the command asks it too: ${asked}`);
  await accessible(tests, page, 'a question about the machine');
  const answer = question.getByRole('button').first();
  const said = await answer.textContent();
  await answer.focus();
  await page.keyboard.press('Enter');
  await page.locator('.known li', {hasText: asked}).filter({hasText: said}).waitFor();
  tests.equal(await page.evaluate(() => document.activeElement.getAttribute('aria-labelledby')), 'known', 'the focus stays where the answer was');
  tests.check(await mistakes() !== before, 'the answer changes what is likely');
  tests.equal(await question.filter({hasText: asked}).count(), 0, 'it is not asked again');
  await page.getByLabel('What did the controller do').selectOption('grid 1,1');
  await page.getByRole('button', {name: 'It accepted'}).click();
  await page.locator('.known li', {hasText: 'grid 1,1: accepted'}).waitFor();
  await mistakes();
  await page.getByRole('button', {name: 'It refused'}).click();
  await page.locator('.known li', {hasText: 'grid 1,1: refused'}).waitFor();
  tests.equal(await page.locator('.known li').count(), 2, 'one thing known of a point');
  await mistakes();
  await accessible(tests, page, 'what is known of the machine');
  await page.keyboard.press('Control+z');
  await page.locator('.known li', {hasText: 'grid 1,1: accepted'}).waitFor();
  await page.getByRole('button', {name: 'Take back: grid 1,1'}).click();
  await page.locator('.known li', {hasText: 'grid 1,1'}).waitFor({state: 'detached'});
  for (let i = 0; i < 3; ++i) await page.keyboard.press('Control+z');
  await page.locator('.known').waitFor({state: 'detached'});
  tests.equal(await mistakes(), before, 'without it all is as before');
  await tests.close(page, 'evidence');
}

module.exports = {deskStories: [evidence, designer, clipsAndReadings, grids, comparing]};
