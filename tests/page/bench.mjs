// A bench of its own for a test: the real daemon with its page, the command line, and simulated gauges.

import {execFile, spawn} from 'node:child_process';
import {once} from 'node:events';
import {mkdtempSync, rmSync, writeFileSync} from 'node:fs';
import net from 'node:net';
import {tmpdir} from 'node:os';
import path from 'node:path';
import readline from 'node:readline';
import {promisify} from 'node:util';

const run = promisify(execFile);
const BIN = process.env.TENTH_BIN;
export const PATIENCE = 20_000;

/// Waits until `test` gives something; a loaded machine takes its time.
export async function until(what, test, patience = PATIENCE) {
  const end = Date.now() + patience;
  for (;;) {
    const found = await test();
    if (found) return found;
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await new Promise((wake) => setTimeout(wake, 10));
  }
}

export class Bench {
  home = mkdtempSync(path.join(tmpdir(), 'tenth-page-'));
  events = [];  // of `watch`, each with the time at which it was heard

  async start(http = '127.0.0.1:0', config = '') {
    writeFileSync(path.join(this.home, 'tenthd.toml'), `[intake]\nsettle_ms = 0\n${config}`);
    this.daemon = spawn(path.join(BIN, 'tenthd'), ['--config', path.join(this.home, 'tenthd.toml'), '--state', path.join(this.home, 'state'),
      '--socket', this.socket, '--http', http], {stdio: ['ignore', 'ignore', 'pipe']});
    this.log = '';
    this.daemon.stderr.on('data', (bytes) => this.log += bytes);
    await until('the daemon', () => this.json('status').catch(() => null));
    if (http !== 'off') {
      this.url = (await this.json('page')).url;
      this.origin = new URL(this.url).origin;
    }
    await this.watch();
  }

  get socket() { return path.join(this.home, 'socket'); }

  async kill(signal = 'SIGKILL') {
    this.daemon.kill(signal);
    if (this.daemon.exitCode === null && this.daemon.signalCode === null) await once(this.daemon, 'exit');
  }

  async end() {
    this.sim?.kill();
    if (this.daemon) await this.kill();
    rmSync(this.home, {recursive: true, force: true});
  }

  async tenth(...words) {
    const {stdout} = await run(path.join(BIN, 'tenth'), ['--socket', this.socket, ...words], {timeout: PATIENCE});
    return stdout;
  }
  async json(...words) { return JSON.parse(await this.tenth('--json', ...words)); }

  async engine(name, spec) {
    const file = path.join(this.home, 'spec.toml');
    writeFileSync(file, spec);
    await this.tenth('engine', 'add', name, '--spec', file);
    await this.tenth('engine', 'use', name);
  }

  async watch() {
    const socket = net.connect(this.socket);
    socket.on('error', () => {});
    socket.write('{"jsonrpc":"2.0","id":1,"method":"hello","params":{"version":1}}\n{"jsonrpc":"2.0","id":2,"method":"watch"}\n');
    const lines = readline.createInterface({input: socket});
    lines.on('line', (line) => {
      const message = JSON.parse(line);
      if (message.method === 'event') this.events.push({...message.params, heard: Date.now()});
    });
    await until('the events', () => this.events.some((event) => event.event === 'hello'));
  }
  event(name, test = () => true) {
    return until(`an event ${name}`, () => this.events.find((event) => event.event === name && test(event)));
  }

  /// Gauges on pseudo-terminals, added and open: {name: {options}}.
  async gauges(gauges) {
    const tables = Object.keys(gauges).map((name) => `[[gauge]]\nname = "${name}"\npath = "${name}"\nspeaks = "line"\nunit = "${gauges[name].unit}"\ndecimals = ${gauges[name].decimals}\n`);
    const file = path.join(this.home, 'scenario.toml');
    writeFileSync(file, `title = "page"\nstay = true\n${tables.join('')}`);
    this.sim = spawn(path.join(BIN, 'tenth-sim'), [file, '--control', '-'], {stdio: ['pipe', 'pipe', 'ignore']});
    this.told = [];
    readline.createInterface({input: this.sim.stdout}).on('line', (line) => this.told.push(line));
    await until('the simulated gauges', () => this.told.includes('ready'));
    for (const [name, {unit, measures}] of Object.entries(gauges)) {
      await this.tenth('gauge', 'add', name, '--port', path.join(this.home, name), '--profile', 'line', '--unit', unit, '--measures', measures);
      await this.event('gauge', (event) => event.gauge === name && event.state === 'open');
    }
  }
  async hand(act) {
    const before = this.told.length;
    this.sim.stdin.write(`${act}\n`);
    const answer = await until(`the hand to ${act}`, () => this.told[before]);
    if (!answer.startsWith('ok')) throw new Error(`${act}: ${answer}`);
  }
  /// A press, and the event of the reading that came of it.
  async press(gauge, value) {
    const before = this.events.length;
    await this.hand(`press ${gauge} ${value}`);
    return until('the reading', () => this.events.slice(before).find((event) => event.event === 'reading' && event.gauge === gauge));
  }
}

export const TWIN = `title = "Demo: two cylinders"
unit = "in"
[layout]
cylinders = 2
mains = 3
viewed_from = "front"
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [4.3100, 4.3110]
levels = ["top", "bottom"]
axes = ["thrust", "pin"]
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [4.3060, 4.3070]
[feature.main_journal]
count = "mains"
kind = "outside"
limits = [2.2470, 2.2486]
[feature.oil_ways_clear]
kind = "check"
`;

const cylinders = ['L1', 'R1', 'L2', 'R2', 'L3', 'R3', 'L4', 'R4'];
export const EIGHT = `title = "Demo: vee eight, 7.0 litres"
unit = "in"
[layout]
cylinders = 8
mains = 5
crankpins = 4
viewed_from = "front"
labels = ${JSON.stringify(cylinders)}
pins = [["L1", "R1"], ["L2", "R2"], ["L3", "R3"], ["L4", "R4"]]
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [4.3100, 4.3110]
levels = ["top", "middle", "bottom"]
axes = ["thrust", "pin"]
where = "plates fitted"
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [4.3040, 4.3052]
[feature.main_bearing]
count = "mains"
kind = "inside"
limits = [2.6494, 2.6508]
axes = ["vertical", "oblique"]
[feature.main_journal]
count = "mains"
kind = "outside"
limits = [2.6470, 2.6480]
levels = ["front", "rear"]
[feature.crankpin]
count = "crankpins"
kind = "outside"
limits = [2.0990, 2.1000]
levels = ["front", "rear"]
[feature.ring_gap_top]
count = "cylinders"
kind = "gap"
limits = [0.0170, 0.0250]
[feature.oil_ways_clear]
kind = "check"
`;
