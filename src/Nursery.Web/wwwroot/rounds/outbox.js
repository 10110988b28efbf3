// Work that is not sent yet. It lies in this tablet's storage until the server has said what became of it: closing the page,
// a flat battery or a dead spot lose nothing. An entry keeps its id however often it is sent, so the server stores it once.

const KEY = 'nursery.outbox';
const BATCH = 50;
const PATIENCE_MS = 10_000;
const RETRY_MS = [5_000, 15_000];

let lastMs = 0;
let counter = 0;

// UUIDv7 (RFC 9562): 48 bits of time, then a counter so that ids made within a millisecond keep their order, then chance.
export function newId() {
  const now = Date.now();
  counter = now > lastMs ? 0 : counter + 1;
  lastMs = Math.max(now, lastMs);
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(lastMs / 2 ** (8 * (5 - i))) & 0xff;
  bytes[6] = 0x70 | ((counter >> 8) & 0x0f);
  bytes[7] = counter & 0xff;
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = Array.from(bytes, byte => byte.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

// RFC 3339 with this tablet's own offset.
export function localNow() {
  const now = new Date();
  const offset = -now.getTimezoneOffset();
  const two = value => String(Math.floor(Math.abs(value))).padStart(2, '0');
  const shifted = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, -1);
  return `${shifted}${offset < 0 ? '-' : '+'}${two(offset / 60)}:${two(offset % 60)}`;
}

export class Outbox {
  #person;
  #changed;
  #answered;
  #sending = false;
  #timer = 0;
  #memory = null; // used when the tablet refuses to store
  signedOut = false;

  // changed(): something to show; answered(record, outcome, sentence): the server has spoken.
  constructor(person, changed, answered) {
    this.#person = person;
    this.#changed = changed;
    this.#answered = answered;
    addEventListener('online', () => this.send());
    addEventListener('storage', event => { if (event.key === KEY) this.#changed(); });
    document.addEventListener('visibilitychange', () => { if (!document.hidden) this.send(); });
  }

  get keeps() { return this.#memory === null; }

  records() {
    if (this.#memory) return this.#memory;
    const text = localStorage.getItem(KEY);
    return text ? JSON.parse(text) : [];
  }

  mine() { return this.records().filter(record => record.person === this.#person); }

  waiting() { return this.mine().filter(record => !record.problem); }

  refused() { return this.mine().filter(record => record.problem); }

  // Work of others who used this tablet: theirs to send, never under another name.
  ofOthers() { return this.records().filter(record => record.person !== this.#person); }

  // Stored before anything is shown as done.
  add(records) {
    this.#write(all => [...all, ...records.map(record => ({ ...record, person: this.#person, since: Date.now() }))]);
    this.#changed();
    this.send();
  }

  drop(id) {
    this.#write(all => all.filter(record => record.entry.id !== id));
    this.#changed();
  }

  async send() {
    if (this.#sending) return;
    this.#sending = true;
    clearTimeout(this.#timer);
    try {
      let single = false;
      for (let next = this.waiting(); next.length > 0; next = this.waiting()) {
        const some = next.slice(0, single ? 1 : BATCH);
        const answer = await this.#post(some.map(record => record.entry));
        if (answer === 'malformed' && some.length > 1) {
          single = true; // one bad entry must not hold up the others
        } else if (answer === 'malformed' || !this.#settle(some, answer)) {
          if (answer === 'malformed') this.#refuse(some[0], 'The server does not understand this entry.');
          else break;
        }
      }
    } finally {
      this.#sending = false;
      this.#changed();
      if (this.waiting().length > 0) this.#later();
    }
  }

  #later() {
    clearTimeout(this.#timer);
    const [least, most] = RETRY_MS;
    this.#timer = setTimeout(() => this.send(), least + Math.random() * (most - least));
  }

  // The results, 'malformed', or null when the server is away, busy or does not know who we are.
  async #post(entries) {
    try {
      const response = await fetch('/api/v1/ledger', {
        method: 'POST',
        headers: { 'Content-Type': 'application/json', 'Nursery-Client': 'rounds' },
        body: JSON.stringify({ entries }),
        credentials: 'same-origin',
        signal: AbortSignal.timeout(PATIENCE_MS),
      });
      this.signedOut = response.status === 401 || response.status === 403;
      if (response.ok) return (await response.json()).results;
      return [400, 413, 422].includes(response.status) ? 'malformed' : null;
    } catch (failure) {
      // No connection, no answer in time, or an answer cut off: the entries stay and are sent again.
      if (failure instanceof TypeError || failure instanceof SyntaxError || failure instanceof DOMException) return null;
      throw failure;
    }
  }

  // Only an answer that names the entry settles it.
  #settle(sent, results) {
    if (!Array.isArray(results)) return false;
    const byId = new Map(results.map(result => [result.id, result]));
    let settled = 0;
    for (const record of sent) {
      const result = byId.get(record.entry.id);
      if (!result) continue;
      settled++;
      if (result.outcome === 'refused') {
        this.#refuse(record, result.problem?.detail ?? result.problem?.title ?? 'The server refused this entry.');
      } else {
        this.#write(all => all.filter(other => other.entry.id !== record.entry.id));
        this.#answered(record, result.outcome, null);
      }
    }
    return settled > 0;
  }

  // A refused entry stays in sight until a person takes it away.
  #refuse(record, sentence) {
    this.#write(all => all.map(other => other.entry.id === record.entry.id ? { ...other, problem: sentence } : other));
    this.#answered(record, 'refused', sentence);
  }

  #write(change) {
    const next = change(this.records());
    if (this.#memory) {
      this.#memory = next;
      return;
    }
    try {
      localStorage.setItem(KEY, JSON.stringify(next));
    } catch (failure) {
      if (!(failure instanceof DOMException)) throw failure;
      this.#memory = next; // storage full or forbidden: the page says so
    }
  }
}
