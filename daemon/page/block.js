// The block drawn from above, with the places of its features.

import {badge, drawn, lettering, signOf, spaced, wordsOf} from '/marks.js';

const PITCH = 100, RADIUS = 36, BANK = 104, CRANK = 72, EDGE = 34;

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
function bore(feature, index, x, y, isLit) {
  const {levels, axes} = grid(index);
  const hub = 15, step = (RADIUS - hub) / levels.length, width = Math.PI / axes.length;
  const group = drawn('g', {transform: `translate(${x} ${y})`, class: `index ${index.state}${feature.away ? ' away' : ''}`});
  for (const place of index.places) {
    const outer = RADIUS - step * levels.indexOf(place.level), middle = Math.PI / 2 + width * axes.indexOf(place.axis);
    for (const turn of [0, Math.PI])
      group.append(drawn('path', {d: arc(outer - step, outer, middle + turn, width), class: stateClass(place, isLit(place))}));
  }
  if (index.places.some(isLit)) group.append(drawn('circle', {r: RADIUS + 6, class: 'halo'}));
  group.append(lettering(index.label, 0, index.label.length > 2 ? 4 : 6, index.label.length > 2 ? 12 : 18));
  group.append(badge(signOf(feature, index), index.unconfirmed, RADIUS * 0.8, RADIUS * 0.8));
  return group;
}

// A bearing, journal or pin: a grid of its places, the levels along the crank.
function bar(feature, index, x, y, width, height, isLit) {
  const {levels, axes} = grid(index);
  const group = drawn('g', {transform: `translate(${x} ${y})`, class: `index ${index.state}${feature.away ? ' away' : ''}`});
  const w = width / levels.length, h = height / axes.length;
  for (const place of index.places)
    group.append(drawn('rect', {x: -width / 2 + w * levels.indexOf(place.level), y: -height / 2 + h * axes.indexOf(place.axis),
      width: w, height: h, class: stateClass(place, isLit(place))}));
  if (index.places.some(isLit))
    group.append(drawn('rect', {x: -width / 2 - 5, y: -height / 2 - 5, width: width + 10, height: height + 10, class: 'halo'}));
  group.append(lettering(index.label, 0, -height / 2 - 9, 14), badge(signOf(feature, index), index.unconfirmed, 0, height / 2 + 11, 0.8));
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
  return `${spaced(feature.feature)}: ${feature.indexes.map((index) => `${index.label} ${wordsOf(feature, index)}`).join(', ')}`;
}

export function litAt(feature, index, lit) {
  return (place) => lit.some((here) => here.feature === feature.feature && here.index === index.index
    && here.level === place.level && here.axis === place.axis);
}

/// The block from above. `lit`: the places where the next readings belong. Null where the spec has no layout to draw.
export function block(plan, layout, lit) {
  const features = ['cylinders', 'mains', 'crankpins'].map((count) => chosen(plan, count, lit)).filter(Boolean);
  if (!features.length) return {svg: null, features: []};
  const where = geometry(layout);
  const svg = drawn('svg', {viewBox: `0 0 ${where.width} ${where.height}`, role: 'img', 'aria-label': `The block from above. ${features.map(summary).join('. ')}.`, class: 'block'});
  svg.append(drawn('pattern', {id: 'hatched', width: 5, height: 5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)'},
    drawn('path', {d: 'M0 0V5', class: 'hatch'})));
  svg.append(drawn('rect', {x: 4, y: 4, width: where.width - 8, height: where.height - 8, rx: 14, class: 'outline'}));
  svg.append(drawn('path', {d: `M8 ${where.crank}H${where.width - 8}`, class: 'crank'}));
  if (layout.viewed_from) svg.append(lettering(layout.viewed_from, 14, 24, 15, 'start'));
  for (const feature of features) svg.append(...marks(feature, where, lit));
  return {svg, features};
}

function marks(feature, where, lit) {
  const count = feature.indexes.length;
  const mains = where.mains(count), pins = where.pins(count);
  return feature.indexes.map((index, position) => {
    const isLit = litAt(feature, index, lit);
    if (feature.count === 'cylinders') return bore(feature, index, where.cylinders[position].x, where.cylinders[position].y, isLit);
    if (feature.count === 'mains') return bar(feature, index, mains[position], where.crank, 24, 26, isLit);
    return bar(feature, index, pins[position], where.crank, 34, 20, isLit);
  });
}
