// Lists the operations of the contract and sends them. Everything shown is set as text, never as markup.
'use strict';

const BASE = '/api/v1';

function element(name, properties, ...children) {
  const e = Object.assign(document.createElement(name), properties);
  e.append(...children);
  return e;
}

function resolve(contract, thing) {
  return thing.$ref ? thing.$ref.slice(2).split('/').reduce((at, key) => at[key], contract) : thing;
}

function field(parameter) {
  const input = element('input', { required: Boolean(parameter.required), value: parameter.example ?? '' });
  const label = element('label', {}, `${parameter.name} (${parameter.in}) `, input, ' ',
    element('small', { textContent: parameter.description ?? '' }));
  return { parameter, input, label };
}

function address(path, fields) {
  let filled = path;
  const query = new URLSearchParams();
  for (const { parameter, input } of fields) {
    if (parameter.in === 'path') {
      filled = filled.replace(`{${parameter.name}}`, encodeURIComponent(input.value));
    } else if (parameter.in === 'query' && input.value) {
      if (parameter.name === 'parameters') {
        new URLSearchParams(input.value).forEach((value, name) => query.append(name, value));
      } else {
        query.append(parameter.name, input.value);
      }
    }
  }
  return BASE + filled + (query.size ? `?${query}` : '');
}

async function send(method, path, fields, body, type, out) {
  const headers = {};
  for (const { parameter, input } of fields) {
    if (parameter.in === 'header' && input.value) {
      headers[parameter.name] = input.value;
    }
  }
  if (body) {
    headers['Content-Type'] = type.value;
  }
  try {
    if (method !== 'GET') {
      headers['X-Csrf'] = (await (await fetch(`${BASE}/me`)).json()).csrf || '';
    }
    const answer = await fetch(address(path, fields), { method, headers, body: body ? body.value : undefined });
    const tag = answer.headers.get('ETag');
    out.textContent = `${answer.status}${tag ? `\nETag: ${tag}` : ''}\n\n${await answer.text()}`;
  } catch (error) {
    out.textContent = String(error);
  }
}

function operation(contract, path, method, described) {
  const fields = (described.parameters ?? []).map(p => field(resolve(contract, p)));
  const out = element('pre', {});
  const form = element('form', {}, ...fields.map(f => f.label));
  let body = null;
  let type = null;
  if (described.requestBody) {
    const types = Object.keys(resolve(contract, described.requestBody).content);
    type = element('select', {}, ...types.map(t => element('option', { textContent: t })));
    body = element('textarea', { spellcheck: false });
    form.append(element('label', {}, 'Content-Type ', type), element('label', {}, 'Body', body));
  }
  form.append(element('button', { textContent: 'Send' }));
  form.addEventListener('submit', event => {
    event.preventDefault();
    send(method.toUpperCase(), path, fields, body, type, out);
  });
  return element('details', {},
    element('summary', { textContent: `${method.toUpperCase()} ${path}: ${described.summary}` }),
    element('p', { textContent: described.description ?? '' }), form, out);
}

async function start() {
  const contract = await (await fetch(`${BASE}/openapi.json`)).json();
  const list = document.getElementById('operations');
  for (const [path, item] of Object.entries(contract.paths)) {
    for (const [method, described] of Object.entries(item)) {
      list.append(operation(contract, path, method, described));
    }
  }
}

start();
