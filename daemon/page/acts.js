// What can be done from the page, by whoever has its token.

import {find, node} from '/elements.js';

// The token comes behind the `#` once and is kept for this tab only.
function takeToken() {
  const found = /^#token=([\w-]+)$/.exec(location.hash);
  if (!found) return sessionStorage.getItem('token');
  sessionStorage.setItem('token', found[1]);
  history.replaceState(null, '', location.pathname);
  return found[1];
}

const token = takeToken();
export const mayAct = Boolean(token);

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

/// For the place of this gauge; null: the common one. `live`: some gauge shows a value that can be taken.
export function buttons(gauge, live) {
  if (!mayAct) return null;
  const names = {back: 'Back', next: 'Next', undo: 'Undo', ...(live ? {take: 'Take'} : {})};
  return node('div', {className: 'acts'}, ...Object.entries(names).map(([name, word]) => {
    const button = node('button', {type: 'button', textContent: word, onclick: () => act(name, gauge)});
    button.dataset.act = `${name} ${gauge ?? ''}`;
    if (gauge) button.setAttribute('aria-label', `${word}, ${gauge}`);
    return button;
  }));
}
