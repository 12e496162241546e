// For everybody: by keyboard, to a screen reader, in light and dark, on a phone, a panel and a desktop, on paper; and for
// nobody else: no name becomes markup, nothing acts without the token.

import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';

import {Bench, EIGHT, TWIN, until} from './bench.mjs';
import {axeFinds, launch, open, shows, SIZES, text} from './browser.mjs';

const HOSTILE = `<img src=x onerror=window.pwned=1>"'&</script>`;

let bench, browser;
before(async () => {
  [bench, browser] = [new Bench(), await launch()];
  await bench.start();
  await bench.engine('V8', EIGHT);
  await bench.gauges({'bore-gauge': {unit: 'in', decimals: 4, measures: 'inside'}, mic: {unit: 'in', decimals: 4, measures: 'outside'}});
  await bench.tenth('round', 'bore', '--gauge', 'bore-gauge');
  await bench.tenth('round', 'piston', '--gauge', 'mic');
  for (const value of ['4.3104', '4.3112', '43.104']) await bench.press('bore-gauge', value);
  for (const value of ['4.3048', '4.3049']) await bench.press('mic', value);
});
after(async () => {
  await browser?.close();
  await bench?.end();
});

for (const scheme of ['light', 'dark'])
  for (const [name, size] of Object.entries(SIZES))
    test(`axe finds nothing on a ${name}, ${scheme}`, async () => {
      const page = await open(browser, bench, {size, scheme});
      assert.deepEqual(await axeFinds(page), []);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'it is wider than the screen');
      const small = await page.locator('button').evaluateAll((buttons) => buttons.filter((button) => button.offsetHeight < 44 || button.offsetWidth < 44).length);
      assert.equal(small, 0, 'a button is too small for a thumb');
      await page.context().close();
    });

test('axe finds nothing where the daemon is gone', async () => {
  const page = await open(browser, bench);
  bench.daemon.kill('SIGSTOP');
  await page.locator('#stale').waitFor({state: 'visible'});
  const found = await axeFinds(page);
  bench.daemon.kill('SIGCONT');
  assert.deepEqual(found, []);
  await page.context().close();
});

test('the place can be read from four metres on a panel', async () => {
  const page = await open(browser, bench);
  // In one go: the page may put new lines in the place of those that were found.
  const sizes = await page.evaluate(() => [...document.querySelectorAll('.head, .tail')].map((line) => parseFloat(getComputedStyle(line).fontSize)));
  assert.ok(sizes.length >= 2);
  console.log(`two places side by side on 1024 x 600: letters of ${sizes.map(Math.round)} px`);
  for (const size of sizes) assert.ok(size >= 60, `${size} px`);
  await page.context().close();
});

test('colour is never alone: every state has a sign of its own and a word', async () => {
  const page = await open(browser, bench);
  const shapes = await page.locator('.legend .mark').evaluateAll((marks) => marks.map((mark) => [...mark.querySelectorAll('path')].map((path) => path.getAttribute('d')).join()));
  assert.equal(new Set(shapes).size, shapes.length);
  assert.match(await text(page, '.legend'), /not measured.*partly measured.*in.*doubtful.*suspect.*out/);
  await page.context().close();
});

test('everything that can be done is done by keyboard, and the focus stays', async () => {
  const page = await open(browser, bench);
  for (let n = 0; n < 20; ++n) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement.textContent === 'Next')) break;
  }
  const place = await text(page, '.station h2');
  await page.keyboard.press('Enter');
  await until('the next place', async () => await text(page, '.station h2') !== place);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Next');
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Space');
  await until('the place before', async () => await text(page, '.station h2') === place);
  await page.context().close();
});

test('the newest reading is told to a screen reader once', async () => {
  const page = await open(browser, bench);
  const reading = await bench.press('mic', '4.3050');
  await shows(page, reading.seq);
  await until('the words', async () => (await page.locator('#say').textContent()).startsWith('piston L2, 4.3050, in'));
  assert.equal(await page.locator('#say').getAttribute('aria-live'), 'polite');
  assert.equal(await page.locator('#shout').getAttribute('aria-live'), 'assertive');
  await page.context().close();
});

test('without the token nothing can be done, and the token is nowhere to be seen', async () => {
  const page = await open(browser, bench, {url: `${bench.origin}/`});
  assert.equal(await page.locator('button').count(), 0);
  assert.match(await text(page, '#hint'), /tenth page/);
  const status = await page.evaluate(() => fetch('/act/next', {method: 'POST', headers: {'Content-Type': 'application/json'}, body: '{}'}).then((answer) => answer.status));
  assert.equal(status, 401);
  const own = await open(browser, bench);
  assert.equal(new URL(own.url()).hash, '', 'it still stands in the address');
  assert.ok(!bench.log.includes(new URL(bench.url).hash.slice(7)), 'it stands in the log');
  await own.reload();
  await own.locator('button').first().waitFor();
  await own.context().close();
  await page.context().close();
});

test('on paper there is what was measured and nothing to press', async () => {
  const page = await open(browser, bench);
  await page.emulateMedia({media: 'print'});
  assert.equal(await page.locator('.acts:visible').count(), 0);
  assert.ok(await page.locator('svg.block').isVisible());
  assert.ok((await page.pdf({format: 'A4'})).length > 5000);
  await page.context().close();
});

test('no name becomes markup or script', async () => {
  const page = await open(browser, bench);
  await bench.tenth('operator', 'add', HOSTILE);
  await bench.tenth('operator', 'use', HOSTILE);
  await bench.engine(HOSTILE, TWIN.replace('Demo: two cylinders', HOSTILE.replace('"', '\\"')));
  await bench.tenth('gauge', 'add', HOSTILE, '--port', 'hand', '--profile', 'line', '--measures', 'outside', '--unit', 'in');
  await bench.tenth('at', 'piston', '1', '--gauge', HOSTILE);
  await bench.tenth('enter', '4.3065', '--again', '4.3065', '--gauge', HOSTILE, '--note', HOSTILE);
  await until('the name', async () => await page.locator('#engine').textContent() === HOSTILE);
  await until('the place', async () => (await page.locator('.station .about').allTextContents()).some((about) => about.includes(HOSTILE)));
  assert.equal(await page.locator('img, script:not([src])').count(), 0);
  assert.equal(await page.evaluate(() => window.pwned), undefined);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
