// Everything about pages, in one browser.
//
//   node all.cjs REPOSITORY FOLDER_WITH_NODE_MODULES LEEWAY CHROMIUM [PAGE]

'use strict';

const path = require('node:path');
const {Tests} = require('./browser.cjs');
const {page} = require('./page.cjs');
const {plans} = require('./plans.cjs');
const {report} = require('./report.cjs');
const {trueSize} = require('./true_size.cjs');

const [root, folder, leeway] = process.argv.slice(2, 5).map((word) => path.resolve(word));

(async () => {
  const tests = new Tests(root, folder, leeway);
  await tests.start(process.argv[5]);
  try {
    await report(tests);
    tests.lap("report");
    await plans(tests);
    tests.lap("plans");
    await trueSize(tests);
    tests.lap("paper");
    if (process.argv[6]) await page(tests, path.resolve(process.argv[6]));
  } finally {
    await tests.browser.close();
  }
  console.log(`${tests.looked} things looked at, ${tests.failed} wrong`);
  process.exitCode = tests.failed === 0 && tests.looked > 100 ? 0 : 1;
})();
