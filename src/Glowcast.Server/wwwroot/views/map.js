// @ts-check
/** The hillshade of the user's own grids: where the lookout stands, where it looks, and what it sees of the ground. */
import { button, html, path, svg } from '../draw/elements.js';
import { inks } from '../draw/plate.js';
import * as say from '../think/say.js';
import { sightTo } from '../think/sight.js';
import { between, placeAt } from '../think/sphere.js';
import { onDrag, onPinch, within } from './drag.js';

/** @typedef {import('../think/sphere.js').Place} Place */
/** @typedef {{ id: string, grid: Bounds & { name: string } }} Grid */
/** @typedef {{ northDeg: number, southDeg: number, westDeg: number, eastDeg: number }} Bounds */

const ClickPx = 5;
const PanPx = 60;
const Zoom = 1.25;
const SettlingMs = 300;
const MostPixels = 1600;
// Marks by its opacity a pixel that has been tinted already.
const Seen = 254;

export class GroundMap {
  /** @param {HTMLElement} place @param {{ stand: (at: Place) => void, look: (bearingDeg: number) => void }} does */
  constructor(place, does) {
    /** @type {Grid[]} */
    this.grids = [];
    /** Of grids as a whole, and of the part last looked at. @type {{ image: HTMLImageElement, bounds: Bounds }[]} */
    this.pictures = [];
    /** @type {(Place & { pxPerDeg: number }) | null} */
    this.view = null;
    /** The view that the pictures are sharp for. @type {(Place & { pxPerDeg: number }) | null} */
    this.sharp = null;
    /** @type {any} */
    this.plan = {};
    /** @type {import('../think/forecast.js').Forecast | null} */
    this.forecast = null;
    /** @type {Place | null} */
    this.picked = null;
    this.timer = 0;
    this.canvas = /** @type {HTMLCanvasElement} */ (html('canvas', { 'aria-hidden': 'true' }));
    this.panel = html('div', { class: 'panel map', role: 'application', tabindex: '0',
      'aria-label': 'Map of the ground. Arrow keys move it, plus and minus zoom, Enter picks the middle.' }, this.canvas);
    this.text = html('p', { role: 'status' }, 'Click the ground, or press Enter for the middle of the map.');
    this.stand = button('Stand here', () => this.picked && does.stand(this.picked));
    this.look = button('Look there', () => this.picked && does.look(between(this.plan.lookout, this.picked).bearingDeg));
    place.append(this.panel, html('div', { class: 'buttons' }, button('+', () => this.zoom(Zoom), 'Zoom in'), button('−', () => this.zoom(1 / Zoom), 'Zoom out'), this.stand, this.look), this.text);
    this.listen();
  }

  listen() {
    const isPinched = onPinch(this.panel, (from, to) => {
      if (!this.view) return;
      this.moveTo(this.view, from.x - to.x, from.y - to.y);
      this.zoom(to.apart / from.apart, to.x, to.y);
    });
    onDrag(this.panel, from => {
      const begun = this.view && { ...this.view };
      return begun && ((to, isDone) => {
        if (isPinched()) return;
        if (Math.hypot(to.x - from.x, to.y - from.y) > ClickPx) this.moveTo(begun, from.x - to.x, from.y - to.y);
        else if (isDone) this.pick(this.placeOf(to.x, to.y));
      });
    });
    this.panel.addEventListener('wheel', event => {
      event.preventDefault();
      const { x, y } = within(event, this.panel);
      this.zoom(event.deltaY < 0 ? Zoom : 1 / Zoom, x, y);
    }, { passive: false });
    this.panel.addEventListener('keydown', event => {
      const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
      if (step && this.view) this.moveTo(this.view, step[0] * PanPx, step[1] * PanPx);
      else if (event.key === '+' || event.key === '-') this.zoom(event.key === '+' ? Zoom : 1 / Zoom);
      else if (event.key === 'Enter') this.pick(this.placeOf(this.panel.clientWidth / 2, this.panel.clientHeight / 2));
      else return;
      event.preventDefault();
    });
    new ResizeObserver(() => this.draw()).observe(this.panel);
  }

  /** @param {Grid[]} grids of the service @param {any} plan @param {import('../think/forecast.js').Forecast | null} forecast */
  show(grids, plan, forecast) {
    const used = grids.filter(({ id }) => (plan.grids ?? []).includes(id));
    const isSame = used.map(({ id }) => id).join() === this.grids.map(({ id }) => id).join();
    [this.grids, this.plan, this.forecast] = [used, plan, forecast];
    if (!isSame) {
      this.view = null;
      this.pictures = used.map(entry => this.picture(entry, entry.grid));
    }
    this.panel.parentElement?.toggleAttribute('hidden', used.length === 0);
    this.pick(this.picked);
  }

  /** @param {Grid} entry @param {Bounds} bounds */
  picture({ id }, bounds) {
    const image = new Image();
    image.onload = () => this.draw();
    const { westDeg, southDeg, eastDeg, northDeg } = bounds;
    image.src = `/api/grids/${encodeURIComponent(id)}/hillshade?west=${westDeg}&south=${southDeg}&east=${eastDeg}&north=${northDeg}&pixels=${Math.min(MostPixels, Math.max(400, this.panel.clientWidth))}`;
    return { image, bounds };
  }

  /** The part in view, as sharp as the grid has it. */
  sharpen() {
    this.sharp = this.view;
    const [a, b] = [this.placeOf(0, this.panel.clientHeight), this.placeOf(this.panel.clientWidth, 0)];
    const sharp = this.grids.flatMap(entry => {
      const { westDeg, southDeg, eastDeg, northDeg } = entry.grid;
      const bounds = {
        westDeg: Math.max(a.longitudeDeg, westDeg), southDeg: Math.max(a.latitudeDeg, southDeg),
        eastDeg: Math.min(b.longitudeDeg, eastDeg), northDeg: Math.min(b.latitudeDeg, northDeg),
      };
      return bounds.westDeg < bounds.eastDeg && bounds.southDeg < bounds.northDeg ? [this.picture(entry, bounds)] : [];
    });
    this.pictures = [...this.pictures.slice(0, this.grids.length), ...sharp];
  }

  /** All of the grids, or the lookout's surroundings. */
  firstView() {
    const bounds = this.grids.map(({ grid }) => grid);
    const [west, east] = [Math.min(...bounds.map(b => b.westDeg)), Math.max(...bounds.map(b => b.eastDeg))];
    const [south, north] = [Math.min(...bounds.map(b => b.southDeg)), Math.max(...bounds.map(b => b.northDeg))];
    const latitudeDeg = (south + north) / 2;
    const { latitudeDeg: lookoutDeg, longitudeDeg } = this.plan.lookout ?? {};
    const near = Number.isFinite(lookoutDeg) && Number.isFinite(longitudeDeg);
    const fits = Math[near ? 'max' : 'min'](this.panel.clientWidth / ((east - west) * cosine(latitudeDeg)), this.panel.clientHeight / (north - south));
    return near ? { latitudeDeg: lookoutDeg, longitudeDeg, pxPerDeg: fits } : { latitudeDeg, longitudeDeg: (west + east) / 2, pxPerDeg: fits };
  }

  /** @param {Place} place */
  pxOf({ latitudeDeg, longitudeDeg }) {
    const view = /** @type {NonNullable<typeof this.view>} */ (this.view);
    return {
      x: this.panel.clientWidth / 2 + (longitudeDeg - view.longitudeDeg) * cosine(view.latitudeDeg) * view.pxPerDeg,
      y: this.panel.clientHeight / 2 - (latitudeDeg - view.latitudeDeg) * view.pxPerDeg,
    };
  }

  /** @param {number} x @param {number} y @returns {Place} */
  placeOf(x, y) {
    const view = /** @type {NonNullable<typeof this.view>} */ (this.view);
    return {
      latitudeDeg: view.latitudeDeg - (y - this.panel.clientHeight / 2) / view.pxPerDeg,
      longitudeDeg: view.longitudeDeg + (x - this.panel.clientWidth / 2) / view.pxPerDeg / cosine(view.latitudeDeg),
    };
  }

  /** @param {Place & { pxPerDeg: number }} from @param {number} dx @param {number} dy in px */
  moveTo(from, dx, dy) {
    this.view = { ...from, latitudeDeg: from.latitudeDeg - dy / from.pxPerDeg, longitudeDeg: from.longitudeDeg + dx / from.pxPerDeg / cosine(from.latitudeDeg) };
    this.draw();
  }

  /** About a point that stays where it is. @param {number} factor @param {number} [x] @param {number} [y] */
  zoom(factor, x = this.panel.clientWidth / 2, y = this.panel.clientHeight / 2) {
    if (!this.view) return;
    const [dx, dy] = [x - this.panel.clientWidth / 2, y - this.panel.clientHeight / 2];
    const pxPerDeg = this.view.pxPerDeg * factor;
    this.moveTo({ ...this.view, pxPerDeg }, dx * (factor - 1), dy * (factor - 1));
  }

  /** @param {Place | null} place */
  pick(place) {
    this.picked = place;
    const from = this.plan.lookout;
    const isKnown = Number.isFinite(from?.latitudeDeg) && Number.isFinite(from?.longitudeDeg);
    this.stand.disabled = !place;
    this.look.disabled = !place || !isKnown;
    if (place) {
      const { bearingDeg, metres } = isKnown ? between(from, place) : { bearingDeg: 0, metres: 0 };
      const sight = isKnown && this.forecast?.scene ? sightTo(this.forecast.scene.raster, bearingDeg, metres) : null;
      const seen = sight === null ? '' : 'behindM' in sight ? `, hidden by ground ${say.distance(sight.behindM)} away` : ', visible';
      this.text.textContent = `${say.place(place.latitudeDeg, place.longitudeDeg)}${isKnown ? `: ${say.distance(metres)} from the lookout at ${say.degrees(bearingDeg)}${seen}` : ''}.`;
    }
    this.draw();
  }

  draw() {
    const [width, height] = [this.panel.clientWidth, this.panel.clientHeight];
    if (this.grids.length === 0 || width === 0 || height === 0) return;
    this.view ??= this.firstView();
    [this.canvas.width, this.canvas.height] = [width, height];
    const context = /** @type {CanvasRenderingContext2D} */ (this.canvas.getContext('2d', { willReadFrequently: true }));
    for (const { image, bounds } of this.pictures) {
      const [a, b] = [this.pxOf({ latitudeDeg: bounds.northDeg, longitudeDeg: bounds.westDeg }), this.pxOf({ latitudeDeg: bounds.southDeg, longitudeDeg: bounds.eastDeg })];
      if (image.complete && image.naturalWidth > 0) context.drawImage(image, a.x, a.y, b.x - a.x, b.y - a.y);
    }
    if (this.forecast?.scene) this.drawSeen(context, this.forecast);
    this.drawMarks(width, height);
    if (this.sharp === this.view) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.sharpen(), SettlingMs);
  }

  /** The ground that the picture shows. @param {CanvasRenderingContext2D} context @param {import('../think/forecast.js').Forecast} forecast */
  drawSeen(context, { scene, answer }) {
    if (!scene) return;
    const { width, height } = this.canvas;
    const image = context.getImageData(0, 0, width, height);
    const [r, g, b] = inks()('lit');
    const { raster, ground } = scene;
    for (const pixel of ground.pixels) {
      const column = pixel % raster.columns;
      const { x, y } = this.pxOf(placeAt(answer.lookout, raster.fromDeg + (column + 0.5) * raster.columnDeg, raster.distances[pixel]));
      if (x < 0 || y < 0 || x >= width || y >= height) continue;
      const at = 4 * (Math.floor(y) * width + Math.floor(x));
      if (image.data[at + 3] === Seen) continue;
      const grey = image.data[at] / 255;
      [image.data[at], image.data[at + 1], image.data[at + 2], image.data[at + 3]] = [r * (0.55 + 0.45 * grey), g * (0.55 + 0.45 * grey), b * (0.55 + 0.45 * grey), Seen];
    }
    context.putImageData(image, 0, 0);
  }

  /** @param {number} width @param {number} height */
  drawMarks(width, height) {
    this.panel.querySelector('svg')?.remove();
    const drawing = svg('svg', { width, height, 'aria-hidden': 'true' });
    const { lookout, span } = this.plan;
    if (Number.isFinite(lookout?.latitudeDeg) && Number.isFinite(lookout?.longitudeDeg)) {
      const { x, y } = this.pxOf(lookout);
      const far = width + height;
      for (const bearingDeg of [span?.fromDeg, span?.toDeg].filter(Number.isFinite)) {
        const [east, north] = [Math.sin(bearingDeg * Math.PI / 180), Math.cos(bearingDeg * Math.PI / 180)];
        drawing.append(path('sightline', `M${x} ${y}l${east * far} ${-north * far}`));
      }
      drawing.append(path('lookout', `M${x} ${y}l-7 -14h14Z`), svg('text', { class: 'note', x: x + 10, y: y - 5 }, 'lookout'));
    }
    if (this.picked) {
      const { x, y } = this.pxOf(this.picked);
      drawing.append(path('picked', `M${x - 8} ${y}h16M${x} ${y - 8}v16`));
    }
    this.panel.append(drawing);
  }
}

/** @param {number} degrees */
const cosine = degrees => Math.cos(degrees * Math.PI / 180);
