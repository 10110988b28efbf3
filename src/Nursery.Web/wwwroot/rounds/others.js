// Two people on one round: what others finished shows here without loading the page again.
const EVERY_MS = 45_000;

// idle(): whether everything of our own is sent, so that the server's word is the last; told(task): a task as the server has it.
export function watchOthers(day, idle, told) {
  let asking = false;
  const ask = async () => {
    if (asking || document.hidden || !idle()) return;
    asking = true;
    try {
      for (let cursor = null, first = true; first || cursor; first = false) {
        const query = new URLSearchParams({ on: day, limit: '500', ...(cursor ? { cursor } : {}) });
        const answer = await fetch(`/api/v1/tasks?${query}`, { headers: { 'Nursery-Client': 'rounds' }, signal: AbortSignal.timeout(10_000) });
        if (!answer.ok) return;
        const page = await answer.json();
        if (!idle()) return;
        for (const task of page.items) told(task);
        cursor = page.next;
      }
    } catch (failure) {
      // No connection: the next time, then.
      if (!(failure instanceof TypeError || failure instanceof SyntaxError || failure instanceof DOMException)) throw failure;
    } finally {
      asking = false;
    }
  };
  setInterval(ask, EVERY_MS);
  document.addEventListener('visibilitychange', ask);
  return ask;
}
