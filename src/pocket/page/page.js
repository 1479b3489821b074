// The page round the module: what it says is shown as text, what is typed goes to it. Nothing is worked out here.
'use strict';
(() => {
const by = id => document.getElementById(id);
const given = JSON.parse(by('job').textContent);
const state = { at: -1, reading: 0, step: -1, hidden: 0, page: null, module: null, drawn: false, last: 0 };
let call;  // call('pocketOpen', text, …): a text or a number from the module

/// An element with texts and elements in it, or one of a drawing's; texts stay texts.
function el(name, attributes, ...inside) {
  const drawn = ['svg', 'polygon', 'rect', 'text'].includes(name);
  const made = drawn ? document.createElementNS('http://www.w3.org/2000/svg', name) : document.createElement(name);
  for (const [key, value] of Object.entries(attributes || {})) {
    if (key.startsWith('on')) made.addEventListener(key.slice(2), value);
    else if (value !== false && value !== undefined) made.setAttribute(key, value === true ? '' : value);
  }
  made.append(...inside.filter(each => each !== null && each !== undefined && each !== ''));
  return made;
}
const say = text => { by('sent').textContent = text; };

// What was typed is kept in the browser, under the job's own text.

function hashOf(text) {
  let hash = 5381;
  for (let i = 0; i < text.length; ++i) hash = (hash * 33 ^ text.charCodeAt(i)) >>> 0;
  return hash.toString(16);
}
const kept = {
  key: '',
  read() { try { return JSON.parse(localStorage.getItem(this.key) || '{}'); } catch { return {}; } },
  write(all) { try { localStorage.setItem(this.key, JSON.stringify(all)); return true; } catch { return false; } },
  put(opening, reading, text) {
    const all = this.read();
    (all[opening] = all[opening] || {})[reading] = text;
    if (!this.write(all)) say('This browser keeps nothing: send the measurements before the page is closed.');
  },
  clear() { try { localStorage.removeItem(this.key); } catch { /* nothing was kept */ } },
};

// The job.

const mistakes = told => (told.startsWith('!') ? [{ say: told.slice(1) }] : JSON.parse(told).errors).map(each =>
  (each.line ? 'Line ' + each.line + ': ' : '') + (each.key ? each.key + ': ' : '') + each.say).join(' ');
function open(files, path) {
  for (const [name, text] of Object.entries(files)) {
    const folder = name.slice(0, name.lastIndexOf('/'));
    if (folder) state.module.FS.mkdirTree(folder);
    state.module.FS.writeFile(name, text);
  }
  const wrong = call('pocketOpen', path);
  if (wrong) {
    by('summary').textContent = 'The job can’t be read. ' + mistakes(wrong);
    return false;
  }
  train('leave');
  kept.key = 'sillwright ' + hashOf(files[path]);
  state.at = -1;
  refresh();
  for (const [name, readings] of Object.entries(kept.read())) {
    const at = state.page.openings.findIndex(each => each.name === name);
    for (const [reading, text] of Object.entries(readings)) if (at >= 0) call('pocketType', at, Number(reading), text);
  }
  refresh();
  look('house', true);
  return true;
}

function refresh() {
  state.page = JSON.parse(call('pocketPage'));
  const page = state.page;
  document.title = page.title || page.file;
  by('title').textContent = page.title || page.file;
  by('of').textContent = page.of;
  by('summary').textContent = page.summary;
  by('openings').replaceChildren(...page.openings.map((each, i) =>
    el('button', { 'aria-current': String(i === state.at), onclick: () => pick(i) },
      el('strong', { dir: 'auto' }, each.name), ' ', el('span', { dir: 'auto' }, each.tag ? '(' + each.tag + ') ' : ''),
      each.title, el('br'), el('span', { class: 'verdict ' + each.verdict }, each.verdict_words), ', ' + each.basis)));
  by('cautions').replaceChildren(el('h2', {}, 'Take care'), el('ul', {}, ...page.cautions.map(each => el('li', {}, each))));
  showOpening();
  draw();
}

function pick(i) {
  state.at = i;
  state.step = -1;
  state.reading = 0;
  refresh();
  look(i < 0 ? 'house' : 'outside');
  if (i >= 0) by('opening').scrollIntoView({ block: 'start' });
}

// One opening.

function showOpening() {
  const into = by('opening');
  into.hidden = state.at < 0;
  if (state.at < 0) return;
  const it = JSON.parse(call('pocketOpening', state.at));
  const focused = document.activeElement && document.activeElement.id === 'reading';
  into.replaceChildren(
    el('h2', { dir: 'auto' }, it.name + ': ' + it.title),
    el('p', {}, el('span', { class: 'verdict ' + it.verdict }, it.verdict_words), ', ' + it.basis + '. ' + it.fit),
    ...it.findings.filter(each => each.severity !== 'note').map(finding),
    el('h3', {}, 'Measure'), measure(it),
    el('h3', {}, 'Gaps and packers'), drawing(it), table(['side', 'at', 'gap', 'packers'], it.packers.map(p => [p.side, p.at, p.gap, p.stack])),
    el('h3', {}, 'Fixings'), table(['side', 'at', 'screw'], it.fixings.map(f => [f.side, f.at, f.screw])),
    el('h3', {}, 'Water'), el('p', { role: 'status' }, it.water || 'No water is traced before the unit stands.'),
    el('details', { open: it.choices.some(each => each.chosen) }, el('summary', {}, 'What if it is done wrong'), ...it.choices.map(whatIf)),
    el('h3', {}, 'Order of work'), el('button', { onclick: () => setExercise('') }, 'As an exercise: cards to put in order'), steps(it),
    el('details', {}, el('summary', {}, 'Notes'), ...it.findings.filter(each => each.severity === 'note').map(finding)));
  if (focused) by('reading').focus({ preventScroll: true });
}
const whatIf = (each, i) => el('label', {}, el('input', { id: 'wrong' + i, type: 'checkbox', checked: each.chosen,
  onchange: () => { call('pocketWhatIf', i); showOpening(); by('wrong' + i).focus(); draw(); } }), ' ', each.words);
const finding = each => el('div', { class: 'finding ' + each.severity }, el('p', {}, each.say),
  each.remedy ? el('p', {}, '→ ' + each.remedy) : null, each.caution ? el('p', {}, 'Take care: ' + each.caution) : null,
  each.source ? el('p', { class: 'quiet' }, each.source) : null);
const table = (head, rows) => el('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': head.join(', ') },
  el('table', {}, el('thead', {}, el('tr', {}, ...head.map(each => el('th', { scope: 'col' }, each)))),
    el('tbody', {}, ...rows.map(row => el('tr', {}, ...row.map(each => el('td', { dir: 'auto' }, each)))))));

function measure(it) {
  const reading = it.readings[state.reading];
  const input = el('input', { id: 'reading', type: 'text', inputmode: state.page.inches ? 'text' : 'decimal', autocomplete: 'off',
    'aria-describedby': 'how', enterkeyhint: 'next', value: reading.value });
  const refused = el('p', { class: 'refused', role: 'alert' });
  const move = step => {
    const said = call('pocketType', state.at, state.reading, input.value);
    if (said) { refused.textContent = said.replace(/^!/, ''); input.focus(); return; }
    if (input.value !== reading.value) kept.put(it.name, state.reading, input.value);
    state.reading = (state.reading + step + it.readings.length) % it.readings.length;
    refresh();
    const next = by('reading');
    next.focus({ preventScroll: true });
    next.select();
    next.closest('.measure').scrollIntoView({ block: 'nearest' });
  };
  input.addEventListener('keydown', event => { if (event.key === 'Enter') { event.preventDefault(); move(event.shiftKey ? -1 : 1); } });
  const suspects = it.readings.filter(each => each.suspect).map(each => each.name);
  return el('div', { class: 'measure' },
    el('label', { for: 'reading' }, el('strong', {}, (state.reading + 1) + ' of ' + it.readings.length + ': ' + reading.name)),
    el('p', { id: 'how', class: 'quiet' }, reading.how + (reading.planned ? '; planned ' + reading.planned : '') +
      (state.page.inches ? ' (inches)' : ' (mm)')),
    input, refused,
    suspects.length ? el('p', { class: 'verdict stop', role: 'alert' }, 'Take again: ' + suspects.join(', ') + '.') : null,
    el('div', { class: 'row' }, el('button', { onclick: () => move(-1) }, '‹ before'), el('button', { id: 'next', onclick: () => move(1) }, 'next ›')),
    el('details', {}, el('summary', {}, 'All readings'), table(['reading', 'measured', 'planned'],
      it.readings.map(each => [each.name + (each.suspect ? ' ?' : ''), each.value || '–', each.planned]))));
}

/// The gaps larger than they are, so that they can be seen; what packs them beside each place.
function drawing(it) {
  const unit = it.unit, xs = unit.map(p => p[0]), zs = unit.map(p => p[1]);
  const x = Math.min(...xs), z = Math.min(...zs), w = Math.max(...xs) - x, h = Math.max(...zs) - z;
  const scale = 300 / Math.max(w, h), grow = 16 / 10, left = 90, top = 30;
  const flip = ([px, pz]) => [left + (px - x) * scale, top + (z + h - pz) * scale];
  const at = unit.map(flip);
  const outer = it.corners.map((corner, i) => {
    const away = [(corner[0] - unit[i][0]) * grow, (corner[1] - unit[i][1]) * grow];
    return [at[i][0] + away[0], at[i][1] - away[1]];
  });
  const whole = el('svg', { viewBox: '0 0 ' + (w * scale + 2 * left) + ' ' + (h * scale + 2 * top + 30), role: 'img',
    'aria-label': 'The unit in its opening from outside, gaps drawn larger; the table below says the same' });
  whole.append(el('polygon', { class: 'frame', points: outer.map(p => p.join(',')).join(' ') }),
    el('polygon', { class: 'unit', points: at.map(p => p.join(',')).join(' ') }));
  it.packers.forEach((p, i) => {
    const [px, py] = flip([p.x, p.z]);
    const upright = p.side === 'left' || p.side === 'right';
    const out = p.side === 'left' ? -1 : 1;
    whole.append(upright ? el('rect', { class: 'packer', x: out < 0 ? px - 12 : px + 1, y: py - 3, width: 11, height: 6 })
      : el('rect', { class: 'packer', x: px - 6, y: p.side === 'sill' ? py + 1 : py - 8, width: 12, height: 7 }),
      el('text', upright ? { x: px + out * 20, y: py + 4, 'text-anchor': out < 0 ? 'end' : 'start' }
        : { x: px, y: p.side === 'sill' ? py + 20 + i % 3 * 11 : py - 12 - i % 3 * 11, 'text-anchor': 'middle' }, p.stack));
  });
  return whole;
}

function steps(it) {
  const show = i => { state.step = i; look('outside'); showOpening(); };
  return el('ol', { class: 'steps' }, ...it.steps.map((each, i) => el('li', {},
    el('button', { 'aria-pressed': String(state.step === i + 1), onclick: () => show(state.step === i + 1 ? -1 : i + 1) }, each.title),
    el('p', {}, each.what), each.parts.length ? el('p', { class: 'quiet' }, each.parts.join('; ')) : null,
    each.tools.length ? el('p', { class: 'quiet' }, 'Tools: ' + each.tools.join(', ')) : null,
    each.check ? el('p', {}, 'Before the next step: ' + each.check) : null,
    each.caution ? el('p', { class: 'attention' }, 'Take care: ' + each.caution) : null)));
}

// An exercise: the module deals the cards, judges what was done and keeps the score.

/// Sets that of a file, or, for '', the cards of the opening that is looked at.
function setExercise(path, round = 0) {
  const at = call('pocketExercise', path, state.at, round);
  if (!/^\d+$/.test(at)) { say('The exercise can’t be set. ' + mistakes(at)); return; }
  state.exercise = { path, round, began: Date.now() };
  pick(Number(at));
  train('look', 0, 0, 'exercise');
}
/// Does something about it, and shows how it then stands; `focus`: where the keys go on.
function train(act, first = 0, second = 0, focus = '') {
  const told = call('pocketTrain', act, first, second);
  document.body.classList.toggle('training', told !== '');
  by('exercise').replaceChildren(...told ? exercise(JSON.parse(told)) : []);
  if (by(focus)) by(focus).focus();
  draw();
}
function exercise(it) {
  const move = (title, i, way, sign) => el('button', { id: way + i, 'aria-label': title + ': ' + way, disabled: it.solved,
    onclick: () => { const to = Math.min(Math.max(i + (way === 'up' ? -1 : 1), 0), it.cards.length - 1); train('move', i, to, way + to); } }, sign);
  const option = (each, question, i) => el('label', {}, el('input', { id: 'pick' + question + '-' + i, name: 'question' + question,
    type: it.questions[question].several ? 'checkbox' : 'radio', checked: each.picked, disabled: it.solved,
    onchange: () => train('pick', question, i, 'pick' + question + '-' + i) }), ' ', each.words);
  const seconds = () => Math.round((Date.now() - state.exercise.began) / 1000);
  return [el('h2', {}, it.title), el('p', {}, it.asked),
    el('ol', {}, ...it.cards.map((title, i) => el('li', {}, move(title, i, 'up', '↑'), move(title, i, 'down', '↓'), ' ' + title))),
    ...it.questions.map((each, question) => el('fieldset', {}, el('legend', {}, each.asks), el('p', {}, each.given),
      ...each.options.map((one, i) => option(one, question, i)))),
    el('div', { id: 'said', role: 'status', tabindex: '-1' },
      ...it.said.map(each => el('p', { class: each.good ? 'finding' : 'finding stop' }, (each.good ? '✓ ' : '✗ ') + each.words)),
      it.judged ? el('p', {}, (it.solved ? 'Solved. ' : '') + it.score) : null),
    el('button', { id: 'answer', disabled: it.solved, onclick: () => train('answer', seconds(), 0, 'said') }, 'Answer'), ' ',
    el('button', { onclick: () => setExercise(state.exercise.path, state.exercise.round + 1) }, 'Again'), ' ',
    el('button', { onclick: () => train('leave') }, 'Leave the exercise')];
}

// The picture.

const canvas = by('canvas');
function look(view, atOnce) {
  call('pocketLookAt', state.at, view, state.step, atOnce ? 1 : 0);
  draw();
}
function applyLook() {
  document.documentElement.classList.toggle('dark', by('dark').checked);
  call('pocketLook', by('dark').checked ? 1 : 0, state.hidden, Number(by('spread').value));
  draw();
}
// While the eye moves on a slow machine the picture is drawn smaller, as small as it takes; whole again when it rests.
const kSlow = 45, kQuick = 20, kCoarsest = 0.35, kRest = 160;  // milliseconds; a share of the size
let asked = false, coarse = 1, rest = 0;
function draw(moving) {
  if (asked || !state.drawn) return;
  asked = true;
  clearTimeout(rest);
  requestAnimationFrame(now => {
    asked = false;
    const took = now - state.last;
    if (moving === true && took < 1000) coarse = took > kSlow ? Math.max(coarse * 0.7, kCoarsest) : took < kQuick ? Math.min(coarse * 1.1, 1) : coarse;
    const ratio = Math.min(window.devicePixelRatio || 1, 2) * (moving === true ? coarse : 1);
    const width = Math.round(canvas.clientWidth * ratio), height = Math.round(canvas.clientHeight * ratio);
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
      call('pocketSize', width, height);
    }
    const flying = call('pocketDraw', Math.min((now - state.last) / 1000, 0.05));
    state.last = now;
    const places = JSON.parse(call('pocketPlaces'));
    by('names').replaceChildren(...places.map(([x, y, seen], i) => {
      if (!seen || (state.at >= 0 && i !== state.at)) return '';
      const name = el('span', { dir: 'auto' }, state.page.openings[i].name);
      name.style.left = x / ratio + 'px';
      name.style.top = y / ratio + 'px';
      return name;
    }));
    if (flying) draw(true);
    else if (moving === true && coarse < 1) rest = setTimeout(draw, kRest);
  });
}
const fingers = new Map();
let moved = 0;
const scaled = event => {
  const box = canvas.getBoundingClientRect(), ratio = canvas.width / box.width;
  return [(event.clientX - box.left) * ratio, (event.clientY - box.top) * ratio];
};
canvas.addEventListener('pointerdown', event => {
  canvas.setPointerCapture(event.pointerId);
  fingers.set(event.pointerId, scaled(event));
  if (fingers.size === 1) moved = 0;
});
canvas.addEventListener('pointermove', event => {
  const before = fingers.get(event.pointerId);
  if (!before) return;
  const now = scaled(event), dx = now[0] - before[0], dy = now[1] - before[1];
  moved += Math.abs(dx) + Math.abs(dy);
  const other = [...fingers].find(([id]) => id !== event.pointerId);
  fingers.set(event.pointerId, now);
  if (other) {
    const apart = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
    const middle = [(now[0] + other[1][0]) / 2, (now[1] + other[1][1]) / 2];
    call('pocketZoom', middle[0], middle[1], apart(before, other[1]) / Math.max(apart(now, other[1]), 1));
    call('pocketDrag', 1, middle[0], middle[1], dx / 2, dy / 2);
  } else {
    call('pocketDrag', event.shiftKey || event.buttons === 4 ? 1 : 0, now[0], now[1], dx, dy);
  }
  draw(true);
});
const lift = event => {
  const at = fingers.get(event.pointerId);
  fingers.delete(event.pointerId);
  if (!at || event.type === 'pointercancel' || moved > 8 || fingers.size) return;
  const opening = call('pocketPick', at[0], at[1]);
  if (opening >= 0) pick(opening);
};
canvas.addEventListener('pointerup', lift);
canvas.addEventListener('pointercancel', lift);
canvas.addEventListener('wheel', event => {
  event.preventDefault();
  const [x, y] = scaled(event);
  call('pocketZoom', x, y, Math.exp(event.deltaY * 0.001));
  draw(true);
}, { passive: false });
canvas.addEventListener('keydown', event => {
  const turn = { ArrowLeft: [-40, 0], ArrowRight: [40, 0], ArrowUp: [0, -40], ArrowDown: [0, 40] }[event.key];
  const middle = [canvas.width / 2, canvas.height / 2];
  if (turn) call('pocketDrag', 0, ...middle, ...turn);
  else if (event.key === '+' || event.key === '-') call('pocketZoom', ...middle, event.key === '+' ? 0.8 : 1.25);
  else return;
  event.preventDefault();
  draw(true);
});

// Sending.

function hand(name, text, type) {
  const file = new File([text], name, { type });
  if (navigator.canShare && navigator.canShare({ files: [file] })) {
    navigator.share({ files: [file] }).catch(() => { /* thought better of it */ });
    return;
  }
  const link = el('a', { href: URL.createObjectURL(file), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  say(name + ' is among the downloads.');
}
const stem = () => state.page.file.replace(/(\.sillwright)?\.toml$/, '');
by('share').addEventListener('click', () => hand(stem() + '-measured.csv', call('pocketMeasurements'), 'text/csv'));
by('job-file').addEventListener('click', () => {
  const text = call('pocketJob');
  if (text.startsWith('!')) say(text.slice(1)); else hand(state.page.file, text, 'text/plain');
});
by('copy').addEventListener('click', () => {
  const text = call('pocketMeasurements');
  navigator.clipboard.writeText(text).then(() => say('Copied: paste it into a message.'), () => say(text));
});
by('clear').addEventListener('click', () => { kept.clear(); open(given.files, given.job); say('Cleared.'); });
const take = async file => {
  if (!file) return;
  const text = await file.text(), path = '/job/' + file.name;
  if (!/^\s*\[exercise\]/m.test(text)) { open({ [path]: text }, path); return; }
  state.module.FS.writeFile(path, text);
  setExercise(path);
};
by('other').addEventListener('change', event => take(event.target.files[0]));
document.addEventListener('dragover', event => event.preventDefault());
document.addEventListener('drop', event => { event.preventDefault(); take(event.dataTransfer.files[0]); });

function showLists() {
  const lists = JSON.parse(call('pocketLists'));
  by('lists').replaceChildren(el('h2', {}, 'What to order, buy and cut'), ...lists.map(each => el('details', {}, el('summary', {}, each.title),
    table(each.columns, each.rows), ...each.notes.map(note => el('p', { class: 'quiet' }, note)))));
}

makePocket().then(module => {
  state.module = module;
  const numbers = ['pocketDraw', 'pocketPick', 'pocketDrag', 'pocketZoom', 'pocketLook', 'pocketLookAt', 'pocketSize', 'pocketCut'];
  call = (name, ...values) => module.ccall(name, numbers.includes(name) ? 'number' : 'string', values.map(each => typeof each), values);
  window.sillwright = { call, put: (name, text) => module.FS.writeFile(name, text) };  // for a look from the browser's console
  by('dark').checked = window.matchMedia('(prefers-color-scheme: dark)').matches;
  const context = canvas.getContext('webgl2', { antialias: true, stencil: true, alpha: false });
  const wrong = context ? (module.GL.makeContextCurrent(module.GL.registerContext(context, { majorVersion: 2 })), call('pocketStart'))
    : '!This browser draws nothing in 3D (no WebGL 2).';
  if (wrong) { by('names').append(el('p', {}, wrong.replace(/^!/, '') + ' All else works.')); } else { state.drawn = true; }
  canvas.width = canvas.clientWidth;
  canvas.height = canvas.clientHeight;
  call('pocketSize', canvas.width, canvas.height);
  if (!open(given.files, given.job)) return;
  for (const view of ['house', 'outside', 'inside', 'above']) by('views').append(el('button', { onclick: () => { if (view === 'house') state.at = -1; state.step = -1; look(view); refresh(); } }, view));
  state.page.layers.forEach((name, i) => by('layers').append(el('label', {}, el('input', { type: 'checkbox', checked: true,
    onchange: event => { state.hidden = event.target.checked ? state.hidden & ~(1 << i) : state.hidden | 1 << i; applyLook(); } }), ' ' + name)));
  for (const id of ['spread', 'dark']) by(id).addEventListener('input', applyLook);
  by('cut').addEventListener('input', () => { call('pocketCut', by('cut').checked ? 1 : 0); draw(); });
  new ResizeObserver(() => draw()).observe(canvas);
  showLists();
  applyLook();
  if (given.files['/exercise.toml']) setExercise('/exercise.toml');
}).catch(fault => { by('summary').textContent = 'This browser can’t run the page: ' + fault; });
})();
