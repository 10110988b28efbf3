// The sheet for work that was not on the list.
import { chooseOne, complain } from './panels.js';

export function watchWork(report) {
  const sheet = document.getElementById('extra');
  const where = sheet.querySelector('select');
  const works = sheet.querySelector('.works');
  const words = sheet.querySelector('.words input');
  chooseOne(works, () => complain(sheet, null));
  document.querySelector('[data-do="open-work"]').addEventListener('click', () => {
    words.value = '';
    for (const chip of works.children) chip.setAttribute('aria-pressed', 'false');
    complain(sheet, where.options.length ? null : 'There is no bench and no sown batch yet.');
    sheet.showModal();
  });
  sheet.querySelector('[data-do="close-work"]').addEventListener('click', () => sheet.close());
  sheet.querySelector('[data-do="save-work"]').addEventListener('click', () => {
    const chosen = where.selectedOptions[0];
    const work = works.querySelector('[aria-pressed="true"]');
    const said = words.value.trim();
    if (!chosen) complain(sheet, 'There is no bench and no sown batch yet.');
    else if (!work && !said) complain(sheet, 'Choose what was done, or write it.');
    else {
      sheet.close();
      report(`${work?.textContent ?? said}, ${chosen.dataset.code}`, {
        ...(chosen.dataset.batch ? { batchId: chosen.dataset.batch } : { benchCode: chosen.dataset.bench }),
        ...(work ? { task: work.dataset.taskKind } : {}),
        ...(said ? { words: said } : {}),
      });
    }
  });
}
