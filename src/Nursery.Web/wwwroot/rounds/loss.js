// The sheet that reports plants lost.
import { chooseOne, complain, watchStepper } from './panels.js';

const MOST = 999_999;

export function watchLoss(report, whole) {
  const sheet = document.getElementById('loss');
  const select = sheet.querySelector('select');
  const plants = sheet.querySelector('.stepper input');
  const causes = sheet.querySelector('.causes');
  const own = sheet.querySelector('.words input');
  const clear = () => { for (const chip of causes.children) chip.setAttribute('aria-pressed', 'false'); };
  chooseOne(causes, () => { own.value = ''; complain(sheet, null); });
  own.addEventListener('input', clear);
  watchStepper(sheet.querySelector('.stepper'), 1, () => MOST, () => complain(sheet, null));
  document.querySelector('[data-do="report-loss"]').addEventListener('click', () => {
    plants.value = '1';
    own.value = '';
    clear();
    complain(sheet, select.options.length ? null : 'No batch is on today\'s round.');
    sheet.showModal();
  });
  sheet.querySelector('[data-do="close-loss"]').addEventListener('click', () => sheet.close());
  sheet.querySelector('[data-do="save-loss"]').addEventListener('click', () => {
    const many = whole(plants.value, 1, MOST);
    const cause = own.value.trim() || causes.querySelector('[aria-pressed="true"]')?.textContent;
    if (!select.value) complain(sheet, 'No batch is on today\'s round.');
    else if (many === null) complain(sheet, 'Plants lost: a whole number, 1 or more.');
    else if (!cause) complain(sheet, 'Choose the cause, or write it.');
    else {
      sheet.close();
      report(`Loss in ${select.selectedOptions[0].dataset.code}`, { batchId: select.value, plants: many, cause });
    }
  });
}
