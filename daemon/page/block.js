// The plan of the engine: the block drawn from above, and rows of marks for what has no place in it. Everything is built
// node by node: no name can become markup.

const SVG = 'http://www.w3.org/2000/svg';
const PITCH = 100, RADIUS = 36, BANK = 104, CRANK = 72, EDGE = 34;

export const WORDS = {
  unread: 'not measured', part: 'partly measured', read: 'measured', in: 'in', doubtful: 'doubtful', out: 'out',
  suspect: 'suspect',
};

// One shape for each state, in a square of 20 about the origin: told apart without colour.
const SHAPES = {
  unread: ['M-6 0A6 6 0 1 0 6 0A6 6 0 1 0 -6 0', 'M0 0'],
  part: ['M-8 0A8 8 0 1 0 8 0A8 8 0 1 0 -8 0', 'M0 -8A8 8 0 0 1 0 8Z'],
  read: ['M-8 -8H8V8H-8Z', 'M-4 0H4'],
  in: ['M-9 0A9 9 0 1 0 9 0A9 9 0 1 0 -9 0', 'M-4.5 0L-1 4L5 -4'],
  doubtful: ['M0 -10L10 0L0 10L-10 0Z', 'M-3 -3A3 3 0 1 1 0 1V2M0 5V5.5'],
  out: ['M-4 -9.5H4L9.5 -4V4L4 9.5H-4L-9.5 4V-4Z', 'M-4 -4L4 4M4 -4L-4 4'],
  suspect: ['M0 -10L10.5 8.5H-10.5Z', 'M0 -4V2M0 5V5.5'],
};

function node(name, attributes, ...children) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

function words(text, x, y, size, anchor = 'middle') {
  const made = node('text', {x, y, 'font-size': size, 'text-anchor': anchor, class: 'label'});
  made.textContent = text;
  return made;
}

function badge(state, x, y, scale = 1) {
  const [shape, sign] = SHAPES[state];
  return node('g', {class: `badge ${state}`, transform: `translate(${x} ${y}) scale(${scale})`},
    node('path', {d: shape, class: 'shape'}), node('path', {d: sign, class: 'sign'}));
}

/// A mark that stands in a line of text.
export function mark(state) {
  return node('svg', {viewBox: '-12 -12 24 24', class: 'mark', 'aria-hidden': 'true'}, badge(state, 0, 0));
}

/// Names as people say them.
export const spaced = (name) => name.replaceAll('_', ' ');

const unique = (values) => [...new Set(values)];

// The places of one index as a grid: one row a level, one column an axis.
function grid(index) {
  return {levels: unique(index.places.map((place) => place.level)), axes: unique(index.places.map((place) => place.axis))};
}

function stateClass(place, lit) {
  return `place ${place.state}${lit ? ' lit' : ''}`;
}

// Part of a ring between two radii, about the middle angle.
function arc(inner, outer, middle, width) {
  const at = (radius, angle) => `${(radius * Math.cos(angle)).toFixed(2)} ${(radius * Math.sin(angle)).toFixed(2)}`;
  const from = middle - width / 2, to = middle + width / 2;
  return `M${at(outer, from)}A${outer} ${outer} 0 0 1 ${at(outer, to)}L${at(inner, to)}A${inner} ${inner} 0 0 0 ${at(inner, from)}Z`;
}

// A bore from above: the first level is the outer ring; each axis is the pair of segments that it touches, the first
// axis across the crank.
function bore(index, x, y, isLit) {
  const {levels, axes} = grid(index);
  const hub = 15, step = (RADIUS - hub) / levels.length, width = Math.PI / axes.length;
  const group = node('g', {transform: `translate(${x} ${y})`, class: `index ${index.state}`});
  for (const place of index.places) {
    const outer = RADIUS - step * levels.indexOf(place.level), middle = Math.PI / 2 + width * axes.indexOf(place.axis);
    for (const turn of [0, Math.PI])
      group.append(node('path', {d: arc(outer - step, outer, middle + turn, width), class: stateClass(place, isLit(place))}));
  }
  if (index.places.some(isLit)) group.append(node('circle', {r: RADIUS + 6, class: 'halo'}));
  group.append(words(index.label, 0, index.label.length > 2 ? 4 : 6, index.label.length > 2 ? 12 : 18));
  group.append(badge(index.state, RADIUS * 0.8, RADIUS * 0.8));
  return group;
}

// A bearing, journal or pin: a grid of its places, the levels along the crank.
function bar(index, x, y, width, height, isLit) {
  const {levels, axes} = grid(index);
  const group = node('g', {transform: `translate(${x} ${y})`, class: `index ${index.state}`});
  const w = width / levels.length, h = height / axes.length;
  for (const place of index.places)
    group.append(node('rect', {x: -width / 2 + w * levels.indexOf(place.level), y: -height / 2 + h * axes.indexOf(place.axis),
      width: w, height: h, class: stateClass(place, isLit(place))}));
  if (index.places.some(isLit))
    group.append(node('rect', {x: -width / 2 - 5, y: -height / 2 - 5, width: width + 10, height: height + 10, class: 'halo'}));
  group.append(words(index.label, 0, -height / 2 - 9, 14), badge(index.state, 0, height / 2 + 11, 0.8));
  return group;
}

/// Where the cylinders, mains and pins stand: banks by the pins that rods share, else one row.
export function geometry(layout) {
  const labels = layout.labels.length ? layout.labels : Array.from({length: layout.cylinders ?? 0}, (_, i) => `${i + 1}`);
  const pins = layout.pins ?? [];
  const banks = pins.length && pins.every((pin) => pin.length === pins[0].length) ? pins[0].length : 1;
  const rows = banks > 1 ? pins.length : labels.length, crank = Math.ceil(banks / 2);
  const x = (place) => EDGE + PITCH / 2 + PITCH * place;
  const y = (bank) => EDGE + BANK / 2 + BANK * bank + (banks > 1 && bank >= crank ? CRANK : 0);
  const length = Math.max(rows, 1) * PITCH;
  const spread = (count, position) => (count === rows + 1 ? EDGE + PITCH * position
    : EDGE + length * (position + 0.5) / count);
  return {
    width: length + 2 * EDGE, height: banks * BANK + CRANK + 2 * EDGE,
    crank: banks > 1 ? EDGE + BANK * crank + CRANK / 2 : EDGE + BANK + CRANK / 2,
    cylinders: labels.map((label, position) => {
      const pin = banks > 1 ? pins.findIndex((rods) => rods.includes(label)) : position;
      const bank = banks > 1 ? pins[pin].indexOf(label) : 0;
      return {x: x(pin), y: y(bank)};
    }),
    mains: (count) => Array.from({length: count}, (_, position) => spread(count, position)),
    pins: (count) => Array.from({length: count}, (_, position) => (count === rows ? x(position) : spread(count, position))),
  };
}

// Of the features that stand at the same spots the block shows the one that is measured now, else the first.
function chosen(plan, count, lit) {
  const features = plan.filter((feature) => feature.count === count && feature.kind !== 'check');
  return features.find((feature) => lit.some((place) => place.feature === feature.feature))
    ?? features.find((feature) => feature.kind === 'inside') ?? features[0];
}

function summary(feature) {
  return `${spaced(feature.feature)}: ${feature.indexes.map((index) => `${index.label} ${WORDS[index.state]}`).join(', ')}`;
}

function litAt(feature, index, lit) {
  return (place) => lit.some((here) => here.feature === feature.feature && here.index === index.index
    && here.level === place.level && here.axis === place.axis);
}

/// The block from above. `lit`: the places where the next readings belong. Null where the spec has no layout to draw.
export function block(plan, layout, lit) {
  const shown = ['cylinders', 'mains', 'crankpins'].map((count) => chosen(plan, count, lit)).filter(Boolean);
  if (!shown.length) return {svg: null, shown: []};
  const where = geometry(layout);
  const svg = node('svg', {viewBox: `0 0 ${where.width} ${where.height}`, role: 'img', 'aria-label': `The block from above. ${shown.map(summary).join('. ')}.`, class: 'block'});
  svg.append(node('rect', {x: 4, y: 4, width: where.width - 8, height: where.height - 8, rx: 14, class: 'outline'}));
  svg.append(node('path', {d: `M8 ${where.crank}H${where.width - 8}`, class: 'crank'}));
  if (layout.viewed_from) svg.append(words(layout.viewed_from, 14, 24, 15, 'start'));
  for (const feature of shown) svg.append(...marks(feature, where, lit));
  return {svg, shown};
}

function marks(feature, where, lit) {
  const count = feature.indexes.length;
  const mains = where.mains(count), pins = where.pins(count);
  return feature.indexes.map((index, position) => {
    const isLit = litAt(feature, index, lit);
    if (feature.count === 'cylinders') return bore(index, where.cylinders[position].x, where.cylinders[position].y, isLit);
    if (feature.count === 'mains') return bar(index, mains[position], where.crank, 24, 26, isLit);
    return bar(index, pins[position], where.crank, 34, 20, isLit);
  });
}

/// One row of marks for each feature that the block does not show.
export function rows(plan, shown, lit) {
  const table = document.createElement('table');
  const caption = document.createElement('caption');
  caption.className = 'heard';
  caption.textContent = 'Features that are not drawn in the block';
  table.append(caption);
  for (const feature of plan.filter((each) => !shown.includes(each))) {
    const row = table.insertRow();
    const name = document.createElement('th');
    name.scope = 'row';
    name.textContent = spaced(feature.feature);
    row.append(name);
    const cell = row.insertCell();
    for (const index of feature.indexes) cell.append(rowMark(feature, index, lit));
  }
  return table;
}

function rowMark(feature, index, lit) {
  const item = document.createElement('span');
  item.className = index.places.some(litAt(feature, index, lit)) ? 'index lit' : 'index';
  const word = document.createElement('span');
  word.className = 'heard';
  word.textContent = ` ${WORDS[index.state]}, `;
  item.append(mark(index.state), feature.indexes.length > 1 ? index.label : WORDS[index.state]);
  if (feature.indexes.length > 1) item.append(word);
  return item;
}
