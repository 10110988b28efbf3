// The round: what a tap means, and how it shows. The server draws the page; this marks it and hands work to the outbox.
import { Outbox, newId, localNow } from './outbox.js';
import { openCount, openElsewhere, openLoss, openReasons, whole } from './panels.js';
import { watchFind } from './find.js';
import { watchLoss } from './loss.js';
import { watchOthers } from './others.js';
import { watchWork } from './work.js';

const round = document.getElementById('round');
const chip = document.getElementById('outbox');
const attention = document.getElementById('attention');
const spoken = document.getElementById('spoken');
const outbox = new Outbox(round.dataset.person, showOutbox, answered);

const cardOf = id => round.querySelector(`[data-task="${CSS.escape(id)}"]`);
const say = sentence => { spoken.textContent = sentence; };
const entry = (kind, content, at = localNow()) => ({ id: newId(), kind, happenedAt: at, ...content });

// One report may be several entries (a count, and with it the look); together they are undone together.
function report(label, ...entries) {
  outbox.add(entries.map(each => ({ entry: each, label })));
  for (const each of entries) show(each);
}

// What an entry looks like, when it is made and when the page comes back with it still unsent.
function show(made) {
  if (made.kind === 'done') mark(cardOf(made.taskId), 'done', made, 'Done by you');
  else if (made.kind === 'notYet') mark(cardOf(made.taskId), 'put-off', made, `Not yet: ${made.reason} (you)`);
  else if (made.kind === 'undo') unmark(made.entryId);
  else if (made.kind === 'surface') press(round.querySelector(`.surface[data-bench="${CSS.escape(made.benchCode)}"]`), made);
  else if (made.kind === 'count') counted(made);
  else if (made.kind === 'loss') lost(made);
  else if (made.kind === 'moved') carried(made);
  else if (made.kind === 'worked') worked(made);
}

function mark(card, state, made, words) {
  if (!card) return; // no longer on today's list
  card.classList.toggle('done', state === 'done');
  card.classList.toggle('open', state !== 'done');
  card.classList.toggle('put-off', state === 'put-off');
  card.dataset.entry = made.id;
  card.querySelector('.tick-said').textContent = words;
  setBox(card, state === 'done');
  card.querySelector('[data-do="undo"]').hidden = false;
  closePanel(card);
  recount(card);
}

function unmark(id) {
  const card = round.querySelector(`[data-task][data-entry="${CSS.escape(id)}"]`);
  if (card) {
    card.classList.remove('done', 'put-off');
    card.classList.add('open');
    delete card.dataset.entry;
    card.querySelector('.tick-said').textContent = 'Taken back';
    setBox(card, false);
    card.querySelector('[data-do="undo"]').hidden = true;
    recount(card);
  }
  const surface = round.querySelector(`.surface[data-entry="${CSS.escape(id)}"]`);
  if (surface) press(surface, { state: null, id: '' });
  for (const line of document.querySelectorAll(`[data-note="${CSS.escape(id)}"]`)) line.remove();
}

function setBox(holder, done) {
  const box = holder.querySelector('.box');
  box.setAttribute('aria-pressed', String(done));
  box.setAttribute('aria-disabled', String(done));
}

function recount(card) {
  const house = card.closest('.house');
  const tasks = [...house.querySelectorAll('[data-task]')];
  const done = tasks.filter(task => task.classList.contains('done')).length;
  house.querySelector('.progress').textContent = `${done} of ${tasks.length} done`;
  const minutes = tasks.filter(task => !task.classList.contains('done')).reduce((sum, task) => sum + Number(task.dataset.minutes), 0);
  house.querySelector('.minutes').textContent = minutes ? `about ${Math.max(1, Math.round(minutes))} min left` : 'nothing left';
  const group = card.closest('.tick-group');
  if (!group) return;
  const left = group.querySelectorAll('.tick-card.open').length;
  const all = group.querySelectorAll('.tick-card').length;
  group.classList.toggle('done', left === 0);
  group.classList.toggle('open', left > 0);
  setBox(group, left === 0);
  group.querySelector('.tick-said').textContent = left === all ? '' : `${all - left} of ${all} done`;
  if (left === all) group.querySelector('[data-do="undo-all"]').hidden = true;
}

function press(row, made) {
  if (!row) return;
  row.dataset.entry = made.id;
  for (const button of row.querySelectorAll('[data-do="surface"]')) {
    button.setAttribute('aria-pressed', String(button.dataset.state === made.state));
  }
  row.querySelector('.tick-said').textContent = made.state ? 'seen by you' : 'taken back';
}

const WORDS = { cellsUp: 'cells up', seedlings: 'seedlings', blanks: 'blanks' };

function counted(made) {
  const card = round.querySelector(`[data-batch="${CSS.escape(made.batchId)}"][data-kind="EmergenceCheck"]`)
    ?? round.querySelector(`[data-batch="${CSS.escape(made.batchId)}"] [data-do="count"]`)?.closest('.tick-card');
  if (!card) return;
  note(card.querySelector('.tick-said'), made.id, `${made.value} ${WORDS[made.what]} counted`);
  closePanel(card);
}

function lost(made) {
  const card = round.querySelector(`[data-batch="${CSS.escape(made.batchId)}"].asked`);
  const option = document.querySelector(`#loss option[value="${CSS.escape(made.batchId)}"]`);
  if (card) {
    note(card.querySelector('.tick-said'), made.id, `Lost: ${made.plants}, ${made.cause}`);
    closePanel(card);
  } else {
    note(round.querySelector('.house, .care'), made.id, `Lost: ${made.plants} of ${option?.dataset.code ?? 'a batch'}, ${made.cause}`);
  }
}

function carried(made) {
  const card = round.querySelector(`[data-trayset="${CSS.escape(made.traySetCode)}"]:is([data-kind="MoveOffHeat"], [data-kind="HardenOff"])`);
  if (card) note(card.querySelector('.tick-said'), made.id, `Carried to bench ${made.benchCode}`);
}

function worked(made) {
  const chosen = made.batchId ? `#extra option[data-batch="${CSS.escape(made.batchId)}"]` : `#extra option[data-bench="${CSS.escape(made.benchCode)}"]`;
  const where = document.querySelector(chosen)?.dataset.code ?? made.benchCode ?? 'a batch';
  const kind = document.querySelector(`#extra [data-task-kind="${CSS.escape(made.task ?? '')}"]`)?.textContent;
  note(round.querySelector('.house, .care'), made.id, `${where}: ${[kind, made.words].filter(Boolean).join(', ')}`);
}

// A line with its own undo, before the place it belongs to.
function note(before, id, sentence) {
  const line = document.createElement('p');
  line.className = 'tick-note';
  line.dataset.note = id;
  const words = document.createElement('span');
  words.textContent = sentence;
  line.append(words, button('Undo', 'undo-note'));
  before.before(line);
}

function button(words, does) {
  const made = document.createElement('button');
  Object.assign(made, { type: 'button', className: 'chip undo', textContent: words });
  made.dataset.do = does;
  return made;
}

function closePanel(card) {
  card.querySelector('.tick-panel')?.remove();
  for (const opener of card.querySelectorAll('[aria-expanded]')) opener.setAttribute('aria-expanded', 'false');
}

function takeBack(label, ids) {
  report(`Undo: ${label}`, ...ids.map(id => entry('undo', { entryId: id })));
  say(`Taken back: ${label}`);
}

const does = {
  'done': (pressed, card) => {
    if (card.classList.contains('done')) return; // a wet second tap takes nothing back
    report(card.dataset.name, entry('done', { taskId: card.dataset.task }));
    say(`Done: ${card.dataset.name}`);
  },
  'all-done': (pressed, card, group) => {
    const open = [...group.querySelectorAll('.tick-card.open')];
    if (open.length === 0) return;
    const at = localNow();
    const made = open.map(task => entry('done', { taskId: task.dataset.task }, at));
    report(group.dataset.name, ...made);
    group.dataset.last = JSON.stringify(made.map(each => each.id));
    group.querySelector('[data-do="undo-all"]').hidden = false;
    say(`Done: ${group.dataset.name}`);
  },
  'undo': (pressed, card) => takeBack(card.dataset.name, [card.dataset.entry]),
  'undo-all': (pressed, card, group) => {
    const still = JSON.parse(group.dataset.last).filter(id => group.querySelector(`[data-entry="${CSS.escape(id)}"]`));
    pressed.hidden = true;
    takeBack(group.dataset.name, still);
  },
  'undo-note': pressed => {
    const line = pressed.closest('[data-note]');
    takeBack(line.querySelector('span').textContent, [line.dataset.note]);
  },
  'open-group': (pressed, card, group) => {
    const members = group.querySelector('.members');
    members.hidden = !members.hidden;
    pressed.setAttribute('aria-expanded', String(!members.hidden));
  },
  'not-up': (pressed, card) => putOff(card, 'not up yet'),
  'not-ready': (pressed, card) => putOff(card, 'not ready yet'),
  'not-yet': (pressed, card) => toggle(pressed, card, () => openReasons(card, reason => putOff(card, reason))),
  'count': (pressed, card) => toggle(pressed, card, () => openCount(card, content => saveCount(card, content))),
  'loss': (pressed, card) => toggle(pressed, card, () => openLoss(card, content => {
    card.classList.add('asked');
    report(`Loss in ${card.dataset.code}`, entry('loss', { batchId: card.dataset.batch, ...content }));
    card.classList.remove('asked');
    say(`Lost: ${content.plants} of ${card.dataset.code}, ${content.cause}`);
  })),
  'elsewhere': (pressed, card) => toggle(pressed, card, () => openElsewhere(card, content => saveMove(card, content))),
  'surface': pressed => {
    const row = pressed.closest('.surface');
    report(`Surface ${pressed.dataset.state}, bench ${row.dataset.bench}`,
      entry('surface', { benchCode: row.dataset.bench, state: pressed.dataset.state }));
  },
  'only-left': pressed => {
    const only = round.classList.toggle('only-left');
    pressed.setAttribute('aria-pressed', String(only));
  },
  'understood': pressed => outbox.drop(pressed.closest('[data-refused]').dataset.refused),
};

function toggle(pressed, card, open) {
  const was = pressed.getAttribute('aria-expanded') === 'true';
  closePanel(card);
  if (was) return;
  pressed.setAttribute('aria-expanded', 'true');
  open();
}

function putOff(card, reason) {
  report(card.dataset.name, entry('notYet', { taskId: card.dataset.task, reason }));
  say(`Not yet: ${card.dataset.name}, ${reason}`);
}

// Who counts has looked: that answers an open check for emergence too.
function saveCount(card, content) {
  const at = localNow();
  const entries = [entry('count', { batchId: card.dataset.batch, ...content }, at)];
  if (card.dataset.kind === 'EmergenceCheck' && card.classList.contains('open')) {
    const full = Number(card.dataset.trays) * Number(card.dataset.cells);
    const up = content.what === 'blanks' ? (content.cells ?? full) - content.value : content.value;
    entries.push(up > 0
      ? entry('done', { taskId: card.dataset.task }, at)
      : entry('notYet', { taskId: card.dataset.task, reason: 'not up yet' }, at));
  }
  report(`Count ${card.dataset.name}`, ...entries);
  say(`Counted ${content.value} ${WORDS[content.what]}`);
}

// Said before the task is done: then the server asks nobody else where the trays went.
function saveMove(card, content) {
  const at = localNow();
  report(card.dataset.name,
    entry('moved', { traySetCode: card.dataset.trayset, trays: Number(card.dataset.trays), ...content }, at),
    entry('done', { taskId: card.dataset.task }, at));
  say(`Done: ${card.dataset.name}, carried to bench ${content.benchCode}`);
}

// A task as the server has it, when everything of ours is sent.
function told(task) {
  const card = cardOf(task.id);
  if (!card) {
    if (task.state === 'open') document.getElementById('changed').hidden = false;
  } else if (task.state === 'done' && !card.classList.contains('done')) {
    mark(card, 'done', { id: task.doneEntryId ?? '' }, `Done by ${task.doneBy}`);
  }
}

function reveal(place) {
  const members = place.closest('.members');
  if (members) members.hidden = false;
  place.setAttribute('tabindex', '-1');
  place.scrollIntoView({ block: 'center' });
  place.focus({ preventScroll: true });
  place.classList.add('found');
  setTimeout(() => place.classList.remove('found'), 4_000);
}

document.addEventListener('click', event => {
  const pressed = event.target.closest('[data-do]');
  const action = pressed && does[pressed.dataset.do];
  if (action) action(pressed, pressed.closest('.tick-card'), pressed.closest('.tick-group'));
});

function answered(record, outcome, sentence) {
  if (outcome !== 'refused') return;
  if (record.entry.kind !== 'undo') unmark(record.entry.id);
  const card = record.entry.taskId ? cardOf(record.entry.taskId) : null;
  if (card) card.querySelector('.tick-said').textContent = '';
  say(`Needs attention: ${record.label}. ${sentence}`);
}

// Refused entries: beside their task when it is on the page, else at the top.
function showRefused() {
  for (const old of document.querySelectorAll('[data-refused]')) old.remove();
  const refused = outbox.refused();
  for (const record of refused) {
    const line = document.createElement('p');
    line.className = 'refused';
    line.dataset.refused = record.entry.id;
    const words = document.createElement('span');
    const card = record.entry.taskId ? cardOf(record.entry.taskId) : null;
    const visible = card && !card.closest('.members[hidden]');
    words.textContent = `Needs attention: ${visible ? '' : `${record.label}. `}${record.problem}`;
    line.append(words, button('Understood', 'understood'));
    if (visible) card.querySelector('.tick-said').after(line);
    else attention.append(line);
  }
  attention.hidden = !attention.querySelector('[data-refused]');
  return refused.length;
}

function showOutbox() {
  const waiting = outbox.waiting();
  const refused = showRefused();
  const others = outbox.ofOthers();
  const minutes = waiting.length ? Math.floor((Date.now() - Math.min(...waiting.map(record => record.since))) / 60_000) : 0;
  const parts = [];
  if (waiting.length) parts.push(`${waiting.length} not sent${minutes ? ` · ${minutes} min` : ''}`);
  if (waiting.length && outbox.signedOut) parts.push('sign in to send');
  if (refused) parts.push(`${refused} ${refused === 1 ? 'needs' : 'need'} attention`);
  if (others.length) parts.push(`${others.length} of another person`);
  if (!outbox.keeps) parts.push('kept only while this page is open');
  chip.textContent = parts.join(' · ') || 'all sent';
  chip.dataset.state = waiting.length ? 'waiting' : refused ? 'refused' : 'sent';
}

chip.addEventListener('click', () => {
  if (outbox.signedOut && outbox.waiting().length) location.assign('/sign-in?ReturnUrl=/rounds');
  else outbox.send();
});

document.getElementById('no-script').remove();
watchLoss((label, content) => report(label, entry('loss', content)), whole);
watchWork((label, content) => report(label, entry('worked', content)));
const find = watchFind(round, (place, code) => {
  reveal(place);
  say(`Found ${code}`);
});
watchOthers(round.dataset.day, () => outbox.mine().length === 0, told);
for (const record of outbox.waiting()) show(record.entry);
showOutbox();
setInterval(showOutbox, 20_000);
outbox.send();
const asked = new URLSearchParams(location.search).get('find'); // a tag's own address led here
if (asked) find(asked);
