// The page in Debian's Chromium, with all that it may not do counted.

import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';

import {chromium} from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const SIZES = {
  phone: {width: 390, height: 844},
  panel: {width: 1024, height: 600},
  desktop: {width: 1440, height: 900},
};

export function launch() {
  const sandbox = process.getuid() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: sandbox});
}

/// A tab on the page that shows what is stored. `faults`: what it complained of, and what it asked of others.
export async function open(browser, bench, {size = SIZES.panel, scheme = 'light', url = bench.url} = {}) {
  const context = await browser.newContext({viewport: size, colorScheme: scheme});
  context.setDefaultTimeout(90_000);  // a machine that builds besides needs longer than a browser's usual patience
  const page = await context.newPage();
  page.faults = [];
  page.on('console', (message) => message.type() === 'error' && page.faults.push(message.text()));
  page.on('pageerror', (error) => page.faults.push(String(error)));
  page.on('request', (request) => new URL(request.url()).origin === bench.origin || page.faults.push(`asked ${request.url()}`));
  await page.addInitScript(() => {
    window.seen = {};
    addEventListener('DOMContentLoaded', () => new MutationObserver(() => {
      window.seen[document.body.dataset.seq] ??= Date.now();
    }).observe(document.body, {attributes: true, attributeFilter: ['data-seq']}));
  });
  await page.goto(url);
  await page.waitForFunction(() => document.body.dataset.seq);
  return page;
}

/// Waits until the page shows what was stored up to `seq`.
export function shows(page, seq) {
  return page.waitForFunction((wanted) => Number(document.body.dataset.seq) >= wanted, seq);
}

/// What keeps somebody from using the page, each with where.
export async function axeFinds(page) {
  await page.evaluate(axe);
  const {violations} = await page.evaluate(() => window.axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}));
  return violations.map(({id, nodes}) => `${id}: ${nodes.map((node) => `${node.html} ${node.failureSummary}`).join('; ')}`);
}

export async function text(page, selector) {
  return (await page.locator(selector).first().innerText()).replace(/\s+/g, ' ').trim();
}
