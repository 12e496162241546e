// Shows what the daemon has stored, and says so when it no longer knows.

import {mayAct} from '/acts.js';
import {find, replace} from '/elements.js';
import {standing} from '/last.js';
import {gaugeLine, notices} from '/notices.js';
import {plan} from '/plan.js';
import {stations} from '/station.js';

const OLD_MS = 1400;  // without a sign of life what is shown counts as old; the daemon gives one every 500 ms
const AGAIN_MS = 500;

const low = matchMedia('(max-height: 700px), (max-width: 40rem)');  // room for one notice beside places and sizes
let shown = null;
let showsValues = false;  // a gauge shows its values all the time, so one can be taken

function render(state) {
  shown = state;
  const focused = document.activeElement?.dataset?.act;
  find('engine').textContent = state.engine ?? 'no engine';
  find('about').textContent = [state.title, state.stage, state.operator, state.suspects ? `${state.suspects} suspect` : null].filter(Boolean).join(' · ');
  replace('notices', ...notices(state, low.matches ? 1 : 3));
  const places = stations(state, showsValues);
  document.querySelector('main').classList.toggle('many', places.length > 1);
  replace('places', ...places);
  replace('plan', ...plan(state));
  replace('gauges', ...state.gauges.map(gaugeLine));
  find('hint').textContent = mayAct ? '' : 'To act from here, open the address that `tenth page` shows.';
  if (focused) [...document.querySelectorAll('button')].find((button) => button.dataset.act === focused)?.focus();
  tellAloud(state);
  document.body.dataset.seq = state.seq;
}

// For those who hear the page: the newest reading and each new alert, once.
let toldReading = null, toldAlerts = new Set();
function tellAloud(state) {
  const last = state.last[0];
  const place = state.places.find((each) => each.gauge === last?.gauge) ?? state.places[0];
  const key = last ? `${last.seq} ${last.state}` : null;
  if (last && toldReading !== null && key !== toldReading)
    find('say').textContent = [last.words ?? 'no place', last.shown.size ?? '', standing(last), last.against ?? last.why.join(', '),
      place.words ? `next ${place.words}` : ''].filter(Boolean).join(', ');
  toldReading = key ?? '';
  const fresh = state.alerts.filter((alert) => !toldAlerts.has(alert.id));
  if (fresh.length) find('shout').textContent = fresh.map((alert) => alert.text).join('. ');
  toldAlerts = new Set(state.alerts.map((alert) => alert.id));
}

// ---- following the daemon

let heard = performance.now(), heardAt = new Date(), fetching = false, more = false;
let told = -1;       // how far the ledger is known to be
let behind = null;   // of which entry what is shown is behind, and since when

const shownSeq = () => Number(document.body.dataset.seq ?? -1);

function alive() {
  heard = performance.now();
  if (told <= shownSeq()) heardAt = new Date();
}

// What cannot be seen is shown as its number: a name must not hide in another, or turn a size round.
const HIDDEN = /[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu;
const numbered = (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
const read = (text) => JSON.parse(text, (key, value) => typeof value === 'string' ? value.replace(HIDDEN, numbered) : value);

// Null where nobody answers: that is shown by the clock of `watchAge`.
const ask = () => fetch('/bench', {signal: AbortSignal.timeout(OLD_MS)}).then(async (answer) => answer.ok ? read(await answer.text()) : null).catch(() => null);

async function refresh() {
  if (fetching) return void (more = true);
  fetching = true;
  try {
    do {
      more = false;
      const state = await ask();
      if (state) render(state);
    } while (more);
  } finally {
    fetching = false;
  }
}

function connect() {
  const events = new EventSource('/events');
  events.onmessage = ({data}) => {
    const event = JSON.parse(data);
    told = event.event === 'hello' ? event.seq : Math.max(told, event.seq ?? -1);
    alive();
    if (event.event === 'live') return void (showsValues = true);
    if (event.event !== 'beat' || event.seq > shownSeq()) refresh();
  };
  events.onerror = () => {
    events.close();  // a new one, without asking for what was missed: the next look shows it all
    heard = -Infinity;
    setTimeout(connect, AGAIN_MS);
  };
}

function watchAge() {
  const now = performance.now();
  if (behind === null || behind.seq <= shownSeq()) behind = told > shownSeq() ? {seq: told, since: now} : null;
  const old = now - heard > OLD_MS || (behind !== null && now - behind.since > OLD_MS);
  const stale = find('stale');
  if (old === !stale.hidden) return;
  stale.hidden = !old;
  stale.textContent = old ? `NOT LIVE: the daemon does not answer. What is shown is from ${heardAt.toLocaleTimeString()}.` : '';
  document.body.classList.toggle('old', old);
}

connect();
low.onchange = () => shown && render(shown);
setInterval(watchAge, 100);
setInterval(refresh, 30_000);  // ages of settings
