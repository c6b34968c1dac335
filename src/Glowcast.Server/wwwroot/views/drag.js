// @ts-check
/** Dragging by mouse, pen or finger. */

/** @typedef {{ x: number, y: number }} Point in CSS px from the upper left of the panel */

/** @param {HTMLElement} panel @param {(from: Point, target: Element) => ((to: Point, isDone: boolean) => void) | null} begin
 * says what a drag from a point does; null for nothing */
export function onDrag(panel, begin) {
  panel.addEventListener('pointerdown', event => {
    const move = event.button === 0 && begin(within(event, panel), /** @type {Element} */ (event.target));
    if (!move) return;
    panel.setPointerCapture(event.pointerId);
    const listening = new AbortController();
    const follow = (/** @type {PointerEvent} */ moved) => move(within(moved, panel), false);
    const end = (/** @type {PointerEvent} */ ended) => {
      listening.abort();
      move(within(ended, panel), true);
    };
    panel.addEventListener('pointermove', follow, { signal: listening.signal });
    panel.addEventListener('pointerup', end, { signal: listening.signal });
    panel.addEventListener('pointercancel', end, { signal: listening.signal });
  });
}

/** Where in a panel the pointer is. @param {MouseEvent} event @param {Element} panel @returns {Point} */
export function within(event, panel) {
  const box = panel.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}
