// A button in SVG gets no help from the browser: Space would choose the trays and scroll the page away under them.
export function keepSpaceFromScrolling(map) {
  map.addEventListener('keydown', event => {
    if (event.key === ' ' && event.target.getAttribute('role') === 'button') {
      event.preventDefault();
    }
  });
}
