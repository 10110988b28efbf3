// The panels a card opens: why not yet, counting, a loss, and where trays were carried. Copied from the templates the server wrote.

const copy = id => document.getElementById(id).content.firstElementChild.cloneNode(true);

// A whole number of the given range, or null.
export function whole(text, least, most) {
  const value = /^\s*\d{1,6}\s*$/.test(text) ? Number(text) : NaN;
  return value >= least && value <= most ? value : null;
}

export function watchStepper(stepper, least, most, changed = () => {}) {
  const input = stepper.querySelector('input');
  for (const button of stepper.querySelectorAll('[data-do="step"]')) {
    button.addEventListener('click', () => {
      const value = (whole(input.value, 0, 999_999) ?? least) + Number(button.dataset.by);
      input.value = String(Math.min(most(), Math.max(least, value)));
      changed();
    });
  }
  input.addEventListener('input', changed);
  input.addEventListener('focus', () => input.select());
}

export function chooseOne(group, changed = () => {}) {
  const buttons = [...group.querySelectorAll('button')];
  for (const button of buttons) {
    button.addEventListener('click', () => {
      for (const other of buttons) other.setAttribute('aria-pressed', String(other === button));
      changed();
    });
  }
}

export function complain(panel, sentence) {
  const wrong = panel.querySelector('.wrong');
  wrong.textContent = sentence ?? '';
  wrong.hidden = !sentence;
}

export function openReasons(card, choose) {
  const panel = copy('not-yet-panel');
  const input = panel.querySelector('input');
  for (const button of panel.querySelectorAll('[data-do="reason"]')) {
    button.addEventListener('click', () => choose(button.textContent));
  }
  const own = () => {
    const reason = input.value.trim();
    if (reason) choose(reason);
    else complain(panel, 'Say in a word or two why it is not done.');
  };
  panel.querySelector('[data-do="own-reason"]').addEventListener('click', own);
  input.addEventListener('keydown', event => { if (event.key === 'Enter') own(); });
  card.append(panel);
}

export function openCount(card, save) {
  const panel = copy('count-panel');
  const trays = Number(card.dataset.trays);
  const cellsPerTray = Number(card.dataset.cells);
  const seedsPerCell = Number(card.dataset.seeds);
  const counted = panel.querySelector('.counted');
  const sampled = panel.querySelector('.sampled');
  const value = counted.querySelector('input');
  const many = sampled.querySelector('input');
  const what = () => panel.querySelector('[data-what][aria-pressed="true"]').dataset.what;
  const traysCounted = () => whole(many.value, 1, trays) ?? trays;
  const most = () => traysCounted() * cellsPerTray * (what() === 'seedlings' ? seedsPerCell : 1);
  const tell = () => {
    const cells = traysCounted() * cellsPerTray;
    counted.querySelector('.of').textContent =
      what() === 'seedlings' ? `of ${cells * seedsPerCell} seeds` : `of ${cells} cells`;
    sampled.querySelector('.of').textContent =
      traysCounted() === trays ? `of ${trays} trays: all` : `of ${trays} trays: a sample`;
    complain(panel, null);
  };
  many.value = String(trays);
  sampled.hidden = trays === 1;
  if (card.dataset.kind === 'Thin') {
    for (const button of panel.querySelectorAll('[data-what]')) {
      button.setAttribute('aria-pressed', String(button.dataset.what === 'blanks'));
    }
  }
  watchStepper(counted, 0, most, tell);
  watchStepper(sampled, 1, () => trays, tell);
  chooseOne(panel.querySelector('.what-counted'), tell);
  panel.querySelector('[data-do="save-count"]').addEventListener('click', () => {
    const tray = whole(many.value, 1, trays);
    const found = whole(value.value, 0, most());
    if (tray === null) complain(panel, `Trays counted: a number from 1 to ${trays}.`);
    else if (found === null) complain(panel, `How many: a number from 0 to ${most()}.`);
    else {
      const sample = tray < trays;
      save({ what: what(), value: found, sample, ...(sample ? { trays: tray } : {}) });
    }
  });
  tell();
  card.append(panel);
}

// Two taps: the panel, and the cause, which saves at once; so the number stands first.
export function openLoss(card, save) {
  const panel = copy('loss-panel');
  const plants = panel.querySelector('input');
  watchStepper(panel.querySelector('.stepper'), 1, () => 999_999, () => complain(panel, null));
  for (const cause of panel.querySelectorAll('[data-do="lost-to"]')) {
    cause.addEventListener('click', () => {
      const many = whole(plants.value, 1, 999_999);
      if (many === null) complain(panel, 'Plants lost: a whole number, 1 or more.');
      else save({ plants: many, cause: cause.textContent });
    });
  }
  card.append(panel);
}

export function openElsewhere(card, save) {
  const panel = copy('elsewhere-panel');
  const bench = panel.querySelector('select');
  const space = panel.querySelector('input');
  panel.querySelector('[data-do="save-move"]').addEventListener('click', () => {
    const first = space.value.trim() === '' ? undefined : whole(space.value, 1, 9_999);
    if (!bench.value) complain(panel, 'No bench without heat is known.');
    else if (first === null) complain(panel, 'First space: a whole number, or nothing.');
    else save({ benchCode: bench.value, ...(first === undefined ? {} : { firstSpace: first }) });
  });
  card.append(panel);
}
