// Elements of the page. What came from outside goes into them as text and never becomes markup.

export const find = (id) => document.getElementById(id);

export function node(name, properties = {}, ...children) {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children.filter((child) => child !== null && child !== undefined && child !== ''));
  return made;
}

export function replace(id, ...children) {
  find(id).replaceChildren(...children.filter(Boolean));
}

export function age(seconds) {
  return seconds < 120 ? `${seconds} s` : seconds < 7200 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`;
}
