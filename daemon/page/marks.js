// Signs for states, each a shape of its own, and their words. Everything is built node by node: no name can become markup.

const SVG = 'http://www.w3.org/2000/svg';

export const WORDS = {
  unread: 'not measured', part: 'partly measured', read: 'measured', in: 'in', doubtful: 'doubtful', out: 'out',
  suspect: 'suspect', claimed: 'claimed',
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
  claimed: ['M-10 -7H10V7H-10Z', 'M-2 -3L-4 3M4 -3L2 3'],
  away: ['M1 -7H-9V9H7V-1', 'M-3 3L9 -9M2 -9H9V-2'],
  setup: ['M-10 -9H10V-5H-10ZM-10 5H10V9H-10Z', 'M0 -3V3'],
};

export function drawn(name, attributes, ...children) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

export function lettering(text, x, y, size, anchor = 'middle') {
  const made = drawn('text', {x, y, 'font-size': size, 'text-anchor': anchor, class: 'label'});
  made.textContent = text;
  return made;
}

/// Hollow with a broken edge where no check of the gauge confirms it yet.
export function badge(state, hollow, x, y, scale = 1) {
  const [shape, sign] = SHAPES[state];
  return drawn('g', {class: `badge ${state}${hollow ? ' hollow' : ''}`, transform: `translate(${x} ${y}) scale(${scale})`},
    drawn('path', {d: shape, class: 'shape'}), drawn('path', {d: sign, class: 'sign'}));
}

/// A mark that stands in a line of text.
export function mark(state, hollow = false) {
  return drawn('svg', {viewBox: '-12 -12 24 24', class: 'mark', 'aria-hidden': 'true'}, badge(state, hollow, 0, 0));
}

/// Names as people say them.
export const spaced = (name) => name.replaceAll('_', ' ');

/// The sign of an index in the plan: of a part that is away all that matters is that it is.
export const signOf = (feature, index) => feature.away ? 'away' : index.state;

export function wordsOf(feature, index) {
  return [feature.away ? 'away' : null, WORDS[index.state], index.unconfirmed ? 'unconfirmed' : null].filter(Boolean).join(', ');
}
