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

/** Two fingers that move together or apart. @param {HTMLElement} panel
 * @param {(from: Point & { apart: number }, to: Point & { apart: number }) => void} move gets the middle between them and how far apart they are, before and now
 * @returns {() => boolean} whether the fingers that touch, or touched last, have pinched, so that none of them drags */
export function onPinch(panel, move) {
  /** @type {Map<number, Point>} */
  const fingers = new Map();
  let isPinched = false;
  const between = ([a, b] = [...fingers.values()]) => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y) });
  panel.addEventListener('pointerdown', event => {
    if (fingers.size === 0) isPinched = false;
    if (event.pointerType === 'touch') fingers.set(event.pointerId, within(event, panel));
    isPinched ||= fingers.size > 1;
  });
  panel.addEventListener('pointermove', event => {
    if (!fingers.has(event.pointerId)) return;
    const before = fingers.size === 2 && between();
    fingers.set(event.pointerId, within(event, panel));
    if (before) move(before, between());
  });
  for (const end of /** @type {const} */ (['pointerup', 'pointercancel'])) panel.addEventListener(end, event => fingers.delete(event.pointerId));
  return () => isPinched;
}

/** Where in a panel the pointer is. @param {{ clientX: number, clientY: number }} pointer @param {Element} panel @returns {Point} */
export function within({ clientX, clientY }, panel) {
  const box = panel.getBoundingClientRect();
  return { x: clientX - box.left - panel.clientLeft, y: clientY - box.top - panel.clientTop };
}
