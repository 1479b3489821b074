// node hostile.js PAGE JOB EXERCISE ROWS: the page's module, without its page, is handed what nobody would on purpose.
// ROWS: a line of JSON each: what is wrong, the file, the words that must come. Prints what failed; status 1 then.
'use strict';
const fs = require('fs');
const [page, job, exercise, rows] = process.argv.slice(2);
const script = fs.readFileSync(page, 'utf8').match(/<script>([\s\S]*?)<\/script>/)[1];
let failed = 0;
const check = (good, what) => { if (!good) { ++failed; console.log('FAILED:', what); } };

globalThis.window = globalThis;
globalThis.document = { currentScript: { src: 'data:' }, title: '' };
const make = new Function(script + '; return makePocket;')();
make().then(module => {
  const call = (name, ...values) => module.ccall(name, /Open|Page|Lists|Report|Type|Job|Measure|Exercise|Train|WhatIf/.test(name) ? 'string' : 'number',
    values.map(each => typeof each), values);
  const open = file => {
    module.FS.writeFile('/text.toml', fs.readFileSync(file));
    return call('pocketOpen', '/text.toml');
  };
  const asLines = told => told.startsWith('!') ? told : JSON.parse(told).errors.map(each =>
    [each.file, each.line, each.column].filter(part => part !== undefined && part !== 0).join(':') + ': ' + (each.key ? each.key + ': ' : '') + each.say).join('\n');

  /// Everything that is asked of a job, answered as JSON.
  const whole = what => {
    const told = JSON.parse(call('pocketPage'));
    for (const [name, ...values] of [['pocketReport'], ['pocketLists'], ...told.openings.map((_, i) => ['pocketOpening', i])]) {
      try { JSON.parse(call(name, ...values)); } catch (fault) { check(false, `${what}: ${name}: ${fault}`); }
    }
    return told;
  };
  check(open(job) === '', 'the good job is refused');
  whole('the good job');

  for (const [what, file, words] of fs.readFileSync(rows, 'utf8').trim().split('\n').map(JSON.parse)) {
    const begin = Date.now();
    let told = '';
    try { told = open(file); } catch (fault) { check(false, `${what}: ${fault}`); continue; }
    // A text as large as the module's memory allows is answered by one sentence.
    const right = words === null ? told === '' : told.startsWith('!') ? fs.statSync(file).size > 1e7 : told !== '' && asLines(told).includes(words);
    check(right, `${what}: ${(told && asLines(told)).slice(0, 300)}`);
    if (told === '') whole(what);
    console.log(`${what}: ${Date.now() - begin} ms`);
  }

  check(open(job) === '', 'the good job is refused after all that');
  for (const text of ['nan', '-inf', '1e308', '9'.repeat(400), 'a wall', '\u202e1', '\0', '1/0', "5' 3", '-', '. .', 'x'.repeat(1e6)]) {
    for (let i = 0; i < 15; ++i) call('pocketType', 0, i, text);
    whole('typed ' + text.slice(0, 20));
  }
  call('pocketLookAt', 0, 'outside', -1, 1);
  for (const [name, ...values] of [['pocketOpening', 9], ['pocketOpening', -1], ['pocketType', 9, 0, '1000'], ['pocketType', 0, 99, '1000'],
    ['pocketWhatIf', 999], ['pocketWhatIf', -1], ['pocketExercise', '', 9, 0], ['pocketExercise', '', -1, 0], ['pocketExercise', '/none.toml', 0, 0],
    ['pocketExercise', '/text.toml', 0, 0]]) {
    const told = call(name, ...values);
    check(told !== '' && /^[!{]/.test(told), `${name} ${values}: ${told.slice(0, 200)}`);
  }

  // An exercise, done wrong and then right.
  check(open(job) === '' && (module.FS.writeFile('/exercise.toml', fs.readFileSync(exercise)), true), 'no job for the exercise');
  module.FS.rename('/text.toml', '/workshop-window.toml');
  check(call('pocketOpen', '/workshop-window.toml') === '', 'the job under its name');
  check(call('pocketExercise', '/exercise.toml', 0, 0) === '0', 'the exercise is not set');
  for (const act of [['move', -5, 99], ['move', 0, 1e9], ['pick', 99, 99], ['pick', -1, -1], ['nothing', 0, 0]]) JSON.parse(call('pocketTrain', ...act));
  let it = JSON.parse(call('pocketTrain', 'answer', 7, 0));
  check(it.cards.length > 3 && it.judged && !it.solved && it.said[0].words.includes('before'), 'the wrong order: ' + JSON.stringify(it).slice(0, 300));
  const order = JSON.parse(call('pocketOpening', 0)).steps.map(each => each.title);
  const right = order.filter(title => it.cards.includes(title));
  right.forEach((title, place) => { it = JSON.parse(call('pocketTrain', 'move', it.cards.indexOf(title), place)); });
  it = JSON.parse(call('pocketTrain', 'answer', 9, 0));
  check(it.solved && it.score.includes('Answers given: 2'), 'the right order: ' + JSON.stringify(it).slice(0, 300));
  check(call('pocketTrain', 'leave', 0, 0) === '', 'the exercise is not left');
  const water = JSON.parse(call('pocketOpening', 0)).water;
  call('pocketLookAt', 0, 'outside', -1, 1);
  const wrong = JSON.parse(call('pocketOpening', 0)).choices.findIndex(each => each.words === 'no head flashing');
  check(call('pocketWhatIf', wrong) === '' && JSON.parse(call('pocketOpening', 0)).water !== water, 'without its head flashing it sheds as before');
  console.log(failed === 0 ? 'all passed' : failed + ' failed');
  process.exit(failed === 0 ? 0 : 1);
}).catch(fault => { console.log('FAILED: the module:', fault); process.exit(1); });
