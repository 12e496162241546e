// The page in Debian's Chromium, with all that it may not do counted.

import {chromium} from 'playwright-core';

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

export async function text(page, selector) {
  return (await page.locator(selector).first().innerText()).replace(/\s+/g, ' ').trim();
}
