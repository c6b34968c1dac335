// @ts-check
/** The print on a wall, beside a person, both to scale. */
import { html, path, svg } from '../draw/elements.js';
import { cleanRectangle } from '../think/clean.js';
import { clockwise } from '../think/scales.js';
import * as say from '../think/say.js';

const PersonMm = 1750;
const EyesMm = 1550;
const BesideMm = 900;
const AboveMm = 250;
const LastRows = 8;
// Head, shoulders, legs: a standing figure 1750 high and 480 wide about its middle, from the floor up.
const Figure = 'M0-1750a115 135 0 0 1 0 270a115 135 0 0 1 0-270ZM-70-1470h140q150 20 165 150l25 520h-90l-30-400v420l-40 780h-85l-15-700-15 700h-85l-40-780v-420l-30 400h-90l25-520q15-130 165-150Z';

export class Print {
  /** @param {HTMLElement} place @param {import('./plate.js').Plate} plate whose picture is hung */
  constructor(place, plate) {
    this.plate = plate;
    this.ppi = 300;
    this.sizes = html('fieldset', { class: 'choice' });
    this.panel = html('div', { class: 'panel wall', role: 'img' });
    this.canvas = /** @type {HTMLCanvasElement} */ (html('canvas', { 'aria-hidden': 'true' }));
    this.text = html('p', { class: 'quiet' });
    place.append(html('div', { class: 'strip-head' }, html('h2', {}, 'The print on a wall'), this.sizes), this.panel, this.text);
    this.sizes.addEventListener('change', event => {
      this.ppi = Number(/** @type {HTMLInputElement} */ (event.target).value);
      this.draw();
    });
  }

  /** @param {import('../think/forecast.js').Forecast} forecast with a set */
  show(forecast) {
    const { sizes } = forecast.set.print;
    this.sizes.replaceChildren(html('legend', { class: 'hidden' }, 'Pixels to the inch'), ...sizes.map((/** @type {any} */ { ppi }) =>
      html('label', {}, html('input', { type: 'radio', name: 'ppi', value: String(ppi), ...(ppi === this.ppi ? { checked: '' } : {}) }), ` ${ppi} ppi`)));
    this.draw();
  }

  draw() {
    const { forecast } = this.plate;
    const size = forecast?.set?.print.sizes.find((/** @type {any} */ { ppi }) => ppi === this.ppi);
    if (!forecast || !size || this.panel.clientWidth === 0) return;
    const { widthMm, heightMm, viewingDistanceMm } = size;
    const wallMm = { width: widthMm + 2 * BesideMm, height: Math.max(PersonMm, EyesMm + heightMm / 2) + AboveMm };
    const pxPerMm = Math.min(this.panel.clientWidth / wallMm.width, 420 / wallMm.height);
    const [floor, top] = [wallMm.height * pxPerMm, (wallMm.height - Math.max(EyesMm, heightMm / 2 + 100) - heightMm / 2) * pxPerMm];
    this.panel.style.height = `${floor + 12}px`;
    const drawing = svg('svg', { width: this.panel.clientWidth, height: floor + 12 },
      path('rule', `M0 ${floor}H${this.panel.clientWidth}`),
      svg('path', { class: 'person', d: Figure, transform: `translate(${(widthMm + BesideMm * 1.35) * pxPerMm} ${floor}) scale(${pxPerMm})` }));
    this.panel.replaceChildren(drawing, this.canvas);
    Object.assign(this.canvas.style, { left: `${0.6 * BesideMm * pxPerMm}px`, top: `${top}px`, width: `${widthMm * pxPerMm}px`, height: `${heightMm * pxPerMm}px` });
    this.hang(widthMm * pxPerMm, heightMm * pxPerMm);
    const words = `${say.centimetres(widthMm)} × ${say.centimetres(heightMm)} at ${this.ppi} ppi, beside a person of ${say.centimetres(PersonMm)}`;
    this.panel.setAttribute('aria-label', `The print on a wall: ${words}.`);
    this.text.textContent = `${words}. From ${say.height(viewingDistanceMm / 1000, 1)} away the eye no longer tells its pixels apart.`;
  }

  /** Paints what the clean rectangle shows. @param {number} width @param {number} height */
  hang(width, height) {
    const { forecast, ground, view } = this.plate;
    if (!forecast?.scene) return;
    const { raster } = forecast.scene;
    const clean = cleanRectangle(forecast.set);
    [this.canvas.width, this.canvas.height] = [Math.round(2 * width), Math.round(2 * height)];
    this.canvas.style.background = view.style.background;
    const x = clockwise(raster.fromDeg, clean.fromDeg + 180) - 180;
    const [perColumn, perRow] = [this.canvas.width * raster.columnDeg / clean.widthDeg, this.canvas.height * raster.rowDeg / (clean.topDeg - clean.bottomDeg)];
    const context = /** @type {CanvasRenderingContext2D} */ (this.canvas.getContext('2d'));
    const [left, top, wide, high] = [-x / raster.columnDeg * perColumn, (clean.topDeg - raster.topDeg) / raster.rowDeg * perRow, raster.columns * perColumn, raster.rows * perRow];
    context.drawImage(ground, left, top, wide, high);
    // Nearer ground than the picture reaches goes on in the mean tones of its last rows.
    const tones = /** @type {HTMLCanvasElement} */ (html('canvas', { width: '12', height: '1' }));
    const mean = /** @type {CanvasRenderingContext2D} */ (tones.getContext('2d'));
    for (let i = 0; i < LastRows; i++) {
      mean.globalAlpha = 1 / (i + 1);
      mean.imageSmoothingQuality = 'high';
      mean.drawImage(ground, 0, raster.rows - 1 - i, raster.columns, 1, 0, 0, 12, 1);
    }
    context.drawImage(tones, 0, 0, 12, 1, left, top + high - 1, wide, this.canvas.height);
  }
}
