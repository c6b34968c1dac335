// @ts-check
/** The plate: ridge picture, bearings, light chart and the set enlarged, drawn from a forecast and what the user chose. */
import { drawBearings, drawTimes } from '../draw/axis.js';
import { fillLight, fillSwatch } from '../draw/light-states.js';
import { frameOf, inks, layOut } from '../draw/plate.js';
import { drawAltitudes, drawFrames, drawScene, upScale } from '../draw/ridge.js';
import { drawShares } from '../draw/shares.js';
import { drawStair, drawSweepNames } from '../draw/stair.js';
import { svg } from '../draw/elements.js';
import { drawWindows } from '../draw/windows.js';
import { State, msAt } from '../think/chart.js';
import { shownOf } from '../think/forecast.js';
import { lightOfPatches } from '../think/patches.js';
import { spread } from '../think/patch-map.js';
import { timeScale } from '../think/scales.js';
import * as say from '../think/say.js';
import { stairAt } from '../think/stair.js';
import { paintGround } from '../think/tones.js';

/** @typedef {import('../think/forecast.js').Forecast} Forecast */
/** @typedef {{ minute: number, startS: number | null, wholeDay: boolean, frames: boolean }} Choice */

const Minutes = [60, 120, 300, 600, 900, 1800, 3600, 7200];
const Seconds = [10, 15, 20, 30, 60, 120, 300, 600];
// A sunless scene is shown in the light of a low sun's sky.
const NoSun = { azimuthDeg: 0, altitudeDeg: 1 };

export class Plate {
  /** @param {HTMLElement} place */
  constructor(place) {
    const panel = (/** @type {string} */ name) => /** @type {HTMLElement} */ (place.querySelector(`[data-panel="${name}"]`));
    this.ridge = panel('ridge');
    this.bearings = panel('bearings');
    this.light = panel('light');
    this.set = panel('set');
    this.setBearings = panel('set-bearings');
    this.ground = document.createElement('canvas');
    /** What the ground shows. @type {{ forecast: Forecast | null, minute: number }} */
    this.painted = { forecast: null, minute: 0 };
    /** @type {ReturnType<typeof stairAt>} */
    this.stair = [];
    /** How much taller heights are drawn than bearings are wide. */
    this.stretch = 1;
    /** @type {import('../think/scales.js').TimeScale | null} of the light chart */
    this.down = null;
  }

  /** @param {Forecast} forecast @param {Choice} choice */
  draw(forecast, choice) {
    this.stair = forecast.chart && forecast.set && choice.startS !== null ? stairAt(forecast.chart, forecast.windows, forecast.set, choice.startS) : [];
    if (this.painted.forecast !== forecast || this.painted.minute !== choice.minute) this.paint(forecast, choice.minute);
    this.drawRidge(forecast, choice);
    this.drawAxis(this.bearings, forecast);
    if (forecast.chart) this.drawLight(forecast, choice);
    if (this.stair.length > 0) this.drawSet(forecast, choice);
  }

  /** Only the picture's minute has changed. @param {Forecast} forecast @param {Choice} choice */
  drawMinute(forecast, choice) {
    this.paint(forecast, choice.minute);
    this.drawRidge(forecast, choice);
    if (forecast.chart) this.moveMinute(forecast, choice);
  }

  /** Paints the ground at the raster's own size. @param {Forecast} forecast @param {number} minute */
  paint(forecast, minute) {
    this.painted = { forecast, minute };
    const { scene, chart } = forecast;
    if (!scene) return;
    const { raster, map, patches, normals, depth } = scene;
    const light = chart && map ? spread(map, lightOfPatches(chart, patches, minute)) : new Float32Array(raster.distances.length);
    [this.ground.width, this.ground.height] = [raster.columns, raster.rows];
    const image = new ImageData(raster.columns, raster.rows);
    paintGround(image.data, depth, normals, light, sunAt(chart, minute));
    /** @type {CanvasRenderingContext2D} */ (this.ground.getContext('2d')).putImageData(image, 0, 0);
  }

  /** @param {Forecast} forecast @param {Choice} choice */
  drawRidge({ scene, span, chart, set }, choice) {
    if (!scene) return;
    const flat = frameOf(this.ridge, span, 0);
    const up = upScale(scene.raster, flat);
    const frame = { ...flat, height: up.height };
    const { canvas, drawing } = layOut(this.ridge, frame);
    this.stretch = up.stretch;
    drawScene(canvas, this.ground, scene.raster, up, frame.ratio, sunAt(chart, choice.minute).altitudeDeg);
    drawAltitudes(drawing, frame, up);
    if (choice.frames && set) drawFrames(drawing, frame, up, set, this.stair);
    drawing.append(svg('rect', { class: 'border', x: frame.left, y: 0.5, width: frame.right - frame.left, height: frame.height - 1 }));
  }

  /** What a point of the picture's panel shows; null outside the ground and sky of the raster.
   * @param {number} x @param {number} y in CSS px @param {Forecast} forecast */
  placeOf(x, y, { scene, span }) {
    if (!scene) return null;
    const { raster } = scene;
    const frame = frameOf(this.ridge, span, 0);
    const up = upScale(raster, frame);
    const altitudeDeg = up.topDeg - y / (up.toPx(0) - up.toPx(1));
    const column = Math.floor((x - frame.left) / frame.across.pxPerDeg / raster.columnDeg);
    const row = Math.floor((raster.topDeg - altitudeDeg) / raster.rowDeg);
    if (column < 0 || column >= raster.columns || row >= raster.rows) return null;
    return { bearingDeg: frame.across.toDeg(x), altitudeDeg, pixel: row < 0 ? column : row * raster.columns + column };
  }

  /** @param {HTMLElement} panel @param {Forecast} forecast */
  drawAxis(panel, { span }) {
    const frame = frameOf(panel, span, 26);
    panel.querySelector('svg')?.remove();
    const drawing = svg('svg', { width: frame.width, height: frame.height });
    panel.append(drawing);
    drawBearings(/** @type {SVGElement} */ (drawing), frame, span);
  }

  /** @param {Forecast} forecast @param {Choice} choice */
  drawLight(forecast, choice) {
    const chart = /** @type {import('../think/chart.js').Chart} */ (forecast.chart);
    const flat = frameOf(this.light, forecast.span, 0);
    const frame = { ...flat, height: flat.isNarrow ? 320 : 380 };
    const shown = shownOf(forecast, choice.wholeDay);
    const down = timeScale(shown.startS, shown.endS, 0, frame.height);
    const { canvas, drawing } = layOut(this.light, frame);
    fillLight(canvas, chart, down, frame.ratio, inks());
    drawTimes(drawing, frame, down, seconds => forecast.clock.hm(msAt(chart, seconds)), Minutes, phaseOf(forecast));
    drawWindows(drawing, frame, down, forecast.windows);
    drawShares(drawing, frame, down, chart);
    if (forecast.set) drawStair(drawing, frame, down, this.stair, forecast.set.horizontalFovDeg, say.exposure);
    drawing.append(svg('rect', { class: 'border', x: frame.left, y: 0.5, width: frame.right - frame.left, height: frame.height - 1 }));
    this.down = down;
    this.moveMinute(forecast, choice);
  }

  /** Marks the picture's minute on the chart. @param {Forecast} forecast @param {Choice} choice */
  moveMinute({ span }, choice) {
    const drawing = this.light.querySelector('svg');
    if (!drawing || !this.down) return;
    drawing.querySelector('.now')?.remove();
    const frame = frameOf(this.light, span, 0);
    const y = this.down.toPx(choice.minute * 60);
    drawing.append(svg('path', { class: 'now', d: `M${frame.left - 6} ${y - 5}l6 5l-6 5ZM${frame.left} ${y}H${frame.right}` }));
  }

  /** @param {Forecast} forecast @param {Choice} choice */
  drawSet(forecast, choice) {
    const chart = /** @type {import('../think/chart.js').Chart} */ (forecast.chart);
    const startS = /** @type {number} */ (choice.startS);
    const frame = frameOf(this.set, forecast.span, Math.max(180, Math.min(460, 30 + 4.5 * this.stair.length)));
    const room = 0.06 * forecast.set.totalS + 4;
    const down = timeScale(startS - room, startS + forecast.set.totalS + room, 0, frame.height);
    const { canvas, drawing } = layOut(this.set, frame);
    fillLight(canvas, chart, down, frame.ratio, inks());
    drawTimes(drawing, frame, down, seconds => forecast.clock.hms(msAt(chart, seconds)), Seconds, phaseOf(forecast));
    drawWindows(drawing, frame, down, forecast.windows);
    drawStair(drawing, frame, down, this.stair, forecast.set.horizontalFovDeg, say.exposure);
    drawSweepNames(drawing, frame, down, this.stair);
    drawing.append(svg('rect', { class: 'border', x: frame.left, y: 0.5, width: frame.right - frame.left, height: frame.height - 1 }));
    this.drawAxis(this.setBearings, forecast);
  }
}

/** The swatches of the legend. @param {HTMLElement} legend */
export function paintLegend(legend) {
  for (const canvas of legend.querySelectorAll('canvas')) fillSwatch(canvas, State[/** @type {keyof typeof State} */ (canvas.dataset.state)], inks());
}

/** @param {Forecast['chart']} chart @param {number} minute */
function sunAt(chart, minute) {
  return chart ? { azimuthDeg: chart.sunAzimuthDeg[minute], altitudeDeg: chart.sunAltitudeDeg[minute] } : NoSun;
}

/** Seconds of local time since midnight at the start of the chart, so that ticks fall on full minutes and hours. @param {Forecast} forecast */
function phaseOf({ chart, clock }) {
  const [h, m, s] = clock.hms(/** @type {import('../think/chart.js').Chart} */ (chart).startMs).split(':').map(Number);
  return h * 3600 + m * 60 + s;
}
