// @ts-check
/** Fills a plot with the light of bearings and moments. States differ by texture too, not by colour alone. */
import { State, stateAt } from '../think/chart.js';

/** @typedef {import('../think/chart.js').Chart} Chart */
/** @typedef {(name: string) => [number, number, number]} Inks */

const Swatch = { width: 22, height: 14 };

/** @param {HTMLCanvasElement} canvas @param {Chart} chart @param {import('../think/scales.js').TimeScale} down in CSS px
 * @param {number} ratio device pixels to a CSS pixel @param {Inks} ink */
export function fillLight(canvas, chart, down, ratio, ink) {
  const columnOf = Array.from({ length: canvas.width }, (_, x) => Math.min(chart.columns - 1, Math.floor(((x + 0.5) / canvas.width) * chart.columns)));
  fill(canvas, ratio, ink, y => {
    const seconds = down.toS((y + 0.5) / ratio);
    const states = Array.from({ length: chart.columns }, (_, column) => stateAt(chart, column, seconds));
    return x => states[columnOf[x]];
  });
}

/** A swatch for the legend. @param {HTMLCanvasElement} canvas @param {number} state @param {number} ratio @param {Inks} ink */
export function fillSwatch(canvas, state, ratio, ink) {
  [canvas.width, canvas.height] = [Math.round(Swatch.width * ratio), Math.round(Swatch.height * ratio)];
  fill(canvas, ratio, ink, () => () => state);
}

/** @param {HTMLCanvasElement} canvas @param {number} ratio @param {Inks} ink @param {(y: number) => (x: number) => number} rowOf states of device pixels */
function fill(canvas, ratio, ink, rowOf) {
  const { width, height } = canvas;
  const image = new ImageData(width, height);
  const rgba = new Uint32Array(image.data.buffer);
  const tone = (/** @type {string} */ name, [r, g, b] = ink(name)) => (255 << 24) | (b << 16) | (g << 8) | r;
  const tones = { paper: tone('paper'), line: tone('hatch'), shade: tone('shade'), lit: tone('lit'), pale: tone('lit-pale'), dot: tone('lit-dot') };
  for (let y = 0; y < height; y++) {
    const stateOf = rowOf(y);
    for (let x = 0; x < width; x++) rgba[y * width + x] = toneOf(stateOf(x), Math.floor(x / ratio), Math.floor(y / ratio), tones);
  }
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d')).putImageData(image, 0, 0);
}

/** @param {number} state @param {number} x @param {number} y in CSS px @param {Record<string, number>} tones */
function toneOf(state, x, y, tones) {
  switch (state) {
    case State.noRidge: return (x + y) % 7 === 0 ? tones.line : tones.paper;
    case State.shade: return tones.shade;
    case State.partly: return (x + 3 * 4096 - y) % 4 < 2 ? tones.lit : tones.shade;
    case State.valleyToo: return x % 5 === 2 && y % 5 === 2 ? tones.dot : tones.pale;
    default: return tones.lit;
  }
}
