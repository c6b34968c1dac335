// @ts-check
/** The bearing span, drawn on the picture itself: sweep over it for a narrower one, pull its ends for another. */
import { frameOf } from '../draw/plate.js';
import { html, svg } from '../draw/elements.js';
import { bearing, clockwise } from '../think/scales.js';
import { onDrag } from './drag.js';

/** @typedef {{ fromDeg: number, toDeg: number }} Span */

const LeastPx = 8;
const LeastDeg = 1;
const MostDeg = 358;
const SettlingMs = 800;

/** @param {import('./plate.js').Plate} plate @param {(span: Span) => void} use */
export function onSpan(plate, use) {
  const panel = plate.ridge;
  const ends = [end('from', 'Left end of the span'), end('to', 'Right end of the span')];
  panel.append(...ends);
  plate.onRidge = () => ends.forEach((element, i) => place(element, plate, i));

  onDrag(panel, (from, target) => {
    const { forecast } = plate;
    if (!forecast) return null;
    const { across } = frameOf(panel, forecast.span, 0);
    const moved = ends.findIndex(element => element === target);
    const kept = moved < 0 ? across.toDeg(from.x) : forecast.answer.span[moved === 0 ? 'toDeg' : 'fromDeg'];
    return (to, isDone) => {
      if (Math.abs(to.x - from.x) < LeastPx) return;
      const other = across.toDeg(to.x);
      const leftFirst = moved < 0 ? to.x > from.x : moved === 1;
      const span = leftFirst ? rounded(kept, other) : rounded(other, kept);
      draw(plate, isDone ? null : span);
      if (isDone && isPossible(span)) use(span);
    };
  });

  ends.forEach((element, i) => {
    let [turned, timer] = [0, 0];
    element.addEventListener('keydown', event => {
      const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
      if (!step || !plate.forecast) return;
      event.preventDefault();
      turned += step * (event.shiftKey ? 5 : 1);
      const { fromDeg, toDeg } = plate.forecast.answer.span;
      const span = i === 0 ? rounded(fromDeg + turned, toDeg) : rounded(fromDeg, toDeg + turned);
      draw(plate, span);
      element.setAttribute('aria-valuetext', `${i === 0 ? span.fromDeg : span.toDeg}°`);
      clearTimeout(timer);
      timer = setTimeout(() => {
        turned = 0;
        draw(plate, null);
        if (isPossible(span)) use(span);
      }, SettlingMs);
    });
  });
}

/** @param {'from' | 'to'} name @param {string} label */
const end = (name, label) => html('div', {
  class: `end ${name}`, role: 'slider', tabindex: '0', 'aria-label': label, title: `${label}: drag, or use the arrow keys`, 'aria-valuemin': '0', 'aria-valuemax': '360',
});

/** @param {HTMLElement} element @param {import('./plate.js').Plate} plate @param {number} i */
function place(element, { forecast, ridge }, i) {
  if (!forecast) return;
  const { left, right } = frameOf(ridge, forecast.span, 0);
  const { fromDeg, toDeg } = forecast.answer.span;
  element.style.left = `${i === 0 ? left : right}px`;
  element.setAttribute('aria-valuenow', String(i === 0 ? fromDeg : toDeg));
  element.setAttribute('aria-valuetext', `${i === 0 ? fromDeg : toDeg}°`);
}

/** To half degrees. @param {number} fromDeg @param {number} toDeg @returns {Span} */
const rounded = (fromDeg, toDeg) => ({ fromDeg: bearing(Math.round(2 * fromDeg) / 2), toDeg: bearing(Math.round(2 * toDeg) / 2) });

/** @param {Span} span */
function isPossible({ fromDeg, toDeg }) {
  const width = clockwise(fromDeg, toDeg);
  return width >= LeastDeg && width <= MostDeg;
}

/** @param {import('./plate.js').Plate} plate @param {Span | null} span null for none */
function draw({ ridge, forecast }, span) {
  const drawing = ridge.querySelector('svg');
  drawing?.querySelector('.choosing')?.remove();
  if (!drawing || !span || !forecast) return;
  const { across } = frameOf(ridge, forecast.span, 0);
  const [x, width] = [across.toPx(span.fromDeg), clockwise(span.fromDeg, span.toDeg) * across.pxPerDeg];
  drawing.append(svg('g', { class: 'choosing' }, svg('rect', { x, y: 1, width, height: ridge.clientHeight - 2 }),
    svg('text', { class: 'note', x: Math.max(60, x + width / 2), y: 18, 'text-anchor': 'middle' }, `${span.fromDeg}° to ${span.toDeg}°`)));
}
