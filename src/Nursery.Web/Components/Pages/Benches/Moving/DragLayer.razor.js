// Follows the pointer while trays are dragged. The server says whether they fit; one question is under way at a time, and the
// last place is always asked for. Positions are in units of the drawing.
export function follow(layer, words, page) {
    const stop = new AbortController();
    const map = layer.parentElement;
    map.classList.add('can-move');
    const listen = (target, kind, handler, options) =>
        target.addEventListener(kind, handler, { signal: stop.signal, ...options });
    let drag = null;
    const untilHouse = 500;

    // Held over the name of a house for a moment, the trays go there with the map.
    const overHouse = (current, event) => {
        const tab = document.elementFromPoint(event.clientX, event.clientY)?.closest('[data-house]');
        if (tab === current.tab) {
            return;
        }

        clearTimeout(current.waiting);
        current.tab = tab;
        if (tab && tab.getAttribute('aria-pressed') !== 'true') {
            current.waiting = setTimeout(() => page.invokeMethodAsync('OverHouseAsync', tab.dataset.house), untilHouse);
        }
    };

    const place = event => {
        const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(layer.getScreenCTM().inverse());
        return { x: point.x, y: point.y };
    };

    const ask = async current => {
        if (current.asking) {
            return;
        }

        current.asking = true;
        while (current.next) {
            const { x, y } = current.next;
            current.next = null;
            await page.invokeMethodAsync('DragAsync', current.key, current.from.x, current.from.y, x, y);
        }

        current.asking = false;
    };

    const end = async dropped => {
        const current = drag;
        drag = null;
        map.classList.remove('dragging');
        words.hidden = true;
        clearTimeout(current?.waiting);
        if (!current?.moved) {
            return;
        }

        // The click that ends a drag selects nothing.
        window.addEventListener('click', click => click.stopPropagation(), { capture: true, once: true, signal: AbortSignal.timeout(50) });
        while (current.asking) {
            await new Promise(resolve => setTimeout(resolve, 10));
        }

        await page.invokeMethodAsync('DropAsync', dropped);
    };

    listen(map, 'pointerdown', event => {
        const group = event.target.closest('[data-reservation]');
        if (group && event.button === 0) {
            drag = { key: group.dataset.reservation, from: place(event), at: event, moved: false, asking: false, next: null };
        }
    });
    listen(window, 'pointermove', event => {
        if (!drag || event.pointerId !== drag.at.pointerId) {
            return;
        }

        if (!drag.moved && Math.hypot(event.clientX - drag.at.clientX, event.clientY - drag.at.clientY) < 6) {
            return;
        }

        drag.moved = true;
        map.classList.add('dragging');
        words.hidden = false;
        words.style.left = `${Math.min(event.clientX + 16, window.innerWidth - 300)}px`;
        words.style.top = `${event.clientY + 18}px`;
        overHouse(drag, event);
        drag.next = place(event);
        ask(drag);
        event.preventDefault();
    });
    listen(window, 'pointerup', event => drag && event.pointerId === drag.at.pointerId && end(true));
    listen(window, 'pointercancel', () => drag && end(false));
    listen(window, 'keydown', event => {
        if (event.key === 'Escape' && drag) {
            end(false);
        } else if (event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey) && !event.shiftKey
            && !event.target.closest?.('input, select, textarea')) {
            event.preventDefault();
            page.invokeMethodAsync('UndoAsync');
        }
    });
    return {
        stop() {
            stop.abort();
            map.classList.remove('can-move');
        },
    };
}
