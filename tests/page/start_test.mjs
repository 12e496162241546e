// How the page is switched on, and when the daemon refuses to.

import assert from 'node:assert/strict';
import {spawnSync} from 'node:child_process';
import {chmodSync, mkdtempSync, rmSync, writeFileSync} from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import {tmpdir} from 'node:os';
import {afterEach, beforeEach, test} from 'node:test';

import {Bench} from './bench.mjs';

const TOKEN = 'a-token-of-the-test_0123456789ABCDEFGH';

let home, bench;
beforeEach(() => {
  home = mkdtempSync(path.join(tmpdir(), 'tenth-start-'));
  bench = new Bench();
});
afterEach(async () => {
  await bench.end();
  rmSync(home, {recursive: true, force: true});
});

/// Status and standard error of a `tenthd` that ends by itself.
function refused(address, config) {
  const file = path.join(home, 'tenthd.toml');
  writeFileSync(file, config);
  const ran = spawnSync(path.join(process.env.TENTH_BIN, 'tenthd'), ['--config', file, '--state', path.join(home, 'state'), '--socket', path.join(home, 'socket'), '--http', address], {timeout: 20_000, encoding: 'utf8'});
  return {status: ran.status, error: ran.stderr};
}

function tokenFile(mode) {
  const file = path.join(home, 'token');
  writeFileSync(file, `${TOKEN}\n`);
  chmodSync(file, mode);
  return file;
}

function ask(url, headers) {
  return new Promise((answered, failed) => http.get(url, {headers}, (answer) => answered(answer.resume().statusCode)).on('error', failed));
}

test('beyond loopback it wants a token file that is nobody else\'s', () => {
  const open = refused('0.0.0.0:0', '');
  assert.equal(open.status, 4);
  assert.match(open.error, /token_file/);
  const shared = refused('0.0.0.0:0', `[page]\ntoken_file = "${tokenFile(0o644)}"\n`);
  assert.equal(shared.status, 4);
  assert.match(shared.error, /others/);
  assert.ok(!shared.error.includes(TOKEN));
});

test('an address that is none are the wrong words', () => {
  assert.equal(refused('bench.example:80', '').status, 2);
  assert.equal(refused('8642', '').status, 2);
});

test('with a token file it serves the names it was given, and no others', async () => {
  await bench.start('0.0.0.0:0', `[page]\nhosts = ["bench.example"]\ntoken_file = "${tokenFile(0o600)}"\n`);
  const {hostname, port, hash} = new URL(bench.url);
  assert.equal(`${hostname} ${hash}`, `bench.example #token=${TOKEN}`);
  assert.ok(!bench.log.includes(TOKEN));
  const page = `http://127.0.0.1:${port}/bench`;
  assert.equal(await ask(page, {Host: `bench.example:${port}`}), 200);
  assert.equal(await ask(page, {}), 200);
  assert.equal(await ask(page, {Host: `elsewhere.example:${port}`}), 403);
});

test('it is off unless asked for', async () => {
  await bench.start('off');
  const {status, stderr, stdout} = spawnSync(path.join(process.env.TENTH_BIN, 'tenth'), ['--socket', bench.socket, 'page'], {encoding: 'utf8'});
  assert.equal(status, 4);
  assert.equal(stdout, '');
  assert.match(stderr, /--http/);
});
