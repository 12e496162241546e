// The last size, between its limits.

import {node} from '/elements.js';
import {mark} from '/marks.js';

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

/// What became of a reading, in a word.
export function standing(last) {
  return last.state === 'kept' ? last.size_verdict ?? 'kept' : last.state;
}

const SIGNS = {kept: 'read', void: 'unread'};

export function reading(last) {
  const state = standing(last);
  const held = last.state === 'suspect';
  const where = [last.words ?? 'no place', last.gauge ?? 'by hand'].join(' · ');
  const raw = last.shown.size === null ? `it showed ${last.text} ${last.unit}` : null;
  return node('div', {className: `last ${state}`},
    node('p', {className: 'about'}, mark(SIGNS[state] ?? state), node('b', {textContent: held ? 'SUSPECT, not moved on' : state.toUpperCase()}), ` ${where}`),
    between(last),
    node('p', {className: 'against', textContent: last.against ?? raw ?? ''}),
    held ? node('p', {className: 'why', textContent: `${last.why.join('; ')}. Measure again; or, if it is right, tenth keep ${last.seq} --reason TEXT`}) : null);
}
