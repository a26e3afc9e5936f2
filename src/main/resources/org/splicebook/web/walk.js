'use strict';
// One load point at a time. Entries live in the browser's own store until they are sent; what was sent is never changed. The pass itself is
// kept with them, so that a walk goes on after a discarded tab though the server would ask for another pass by now.
let data = JSON.parse(document.getElementById('data').textContent);
const main = document.getElementById('main');
const WALKS = `splicebook-walk/${data.house}/`;
const FILES = `splicebook-walk-files/${data.house}`;
const WHO = 'splicebook-walk-who';

function read(name) {
  try { return JSON.parse(localStorage.getItem(name)); } catch { return null; }
}
function write(name, value) {
  try { localStorage.setItem(name, JSON.stringify(value)); } catch {
    message = 'This browser keeps nothing: save the file before you leave the page.';
  }
}
function forget(name) {
  try { localStorage.removeItem(name); } catch { /* nothing was kept either */ }
}
function keyOf(d) { return `${WALKS}${d.pass}/${d.off.join(',')}/${d.points.length}`; }
function isWalk(w) { return w && Array.isArray(w.entries); }
function load(d) {
  const kept = read(keyOf(d));
  return isWalk(kept) ? kept : { tag: Math.random().toString(36).slice(2, 8), started: false, entries: [], sent: 0 };
}
function others() {
  const found = [];
  try {
    for (let i = 0; i < localStorage.length; i++) {
      const name = localStorage.key(i);
      const walk = name.startsWith(WALKS) && name !== keyOf(data) ? read(name) : null;
      if (isWalk(walk) && walk.data && (walk.entries.length > walk.sent || walk.entries.length < walk.data.points.length)) {
        if (walk.entries.length > 0) found.push(walk);
      }
    }
  } catch { /* nothing is kept */ }
  return found;
}
let message = '';
let sending = false;
let wanted = Infinity;
let state = load(data);
let files = read(FILES) || [];
let left = state.entries.length ? [] : others();

function keep() {
  state.data = data;
  write(keyOf(data), state);
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
function sightings(walk, d, from, to) {
  return walk.entries.slice(from, to).filter((e) => e.read !== 'not tried').map((e) => {
    const s = { id: `${d.pass}-${walk.tag}-${e.point.replace(/[^A-Za-z0-9-]/g, '-')}-${e.n}`, date: e.date, at: e.point,
      read: e.read, instrument: 'lamp', pass: d.pass };
    if (d.off.length) s['with-off'] = d.off;
    if (e.by) s.by = e.by;
    return s;
  });
}
function unsent() { return state.entries.length - state.sent + files.length; }

async function post(body) {
  if (body.length === 0) return true;
  try {
    const me = await (await fetch('/api/v1/me')).json();
    const answer = await fetch(data.send,
      { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Csrf': me.csrf || '' }, body: JSON.stringify(body) });
    if (answer.ok) {
      message = '';
      return true;
    }
    const told = await answer.json().catch(() => ({}));
    message = `The server did not take them: ${told.detail || told.title || answer.status}. They are kept here.`;
  } catch {
    message = 'No network. Everything is kept here; go on.';
  }
  return false;
}
async function send(leave) {
  const to = state.entries.length - leave;
  if (to <= state.sent && files.length === 0) return;
  if (sending) { // asked for while another sending is on its way: done after it
    wanted = Math.min(wanted, leave);
    return;
  }
  sending = true;
  if (files.length && await post(files)) {
    files = [];
    forget(FILES);
  }
  if (to > state.sent && await post(sightings(state, data, state.sent, to))) {
    state.sent = Math.max(state.sent, to);
    keep();
  }
  sending = false;
  show();
  const again = wanted;
  wanted = Infinity;
  if (again !== Infinity && message === '') send(again);
}
function choose(what) {
  const n = state.entries.length;
  state.entries.push({ point: data.points[n].id, read: what, date: day(), n, by: read(WHO) || '' });
  keep();
  show();
  if (!sending && state.entries.length - state.sent > 5) send(1);
}
function undo() {
  if (state.entries.length > state.sent && !sending) {
    state.entries.pop();
    keep();
  }
  show();
}
function save() {
  const all = [...files, ...sightings(state, data, 0, state.entries.length)];
  const blob = new Blob([JSON.stringify(all, null, 1)], { type: 'application/json' });
  const link = element('a', { href: URL.createObjectURL(blob), download: `${data.house}-${data.pass}.json` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
async function takeIn(input) {
  let all = null;
  try { all = JSON.parse(await input.files[0].text()); } catch { /* told below */ }
  if (!Array.isArray(all) || !all.every((s) => s && s.id && s.at && s.date)) {
    message = 'That is no file of readings saved by this page. Nothing was taken in.';
    show();
    return;
  }
  files = [...files, ...all.filter((s) => !files.some((f) => f.id === s.id))];
  write(FILES, files);
  await send(1);
  if (files.length === 0) message = `${all.length} readings of the file were taken in. Look again for the pass that is next by them.`;
  show();
}
function button(words, act, properties = {}) {
  return element('button', { type: 'button', textContent: words, onclick: act, ...properties });
}
function list(title) {
  const section = data.sections.find((s) => s.title.startsWith(title));
  return section && section.lines.length ? [element('h2', { textContent: section.title }),
    element('ol', {}, ...section.lines.map((l) => element('li', { textContent: l })))] : [];
}
function field(words, input) { return element('label', {}, words, input); }
function filed() {
  const input = element('input', { type: 'file', accept: '.json,application/json' });
  input.onchange = () => takeIn(input);
  return field('Take in a file that was saved here or on another phone', input);
}
function foot() {
  return [element('p', { textContent: `${unsent()} not sent yet.` }), ...(message ? [element('p', { className: 'note', textContent: message })] : []),
    element('div', { className: 'two' }, button('Send now', () => send(0), { disabled: unsent() === 0 }),
      button('Save as a file', save, { disabled: state.entries.length === 0 && files.length === 0 }))];
}
function next() {
  if (state.sent === state.entries.length) forget(keyOf(data));
  location.href = `${location.pathname}?at=${Date.now()}`;
}
function resume(walk) {
  data = { ...walk.data, send: data.send };
  state = walk;
  left = [];
  show();
}
async function letGo(walk) {
  if (await post(sightings(walk, walk.data, walk.sent, walk.entries.length))) {
    forget(keyOf(walk.data));
    if (walk.entries.length > walk.sent) {
      next(); // what is next by these readings may be another pass
      return;
    }
    left = left.filter((w) => w !== walk);
  }
  show();
}
function unfinished(walk) {
  const d = walk.data;
  return [element('h2', { textContent: `${d.pass}: ${walk.entries.length} of ${d.points.length} read here, ${walk.entries.length - walk.sent} not sent` }),
    element('p', { textContent: d.off.length ? `Off in it: ${d.off.join(', ')}.` : '' }),
    button('Go on with it', () => resume(walk), { className: 'choice' }),
    button(walk.entries.length > walk.sent ? 'Send what was read, and end it' : 'End it', () => letGo(walk))];
}

function show() {
  const done = state.entries.length;
  const parts = [element('h1', { textContent: `${data.name}: ${data.pass || 'survey'}` })];
  if (left.length) {
    parts.push(element('p', { textContent: 'A walk was begun on this phone and not ended.' }), ...left.flatMap(unfinished),
      ...(message ? [element('p', { className: 'note', textContent: message })] : []));
  } else if (data.points.length === 0) {
    parts.push(element('p', { textContent: data.outcome }), ...list('First'), ...list('Readings that'), button('Look again', next), filed(), ...foot());
  } else if (!state.started) {
    const who = element('input', { type: 'text', value: read(WHO) || '', maxLength: 60, autocomplete: 'off' });
    who.onchange = () => write(WHO, who.value.trim());
    parts.push(element('p', { textContent: data.outcome }), ...list('Before'), ...list('Turn on again'), ...list('Turn off'), ...list('Kept apart'),
      element('p', { className: 'note', textContent: 'Out is what a lamp shows. It never means dead: touch no wire by it.' }),
      field('Who walks (may be left empty)', who),
      button('These are off: begin', () => { state.started = true; keep(); show(); }, { className: 'choice' }),
      ...list('Readings that'), filed(), ...(files.length || message ? foot() : []),
      element('h2', { textContent: 'Take care' }), element('ul', {}, ...data.cautions.map((c) => element('li', { textContent: c }))));
  } else if (done < data.points.length) {
    const at = data.points[done];
    const room = data.points.filter((p) => p.place === at.place);
    const isOpen = state.entries.length > state.sent;
    parts.push(element('progress', { max: data.points.length, value: done, ariaLabel: 'Progress' }),
      element('p', { className: 'place', textContent: `${at.place}, ${room.indexOf(at) + 1} of ${room.length} here; ${done + 1} of ${data.points.length} in all` }),
      element('p', { className: 'point', textContent: at.id }),
      button('Lit', () => choose('lit'), { className: 'choice' }), button('Not lit', () => choose('not lit'), { className: 'choice' }),
      button('Not tried', () => choose('not tried'), { className: 'choice' }),
      button(done ? (isOpen ? `Undo ${state.entries[done - 1].point}: ${state.entries[done - 1].read}` : 'Sent readings stay') : 'Undo', undo,
        { disabled: !isOpen }),
      ...foot());
  } else {
    parts.push(element('p', { textContent: 'Every point of this pass is done.' }), ...list('After'),
      button('Undo the last', undo, { disabled: state.entries.length === state.sent }), ...foot(),
      button('Next pass', next, { disabled: unsent() > 0 }));
  }
  main.replaceChildren(...parts);
}
addEventListener('online', () => send(1));
show();
