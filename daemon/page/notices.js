// What is wrong, and what is still open.

import {age, node} from '/elements.js';
import {mark, spaced} from '/marks.js';

/// The worst first, so many of them and how many more.
export function notices(state, most) {
  const list = state.alerts.map((alert) => ({kind: alert.severity, text: alert.text, word: alert.severity === 'stop' ? 'STOP' : 'LOOK'}));
  for (const gauge of state.gauges)
    if (gauge.state !== 'open') list.push({kind: 'look', word: 'LOOK', text: `gauge ${gauge.name} is ${gauge.state}${gauge.why ? `: ${gauge.why}` : ''}`});
  list.sort((a, b) => (a.kind === b.kind ? 0 : a.kind === 'stop' ? -1 : 1));
  const shown = list.slice(0, most).map(({kind, word, text}) => node('p', {className: `notice ${kind}`}, mark(kind === 'stop' ? 'out' : 'suspect'), node('b', {textContent: word}), ` ${text}`));
  if (list.length > most) shown.push(node('p', {className: 'notice more', textContent: `and ${list.length - most} more: tenth alerts`}));
  return shown;
}

const item = (sign, word, text) => node('li', {}, sign, node('b', {textContent: word}), ` ${text}`);

/// What keeps results from being whole: parts that are out, what must be fitted first, checks that are due, figures
/// that are somebody else's.
export function open(state) {
  const items = [
    ...state.away.map((each) => item(mark('away'), 'AWAY', `${spaced(each.feature)}: at ${each.to}, ${each.ask}`)),
    ...state.plan.filter((each) => each.setup)
      .map((each) => item(mark('setup'), 'SET UP FIRST', `${spaced(each.feature)}: ${each.setup}, then tenth setup ${each.feature} yes`)),
    ...state.unconfirmed.map((each) => item(mark('in', true), 'UNCONFIRMED', `${each.readings} ${each.readings === 1 ? 'reading' : 'readings'} of ${each.gauge}: tenth recheck ${each.gauge}`)),
    ...state.plan.filter((each) => each.claimed_by.length)
      .map((each) => item(mark('claimed'), 'CLAIMED', `${spaced(each.feature)}: by ${each.claimed_by.join(', ')}, not judged`)),
  ];
  if (!items.length) return null;
  const list = node('ul', {id: 'open'}, ...items);
  list.setAttribute('aria-label', 'What is still open');
  return list;
}

export function gaugeLine(gauge) {
  const set = gauge.setting ? `set ${age(gauge.setting.age_s)} ago` : gauge.reads === 'deviation' ? 'not set' : null;
  const parts = [gauge.state, set, gauge.overdue ? 'overdue for calibration' : null].filter(Boolean);
  return node('li', {}, node('b', {textContent: gauge.name}), ` ${parts.join(', ')}`);
}
