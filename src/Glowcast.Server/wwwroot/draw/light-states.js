// @ts-check
/** Fills a plot with the light of bearings and moments. States differ by texture too, not by colour alone. */
import { State, stateAt } from '../think/chart.js';

/** @typedef {import('../think/chart.js').Chart} Chart */
/** @typedef {[number, number, number]} Rgb */

/** @param {HTMLCanvasElement} canvas @param {Chart} chart @param {import('../think/scales.js').TimeScale} down in CSS px
 * @param {number} ratio device pixels to a CSS pixel @param {(name: string) => Rgb} ink */
export function fillLight(canvas, chart, down, ratio, ink) {
  const image = new ImageData(canvas.width, canvas.height);
  const tones = { paper: ink('paper'), line: ink('hatch'), shade: ink('shade'), lit: ink('lit'), pale: ink('lit-pale'), dot: ink('lit-dot') };
  const columnOf = Array.from({ length: canvas.width }, (_, x) => Math.min(chart.columns - 1, Math.floor(((x + 0.5) / canvas.width) * chart.columns)));
  for (let y = 0; y < canvas.height; y++) {
    const seconds = down.toS((y + 0.5) / ratio);
    const states = Array.from({ length: chart.columns }, (_, column) => stateAt(chart, column, seconds));
    for (let x = 0; x < canvas.width; x++) {
      const tone = toneOf(states[columnOf[x]], Math.floor(x / ratio), Math.floor(y / ratio), tones);
      const at = 4 * (y * canvas.width + x);
      [image.data[at], image.data[at + 1], image.data[at + 2], image.data[at + 3]] = [tone[0], tone[1], tone[2], 255];
    }
  }
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d')).putImageData(image, 0, 0);
}

/** @param {number} state @param {number} x @param {number} y in CSS px @param {Record<string, Rgb>} tones */
function toneOf(state, x, y, tones) {
  switch (state) {
    case State.noRidge: return (x + y) % 7 === 0 ? tones.line : tones.paper;
    case State.shade: return tones.shade;
    case State.partly: return (x + 3 * 4096 - y) % 4 < 2 ? tones.lit : tones.shade;
    case State.valleyToo: return x % 5 === 2 && y % 5 === 2 ? tones.dot : tones.pale;
    default: return tones.lit;
  }
}

/** A swatch for the legend. @param {HTMLCanvasElement} canvas @param {number} state @param {(name: string) => Rgb} ink */
export function fillSwatch(canvas, state, ink) {
  const ratio = Math.min(3, window.devicePixelRatio || 1);
  [canvas.width, canvas.height] = [Math.round(22 * ratio), Math.round(14 * ratio)];
  const tones = { paper: ink('paper'), line: ink('hatch'), shade: ink('shade'), lit: ink('lit'), pale: ink('lit-pale'), dot: ink('lit-dot') };
  const image = new ImageData(canvas.width, canvas.height);
  for (let i = 0; i < canvas.width * canvas.height; i++) {
    const tone = toneOf(state, Math.floor((i % canvas.width) / ratio), Math.floor(i / canvas.width / ratio), tones);
    [image.data[4 * i], image.data[4 * i + 1], image.data[4 * i + 2], image.data[4 * i + 3]] = [tone[0], tone[1], tone[2], 255];
  }
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d')).putImageData(image, 0, 0);
}
