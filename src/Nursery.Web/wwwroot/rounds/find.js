// Finds the card of a scanned tag. A hand scanner types into the field; where the browser can read codes itself, so does the camera.
import { complain } from './panels.js';

// The code in what a tag says: an address ends with it.
export function codeOf(text) {
  const last = text.trim().split('/').pop();
  try {
    return decodeURIComponent(last).toUpperCase();
  } catch (failure) {
    if (failure instanceof URIError) return last.toUpperCase();
    throw failure;
  }
}

const sameCode = (ours, code) => ours?.toUpperCase() === code;

// The first card of the batch, of its trays, or the stop of the bench; open ones before done ones.
export function findOnRound(round, code) {
  const cards = [...round.querySelectorAll('[data-task]')]
    .filter(card => sameCode(card.dataset.code, code) || sameCode(card.dataset.trayset, code));
  return cards.find(card => card.classList.contains('open')) ?? cards[0]
    ?? [...round.querySelectorAll('.stop[data-bench]')].find(stop => sameCode(stop.dataset.bench, code));
}

export function watchFind(round, found) {
  const sheet = document.getElementById('find');
  const field = sheet.querySelector('input');
  const video = sheet.querySelector('video');
  const camera = sheet.querySelector('[data-do="camera"]');
  let stream = null;

  const stop = () => {
    for (const track of stream?.getTracks() ?? []) track.stop();
    stream = null;
    video.hidden = true;
  };
  const open = text => {
    field.value = text;
    complain(sheet, null);
    sheet.showModal();
    field.focus();
  };
  const find = () => {
    const code = codeOf(field.value);
    if (!code) {
      complain(sheet, 'Scan the tag, or type its code.');
      return;
    }
    const place = findOnRound(round, code);
    if (!place) {
      complain(sheet, `Nothing to do today has the code ${code}.`);
      return;
    }
    sheet.close();
    found(place, code);
  };
  const watch = async () => {
    const reader = new BarcodeDetector({ formats: ['qr_code'] });
    stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
    video.srcObject = stream;
    video.hidden = false;
    await video.play();
    while (stream) {
      const [read] = await reader.detect(video);
      if (read) {
        field.value = codeOf(read.rawValue);
        stop();
        find();
        return;
      }
      await new Promise(resolve => { setTimeout(resolve, 150); });
    }
  };

  camera.hidden = !('BarcodeDetector' in window && navigator.mediaDevices);
  camera.addEventListener('click', () => watch().catch(failure => {
    stop();
    complain(sheet, `The camera cannot be used: ${failure.message}. Type the code instead.`);
  }));
  document.querySelector('[data-do="open-find"]').addEventListener('click', () => open(''));
  field.addEventListener('keydown', event => { if (event.key === 'Enter') find(); });
  sheet.querySelector('[data-do="find"]').addEventListener('click', find);
  sheet.querySelector('[data-do="close-find"]').addEventListener('click', () => sheet.close());
  sheet.addEventListener('close', stop);
  return text => {
    open(text);
    find();
  };
}
