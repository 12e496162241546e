// Where the next reading belongs, what has to be done before, and beneath it the last size.

import {buttons} from '/acts.js';
import {age, node} from '/elements.js';
import {reading} from '/last.js';
import {mark} from '/marks.js';

const tailOf = (place) => [place.level, place.axis].filter(Boolean).join(' ');

// As wide as the column: how wide these words are in this type is measured, in sizes of the type.
const ruler = document.createElement('canvas').getContext('2d');
function big(text, kind) {
  const line = node('span', {className: kind, textContent: text.replaceAll(' ', '\u00a0')});
  ruler.font = `800 100px ${getComputedStyle(document.body).fontFamily}`;
  line.style.setProperty('--wide', Math.max(ruler.measureText(text).width / 100, 1));
  return line;
}

const roundDone = (place) => place.words === null && place.of !== null;

function placeWords(place) {
  if (place.words === null) return [big(roundDone(place) ? 'round done' : 'no place', 'head')];
  const tail = tailOf(place);
  return [big(tail ? place.words.slice(0, -tail.length - 1) : place.words, 'head'), tail ? big(tail, 'tail') : null];
}

const ask = (sign, word, text) => node('p', {className: 'ask'}, sign, node('b', {textContent: word}), ` ${text}`);

// What stands between this place and a reading that counts.
function asked(state, place) {
  const own = state.gauges.filter((each) => each.name === place.gauge);
  const serving = place.gauge ? own : state.gauges.filter((each) => !state.places.some((other) => other.gauge === each.name));
  const away = state.away.find((each) => each.feature === place.feature);
  const setup = state.plan.find((each) => each.feature === place.feature)?.setup;
  return [
    ...own.filter((each) => each.state !== 'open').map((each) => ask(mark('suspect'), each.state.toUpperCase(), [each.name, each.why].filter(Boolean).join(': '))),
    ...serving.filter((each) => each.awaits).map((each) => ask(mark('doubtful'), 'MASTER', `the next press of ${each.name} is on its master`)),
    ...place.to_set.map((gauge) => ask(mark('doubtful'), 'SET FIRST', `tenth master ${gauge} SIZE`)),
    away ? ask(mark('away'), 'AWAY', `at ${away.to}: what is read here is held as suspect`) : null,
    setup ? ask(mark('setup'), 'SET UP FIRST', setup) : null,
    ...place.recheck.map((gauge) => ask(mark('in', true), 'UNCONFIRMED', `until ${gauge} is checked: tenth recheck ${gauge}`)),
    place.skipped > 0 ? ask(mark('part'), 'SKIPPED', `${place.skipped} places of the round`) : null,
  ];
}

function station(state, place, last, live) {
  const pace = place.left_s >= 60 ? `about ${age(place.left_s)} left` : null;
  const about = [place.gauge, place.of === null ? null : `${place.done} of ${place.of} done`, pace, place.where].filter(Boolean).join(' · ');
  const next = place.next ? `next: ${place.next}` : place.words && place.of !== null ? 'next: the end of the round' : '';
  return node('article', {className: place.words ? 'station' : 'station idle'},
    node('p', {className: 'about', textContent: about}),
    node('h2', {}, ...placeWords(place)),
    ...asked(state, place),
    node('div', {className: 'foot'}, node('p', {className: 'next', textContent: next}), buttons(place.gauge, live)),
    last ? reading(last) : null);
}

/// One for each place that is used, with the newest reading of the gauges that it serves. The common place counts as
/// used where somebody reads at it now.
export function stations(state, live) {
  const owners = new Set(state.places.map((place) => place.gauge));
  const lastAt = (place) => state.last.find((last) => (owners.has(last.gauge) ? last.gauge : null) === place.gauge);
  const used = (place) => place.gauge !== null || place.words !== null || state.places.length === 1
    || state.last[0] && state.last[0] === lastAt(place);
  return state.places.filter(used).map((place) => station(state, place, lastAt(place), live));
}
