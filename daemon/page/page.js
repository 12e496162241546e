// Shows what the daemon has stored, and says so when it no longer knows. Everything that came from outside goes into the page
// as text.

import {block, mark, rows, spaced, WORDS} from '/block.js';

const OLD_MS = 1400;  // without a sign of life what is shown counts as old; the daemon gives one every 500 ms
const AGAIN_MS = 500;

const find = (id) => document.getElementById(id);

// What cannot be seen is shown as its number: a name must not hide in another, or turn a size round.
function visible(text) {
  return text.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

function node(name, properties = {}, ...children) {
  const made = Object.assign(document.createElement(name), properties);
  if ('textContent' in properties) made.textContent = visible(properties.textContent);
  made.append(...children.filter((child) => child !== null && child !== undefined && child !== '')
    .map((child) => typeof child === 'string' ? visible(child) : child));
  return made;
}

function replace(id, ...children) {
  find(id).replaceChildren(...children.filter(Boolean));
}

// The token comes behind the `#` once and is kept for this tab only.
function takeToken() {
  const found = /^#token=([\w-]+)$/.exec(location.hash);
  if (!found) return sessionStorage.getItem('token');
  sessionStorage.setItem('token', found[1]);
  history.replaceState(null, '', location.pathname);
  return found[1];
}

const token = takeToken();
let showsValues = false;  // a gauge shows its values all the time, so one can be taken

async function act(name, gauge) {
  const answer = await fetch(`/act/${name}`, {
    method: 'POST',
    headers: {'Authorization': `Bearer ${token}`, 'Content-Type': 'application/json'},
    body: JSON.stringify({gauge}),
  }).catch(() => null);
  const told = answer?.ok ? null : await answer?.json().catch(() => null);
  find('answer').textContent = !answer ? 'the daemon does not answer' : answer.ok ? ''
    : told ? `${told.message}; ${told.do}` : 'not done: open the address that `tenth page` shows';
}

// ---- places

const tailOf = (place) => [place.level, place.axis].filter(Boolean).join(' ');

// As wide as the column: how wide these words are in this type is measured, in sizes of the type.
const ruler = document.createElement('canvas').getContext('2d');
function big(text, kind) {
  const line = node('span', {className: kind, textContent: text.replaceAll(' ', '\u00a0')});
  ruler.font = `800 100px ${getComputedStyle(document.body).fontFamily}`;
  line.style.setProperty('--wide', Math.max(ruler.measureText(text).width / 100, 1));
  return line;
}

function placeWords(place) {
  if (place.words === null) {
    const done = place.of !== null && place.done === place.of;
    return [big(done ? 'round done' : 'no place', 'head')];
  }
  const tail = tailOf(place);
  return [big(tail ? place.words.slice(0, -tail.length - 1) : place.words, 'head'), tail ? big(tail, 'tail') : null];
}

function buttons(gauge) {
  if (!token) return null;
  const names = {back: 'Back', next: 'Next', undo: 'Undo', ...(showsValues ? {take: 'Take'} : {})};
  return node('div', {className: 'acts'}, ...Object.entries(names).map(([name, word]) => {
    const button = node('button', {type: 'button', textContent: word, onclick: () => act(name, gauge)});
    button.dataset.act = `${name} ${gauge ?? ''}`;
    if (gauge) button.setAttribute('aria-label', `${word}, ${gauge}`);
    return button;
  }));
}

function awaited(state, gauge) {
  const waiting = state.gauges.filter((each) => each.awaits && (gauge ? each.name === gauge : !state.places.some((place) => place.gauge === each.name)));
  return waiting.map((each) => node('p', {className: 'awaits'}, mark('doubtful'), `the next press of ${each.name} is on its master`));
}

function station(state, place) {
  const about = [place.gauge, place.of === null ? null : `${place.done} of ${place.of} done`, place.where].filter(Boolean).join(' · ');
  const next = place.next ? `next: ${place.next}` : place.words && place.of !== null ? 'next: the end of the round' : '';
  return node('article', {className: place.words ? 'station' : 'station idle'},
    node('p', {className: 'about', textContent: about}),
    ...awaited(state, place.gauge),
    node('h2', {}, ...placeWords(place)),
    node('div', {className: 'foot'}, node('p', {className: 'next', textContent: next}), buttons(place.gauge)));
}

// A common place that nobody uses, beside gauges that have their own, says nothing.
const usedPlaces = (state) => state.places.filter((place) => place.gauge !== null || place.words !== null || state.places.length === 1);

// ---- the last size, between its limits

function reach(length, kind = '') {
  const made = node('span', {className: `reach ${kind}`});
  made.style.flexGrow = length * 1e6;  // flexbox fills the line only from a sum of 1 on
  made.setAttribute('aria-hidden', 'true');
  return made;
}

const post = (side, text, word) => text === null ? null
  : node('span', {className: `limit ${side}`}, node('span', {className: 'heard', textContent: ` ${word} limit `}), text);

// The limits as posts, the size between them or outside, each distance drawn to the scale of the line.
function between({shown, shown_unit: unit, size_verdict: verdict}) {
  const size = node('strong', {className: `size ${verdict ?? 'read'}`}, shown.size ?? '—', node('small', {textContent: ` ${unit}`}));
  const low = post('low', shown.low, 'lower'), high = post('high', shown.high, 'upper');
  const value = Number(shown.size), from = Number(shown.low), to = Number(shown.high);
  const line = (...parts) => node('p', {className: 'between'}, ...parts);
  if (shown.size === null || (!low && !high)) return line(low, size, high);
  if (low && value < from) return line(size, reach(from - value, 'past'), low, high && reach(to - from, 'limits'), high);
  if (high && value > to) return line(low, low && reach(to - from, 'limits'), high, reach(value - to, 'past'), size);
  return line(low, low && reach(value - from), size, high && reach(to - value), high);
}

function standing(last) {
  if (last.state !== 'kept') return last.state;
  return last.size_verdict ?? 'kept';
}

const SIGNS = {kept: 'read', void: 'unread'};

function reading(last) {
  const state = standing(last);
  const held = last.state === 'suspect';
  const where = [last.words ?? 'no place', last.gauge ?? 'by hand'].join(' · ');
  const raw = last.shown.size === null ? `it showed ${last.text} ${last.unit}` : null;
  return node('article', {className: `last ${state}`},
    node('p', {className: 'about'}, mark(SIGNS[state] ?? state), node('b', {textContent: held ? 'SUSPECT, not moved on' : state.toUpperCase()}), ` ${where}`),
    between(last),
    node('p', {className: 'against', textContent: last.against ?? raw ?? ''}),
    held ? node('p', {className: 'why', textContent: `${last.why.join('; ')}. Measure again; or, if it is right, tenth keep ${last.seq} --reason TEXT`}) : null);
}

// Of each place the newest reading of the gauges that it serves: what the eye at that place asks for.
function lastsShown(state) {
  const owners = new Set(state.places.map((place) => place.gauge).filter(Boolean));
  const seen = new Set();
  return state.last.filter((last) => {
    const owner = owners.has(last.gauge) ? last.gauge : null;
    return !seen.has(owner) && seen.add(owner);
  });
}

// ---- what is wrong

function notices(state) {
  const list = state.alerts.map((alert) => ({kind: alert.severity, text: alert.text, word: alert.severity === 'stop' ? 'STOP' : 'LOOK'}));
  for (const gauge of state.gauges)
    if (gauge.state !== 'open') list.push({kind: 'look', word: 'LOOK', text: `gauge ${gauge.name} is ${gauge.state}${gauge.why ? `: ${gauge.why}` : ''}`});
  list.sort((a, b) => (a.kind === b.kind ? 0 : a.kind === 'stop' ? -1 : 1));
  const shown = list.slice(0, 3).map(({kind, word, text}) => node('p', {className: `notice ${kind}`}, mark(kind === 'stop' ? 'out' : 'suspect'), node('b', {textContent: word}), ` ${text}`));
  if (list.length > 3) shown.push(node('p', {className: 'notice more', textContent: `and ${list.length - 3} more: tenth alerts`}));
  return shown;
}

function gaugeLine(gauge) {
  const age = (seconds) => seconds < 120 ? `${seconds} s` : seconds < 7200 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`;
  const set = gauge.setting ? `set ${age(gauge.setting.age_s)} ago` : gauge.reads === 'deviation' ? 'not set' : null;
  const parts = [gauge.state, set, gauge.overdue ? 'overdue for calibration' : null].filter(Boolean);
  return node('li', {}, node('b', {textContent: gauge.name}), ` ${parts.join(', ')}`);
}

// ---- the whole

function plan(state) {
  if (!state.layout) return [node('p', {textContent: 'no engine: tenth engine add NAME --spec FILE'})];
  const lit = state.places.filter((place) => place.words !== null && place.engine === state.engine);
  const {svg, shown} = block(state.plan, state.layout, lit);
  const names = shown.map((feature) => spaced(feature.feature)).join(', ');
  const legend = node('p', {className: 'legend'}, svg ? `Drawn: ${names}. ` : '',
    ...['unread', 'part', 'in', 'doubtful', 'suspect', 'out'].map((each) => node('span', {}, mark(each), WORDS[each])));
  return [svg, rows(state.plan, shown, lit), legend];
}

function render(state) {
  const focused = document.activeElement?.dataset?.act;
  find('engine').textContent = visible(state.engine ?? 'no engine');
  find('about').textContent = visible([state.title, state.stage, state.operator, state.suspects ? `${state.suspects} suspect` : null]
    .filter(Boolean).join(' · '));
  replace('notices', ...notices(state));
  const places = usedPlaces(state);
  document.querySelector('main').classList.toggle('many', places.length > 1);
  replace('places', ...places.map((place) => station(state, place)));
  replace('lasts', ...lastsShown(state).map(reading));
  replace('plan', ...plan(state));
  replace('gauges', ...state.gauges.map(gaugeLine));
  find('hint').textContent = token ? '' : 'To act from here, open the address that `tenth page` shows.';
  if (focused) [...document.querySelectorAll('button')].find((button) => button.dataset.act === focused)?.focus();
  tellAloud(state);
  document.body.dataset.seq = state.seq;
}

// For those who hear the page: the newest reading and each new alert, once.
let toldReading = null, toldAlerts = new Set();
function tellAloud(state) {
  const last = state.last[0];
  const key = last ? `${last.seq} ${last.state}` : null;
  if (last && toldReading !== null && key !== toldReading)
    find('say').textContent = [last.words ?? 'no place', last.shown.size ?? '', standing(last), last.against ?? last.why.join(', '),
      state.places[0].words ? `next ${state.places[0].words}` : ''].filter(Boolean).join(', ');
  toldReading = key ?? '';
  const fresh = state.alerts.filter((alert) => !toldAlerts.has(alert.id));
  if (fresh.length) find('shout').textContent = visible(fresh.map((alert) => alert.text).join('. '));
  toldAlerts = new Set(state.alerts.map((alert) => alert.id));
}

// ---- following the daemon

let heard = performance.now(), heardAt = new Date(), fetching = false, more = false;
let told = -1;       // how far the ledger is known to be
let behind = null;   // of which entry what is shown is behind, and since when

const shown = () => Number(document.body.dataset.seq ?? -1);

function alive() {
  heard = performance.now();
  if (told <= shown()) heardAt = new Date();
}

async function refresh() {
  if (fetching) return void (more = true);
  fetching = true;
  do {
    more = false;
    try {
      const answer = await fetch('/bench', {signal: AbortSignal.timeout(OLD_MS)});
      if (answer.ok) render(await answer.json());
    } catch { /* staleness is shown by its own clock */ }
  } while (more);
  fetching = false;
}

function connect() {
  const events = new EventSource('/events');
  events.onmessage = ({data}) => {
    const event = JSON.parse(data);
    told = event.event === 'hello' ? event.seq : Math.max(told, event.seq ?? -1);
    alive();
    if (event.event === 'live') return void (showsValues = true);
    if (event.event !== 'beat' || event.seq > shown()) refresh();
  };
  events.onerror = () => {
    events.close();  // a new one, without asking for what was missed: the next look shows it all
    heard = -Infinity;
    setTimeout(connect, AGAIN_MS);
  };
}

function watchAge() {
  const now = performance.now();
  if (behind === null || behind.seq <= shown()) behind = told > shown() ? {seq: told, since: now} : null;
  const old = now - heard > OLD_MS || (behind !== null && now - behind.since > OLD_MS);
  const stale = find('stale');
  if (old === !stale.hidden) return;
  stale.hidden = !old;
  stale.textContent = old ? `NOT LIVE: the daemon does not answer. What is shown is from ${heardAt.toLocaleTimeString()}.` : '';
  document.body.classList.toggle('old', old);
}

connect();
setInterval(watchAge, 100);
setInterval(refresh, 30_000);  // ages of settings
