'use strict';
// One load point at a time. Entries live in the browser's own store until they are sent; what was sent is never changed.
const data = JSON.parse(document.getElementById('data').textContent);
const main = document.getElementById('main');
const key = `splicebook-walk/${data.house}/${data.pass}/${data.off.join(',')}/${data.points.length}`;

function load() {
  try {
    const kept = JSON.parse(localStorage.getItem(key));
    if (kept && Array.isArray(kept.entries)) return kept;
  } catch { /* begins anew below */ }
  return { tag: Math.random().toString(36).slice(2, 8), started: false, entries: [], sent: 0 };
}
const state = load();
let message = '';
let sending = false;

function keep() {
  try { localStorage.setItem(key, JSON.stringify(state)); } catch {
    message = 'This browser keeps nothing: save the file before you leave the page.';
  }
}
function element(name, properties, ...children) {
  const e = Object.assign(document.createElement(name), properties);
  e.append(...children);
  return e;
}
function day() {
  const d = new Date();
  return [d.getFullYear(), String(d.getMonth() + 1).padStart(2, '0'), String(d.getDate()).padStart(2, '0')].join('-');
}
function sightings(from, to) {
  return state.entries.slice(from, to).filter((e) => e.read !== 'not tried').map((e) => {
    const s = { id: `${data.pass}-${state.tag}-${e.point.replace(/[^A-Za-z0-9-]/g, '-')}-${e.n}`, date: e.date, at: e.point,
      read: e.read, instrument: 'lamp', pass: data.pass };
    if (data.off.length) s['with-off'] = data.off;
    return s;
  });
}
function unsent() { return state.entries.length - state.sent; }

async function send(leave) {
  const to = state.entries.length - leave;
  if (sending || to <= state.sent) return;
  sending = true;
  const body = sightings(state.sent, to);
  try {
    const me = body.length === 0 ? {} : await (await fetch('/api/v1/me')).json();
    const answer = body.length === 0 ? { ok: true } : await fetch(data.send,
      { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Csrf': me.csrf || '' }, body: JSON.stringify(body) });
    if (answer.ok) {
      state.sent = to;
      message = '';
      keep();
    } else {
      const told = await answer.json().catch(() => ({}));
      message = `The server did not take them: ${told.detail || told.title || answer.status}. They are kept here.`;
    }
  } catch {
    message = 'No network. Everything is kept here; go on.';
  }
  sending = false;
  show();
}
function choose(read) {
  const n = state.entries.length;
  state.entries.push({ point: data.points[n].id, read, date: day(), n });
  keep();
  show();
  if (unsent() > 5) send(1);
}
function undo() {
  if (unsent() > 0 && !sending) {
    state.entries.pop();
    keep();
  }
  show();
}
function save() {
  const blob = new Blob([JSON.stringify(sightings(0, state.entries.length), null, 1)], { type: 'application/json' });
  const link = element('a', { href: URL.createObjectURL(blob), download: `${data.house}-${data.pass}.json` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
function button(words, act, properties = {}) {
  return element('button', { type: 'button', textContent: words, onclick: act, ...properties });
}
function list(title) {
  const section = data.sections.find((s) => s.title.startsWith(title));
  return section ? [element('h2', { textContent: section.title }),
    element('ol', {}, ...section.lines.map((l) => element('li', { textContent: l })))] : [];
}
function foot() {
  return [element('p', { textContent: `${unsent()} not sent yet.` }), ...(message ? [element('p', { className: 'note', textContent: message })] : []),
    element('div', { className: 'two' }, button('Send now', () => send(0), { disabled: unsent() === 0 }),
      button('Save as a file', save, { disabled: state.entries.length === 0 }))];
}
function next() { location.href = `${location.pathname}?at=${Date.now()}`; }

function show() {
  const done = state.entries.length;
  const parts = [element('h1', { textContent: `${data.name}: ${data.pass || 'survey'}` })];
  if (data.points.length === 0) {
    parts.push(element('p', { textContent: data.outcome }), ...list('First'), button('Look again', next));
  } else if (!state.started) {
    parts.push(element('p', { textContent: data.outcome }), ...list('Before'), ...list('Turn off'), ...list('Kept apart'),
      element('p', { className: 'note', textContent: 'Out is what a lamp shows. It never means dead: touch no wire by it.' }),
      button('These are off: begin', () => { state.started = true; keep(); show(); }, { className: 'choice' }),
      element('h2', { textContent: 'Take care' }), element('ul', {}, ...data.cautions.map((c) => element('li', { textContent: c }))));
  } else if (done < data.points.length) {
    const at = data.points[done];
    const room = data.points.filter((p) => p.place === at.place);
    parts.push(element('progress', { max: data.points.length, value: done, ariaLabel: 'Progress' }),
      element('p', { className: 'place', textContent: `${at.place}, ${room.indexOf(at) + 1} of ${room.length} here; ${done + 1} of ${data.points.length} in all` }),
      element('p', { className: 'point', textContent: at.id }),
      button('Lit', () => choose('lit'), { className: 'choice' }), button('Not lit', () => choose('not lit'), { className: 'choice' }),
      button('Not tried', () => choose('not tried'), { className: 'choice' }),
      button(done ? (unsent() ? `Undo ${state.entries[done - 1].point}: ${state.entries[done - 1].read}` : 'Sent readings stay') : 'Undo', undo,
        { disabled: done === 0 || unsent() === 0 }),
      ...foot());
  } else {
    parts.push(element('p', { textContent: 'Every point of this pass is done.' }), ...list('After'),
      button('Undo the last', undo, { disabled: unsent() === 0 }), ...foot(),
      button('Next pass', next, { disabled: unsent() > 0 }));
  }
  main.replaceChildren(...parts);
}
addEventListener('online', () => send(1));
show();
