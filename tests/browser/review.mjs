// The review's page in a real browser: axe-core finds nothing, a click sorts, words and reasons filter, and without its
// script the table is still there.
//
// usage: NODE_PATH=FOLDER/node_modules node tests/browser/review.mjs PAGE.html   (npm: playwright-core axe-core; Debian: chromium)
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';

const need = createRequire(join(process.env.NODE_PATH ?? process.cwd(), 'x.js'));
const { chromium } = need('playwright-core');
const axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');
const address = pathToFileURL(process.argv[2]).href;
let failed = 0, passed = 0;
const expect = (holds, words) => { if (holds) ++passed; else { ++failed; console.log('FAIL', words); } };

const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
const page = await browser.newPage({ offline: true });
const complaints = [];
page.on('console', line => line.type() === 'error' && complaints.push(line.text()));
page.on('pageerror', error => complaints.push(String(error)));
await page.goto(address);

const column = async n => page.$$eval('tbody tr:not([hidden])', (rows, at) =>
  rows.map(row => row.cells[at].dataset.key ?? row.cells[at].textContent.trim()), n);
const total = (await column(1)).length;
expect(total > 1, 'the page has rows');

await page.addScriptTag({ content: axe });
const found = await page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }));
expect(found.violations.length === 0, 'axe-core: ' + JSON.stringify(found.violations.map(v => [v.id, v.nodes.length])));

for (const [title, at] of [['Case', 1], ['Closing', 4], ['Errors', 7]]) {
  const button = page.getByRole('button', { name: title, exact: true });
  const order = (a, b) => a.localeCompare(b, 'en', { numeric: true });
  await button.click();
  const up = await column(at);
  expect(JSON.stringify(up) === JSON.stringify([...up].sort(order)), title + ' rises: ' + up);
  expect(await button.locator('xpath=..').getAttribute('aria-sort') === 'ascending', title + ' says that it rises');
  await button.press('Enter');
  const down = await column(at);
  expect(JSON.stringify(down) === JSON.stringify([...down].sort(order).reverse()), title + ' falls: ' + down);
}

await page.getByLabel('Show rows that hold').fill('heron');
expect((await column(1)).length === 1, 'words filter');
expect((await page.getByRole('status').textContent()) === `1 of ${total} cases shown`, 'the number of rows is told');
await page.getByLabel('Show rows that hold').fill('');
await page.getByLabel('that ask for attention').selectOption('not ready');
const states = await column(0);
expect(states.length > 0 && states.length < total && states.every(s => s.includes('not ready')), 'reasons filter: ' + states);
expect(complaints.length === 0, 'the browser complains: ' + complaints);

const plain = await browser.newPage({ javaScriptEnabled: false, offline: true });
await plain.goto(address);
expect(await plain.locator('tbody tr').count() === total, 'without script the rows are there');
await browser.close();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
