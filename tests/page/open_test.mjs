// What is still open is shown as the daemon has it: parts that are away, what must be fitted first, checks that are due,
// figures that are somebody else's. And on a panel with two gauges all that matters is seen without scrolling.

import assert from 'node:assert/strict';
import {writeFileSync} from 'node:fs';
import path from 'node:path';
import {after, before, test} from 'node:test';

import {Bench, EIGHT, until} from './bench.mjs';
import {axeFinds, launch, open, shows, SIZES, text} from './browser.mjs';

const WORDS = {unread: 'not measured', part: 'partly measured', read: 'measured', in: 'in', doubtful: 'doubtful', out: 'out', suspect: 'suspect', claimed: 'claimed'};

let bench, browser, page;
before(async () => {
  [bench, browser] = [new Bench(), await launch()];
  await bench.start();
  await bench.engine('V8', EIGHT.replace('[feature.bore]\n', '[feature.bore]\nsetup = "torque plates fitted"\n'));
  await bench.gauges({'bore-gauge': {unit: 'in', decimals: 4, measures: 'inside'}, mic: {unit: 'in', decimals: 4, measures: 'outside'}});
  await claim('main_journal', ['1', '2', '3'], '2.6475');
  await bench.tenth('send', 'crankpin', '--to', 'the crank grinder', '--ask', 'grind to 2.0895');
  await bench.tenth('gauge', 'add', 'dial', '--port', 'hand', '--profile', 'line', '--reads', 'deviation', '--measures', 'gap', '--unit', 'in');
  await bench.tenth('master', 'dial', '0.0200');
  await byHand('dial', '0');
  await bench.tenth('at', 'ring_gap_top', 'L1', '--gauge', 'dial');
  await byHand('dial', '0.0010');
  await bench.tenth('at', '--common', '--gauge', 'dial');
  await bench.tenth('round', 'bore', '--gauge', 'bore-gauge');
  await bench.tenth('round', 'piston', '--gauge', 'mic');
  for (const value of ['4.3104', '4.3112', '4.3105', '43.104']) await bench.press('bore-gauge', value);
  for (const value of ['4.3048', '4.3055']) await bench.press('mic', value);
  page = await open(browser, bench);
});
after(async () => {
  await browser?.close();
  await bench?.end();
});

const byHand = (gauge, value) => bench.tenth('enter', value, '--again', value, '--gauge', gauge);

async function claim(feature, labels, value) {
  const file = path.join(bench.home, 'claims.csv');
  writeFileSync(file, `feature,index,level,value,unit\n${labels.flatMap((label) => ['front', 'rear'].map((level) => `${feature},${label},${level},${value},in\n`)).join('')}`);
  await bench.tenth('import', file, '--claimed-by', 'another shop');
}

/// What the page says of every index of every feature, whether it is drawn or stands in a row.
async function planShown() {
  const drawing = await page.locator('svg.block').getAttribute('aria-label');
  const shown = Object.fromEntries(drawing.replace(/^The block from above\. /, '').replace(/\.$/, '').split('. ').map((part) => part.split(': ')));
  for (const row of await page.locator('#plan tr').all())
    shown[await row.locator('th').innerText()] = (await row.locator('.index').evaluateAll((all) => all.map((each) => each.textContent.replace(/, $/, '')))).join(', ');
  return shown;
}

function planTold({plan, away}) {
  const words = (feature, {label, state, unconfirmed}) => [feature.indexes.length > 1 ? label : '', [
    away.some((each) => each.feature === feature.feature) ? 'away' : '', WORDS[state], unconfirmed ? 'unconfirmed' : ''].filter(Boolean).join(', ')].filter(Boolean).join(' ');
  return Object.fromEntries(plan.map((feature) => [feature.feature.replaceAll('_', ' '), feature.indexes.map((index) => words(feature, index)).join(', ')]));
}

async function openShown() {
  return page.locator('#open li').evaluateAll((items) => items.map((item) => item.textContent.trim()));
}

test('every index is shown as the daemon has it', async () => {
  const told = planTold(await bench.json('bench'));
  assert.deepEqual(await planShown(), told);
  assert.match(told['main journal'], /^1 claimed, 2 claimed, 3 claimed, 4 not measured/);
  assert.match(told.crankpin, /^1 away, not measured/);
  assert.match(told['ring gap top'], /^L1 in, unconfirmed/);
});

test('what is open is listed, each with a sign of its own and a word', async () => {
  const {away, unconfirmed} = await bench.json('check').catch((failed) => JSON.parse(failed.stdout));
  assert.deepEqual(await openShown(), [
    `AWAY crankpin: at ${away[0].to}, ${away[0].ask}`,
    'SET UP FIRST bore: torque plates fitted, then tenth setup bore yes',
    `UNCONFIRMED ${unconfirmed[0].readings} reading of ${unconfirmed[0].gauge}: tenth recheck dial`,
    'CLAIMED main journal: by another shop, not judged']);
  const signs = await page.locator('#open .mark, .legend .mark').evaluateAll((marks) => marks.map((mark) => mark.innerHTML.replace(/class="badge \w+"/, '')));
  assert.equal(new Set(signs).size, 10);
});

test('parts that are away are drawn as gone, claimed places hatched, what is unconfirmed hollow', async () => {
  assert.equal(await page.locator('svg.block .index.away').count(), 4);
  assert.equal(await page.locator('tr .badge.claimed').count(), 3);
  assert.equal(await page.locator('tr .badge.hollow').count(), 1);
  await bench.tenth('at', 'main_journal', '4', 'front', '--gauge', 'mic');
  await page.locator('svg.block .place.claimed').first().waitFor();
  assert.equal(await page.locator('svg.block .place.claimed').count(), 6);
  assert.match(await page.locator('svg.block .place.claimed').first().evaluate((place) => getComputedStyle(place).fill), /hatched/);
});

test('at its place it says what keeps a reading from counting', async () => {
  assert.equal(await text(page, '.ask'), 'SET UP FIRST torque plates fitted');
  await bench.tenth('at', 'crankpin', '2', 'front', '--gauge', 'mic');
  await until('the part that is away', async () => (await page.locator('.ask').allInnerTexts()).some((ask) => ask.includes('AWAY at the crank grinder')));
  await bench.tenth('receive', 'crankpin');
  await bench.tenth('setup', 'bore', 'yes');
  await until('nothing to be asked', async () => await page.locator('.ask').count() === 0);
  assert.deepEqual((await openShown()).map((item) => item.split(' ')[0]), ['UNCONFIRMED', 'CLAIMED']);
});

test('a round that is through is unconfirmed until its gauge is checked', async () => {
  await bench.tenth('round', 'ring_gap_top', '--gauge', 'dial');
  for (let n = 0; n < 7; ++n) await byHand('dial', '0.0010');
  await until('the end of the round', async () => (await page.locator('.station h2').allInnerTexts()).some((words) => /round.done/.test(words)));
  assert.equal(await text(page, '.station.idle .ask'), 'UNCONFIRMED until dial is checked: tenth recheck dial');
  await bench.tenth('recheck', 'dial');
  await until('the master', async () => (await text(page, '.station.idle .ask')).startsWith('MASTER'));
  await byHand('dial', '0');
  await until('the good check', async () => await page.locator('.station.idle .ask').count() === 0);
  assert.deepEqual((await openShown()).map((item) => item.split(' ')[0]), ['CLAIMED']);
  await bench.tenth('at', '--common', '--gauge', 'dial');
});

test('on a panel two places, two sizes with their limits and the worst alert need no scrolling', async () => {
  await bench.tenth('send', 'crankpin', '--to', 'the crank grinder', '--ask', 'polish');
  await bench.tenth('at', 'crankpin', '2', 'front', '--gauge', 'mic');
  await bench.press('mic', '2.0995');  // held as suspect: it is away
  for (const scheme of ['light', 'dark']) {
    const panel = await open(browser, bench, {size: SIZES.panel, scheme});
    await panel.locator('.ask').first().waitFor();
    assert.equal(await panel.locator('.station').count(), 2);
    for (const [what, least] of Object.entries({'.station h2': 2, '.last .size': 2, '.last .limit': 4, '.last .against': 2, '.ask': 1, '.notice': 2})) {
      const ends = await panel.locator(what).evaluateAll((all) => all.map((each) => each.getBoundingClientRect().bottom));
      assert.ok(ends.length >= least, `${what}: ${ends.length}`);
      assert.ok(Math.max(...ends) <= SIZES.panel.height, `${what} ends at ${ends}`);
    }
    const alerts = (await bench.json('alerts')).length;
    assert.match(await text(panel, '.notice'), /^STOP /);
    assert.equal(await text(panel, '.notice.more'), `and ${alerts - 1} more: tenth alerts`);
    await panel.context().close();
  }
});

test('a third gauge is shown beside them, on every screen', async () => {
  await bench.tenth('at', 'ring_gap_top', 'L2', '--gauge', 'dial');
  await byHand('dial', '0.0012');
  for (const size of Object.values(SIZES)) {
    const other = await open(browser, bench, {size});
    assert.equal(await other.locator('.station').count(), 3);
    assert.ok(await other.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'it is wider than the screen');
    await other.context().close();
  }
});

for (const [name, scheme] of [['phone', 'light'], ['panel', 'dark'], ['desktop', 'light']])
  test(`with all of it axe finds nothing on a ${name}, ${scheme}`, async () => {
    const other = await open(browser, bench, {size: SIZES[name], scheme});
    assert.deepEqual(await axeFinds(other), []);
    assert.ok(await other.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'it is wider than the screen');
    await other.context().close();
  });

test('nothing was complained of', async () => {
  await shows(page, 1);
  assert.deepEqual(page.faults, []);
});
