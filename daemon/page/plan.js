// The engine as far as it is measured: the block, and rows of marks for what has no place in it.

import {block, litAt} from '/block.js';
import {node} from '/elements.js';
import {mark, signOf, spaced, WORDS, wordsOf} from '/marks.js';
import {open} from '/notices.js';

function rowMark(feature, index, lit) {
  const alone = feature.indexes.length === 1, words = wordsOf(feature, index);
  return node('span', {className: index.places.some(litAt(feature, index, lit)) ? 'index lit' : 'index'},
    mark(signOf(feature, index), index.unconfirmed), alone ? words : index.label,
    alone ? null : node('span', {className: 'heard', textContent: ` ${words}, `}));
}

// One row of marks for each feature that the block does not show.
function rows(features, lit) {
  const table = node('table', {}, node('caption', {className: 'heard', textContent: 'Features that are not drawn in the block'}));
  for (const feature of features) {
    const row = table.insertRow();
    row.append(node('th', {scope: 'row', textContent: spaced(feature.feature)}),
      node('td', {}, ...feature.indexes.map((index) => rowMark(feature, index, lit))));
  }
  return table;
}

export function plan(state) {
  if (!state.layout) return [node('p', {textContent: 'no engine: tenth engine add NAME --spec FILE'})];
  const lit = state.places.filter((place) => place.words !== null && place.engine === state.engine);
  const features = state.plan.map((feature) => ({...feature, away: state.away.some((each) => each.feature === feature.feature)}));
  const {svg, features: inBlock} = block(features, state.layout, lit);
  const names = inBlock.map((feature) => spaced(feature.feature)).join(', ');
  const legend = node('p', {className: 'legend'}, svg ? `Drawn: ${names}. ` : '',
    ...['unread', 'part', 'in', 'doubtful', 'suspect', 'out'].map((each) => node('span', {}, mark(each), WORDS[each])));
  return [svg, rows(features.filter((each) => !inBlock.includes(each)), lit), open(state), legend];
}
