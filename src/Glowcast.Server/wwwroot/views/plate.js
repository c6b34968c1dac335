// @ts-check
/** The plate: ridge picture, bearings, light chart and the set enlarged, drawn from a forecast and what the user chose. */
import { drawBearings, drawTimes } from '../draw/axis.js';
import { fillLight, fillSwatch } from '../draw/light-states.js';
import { frameOf, inks, layOut, layOver, pixelRatio } from '../draw/plate.js';
import { drawAltitudes, drawClean, drawFrames, drawSummits, placeScene, skyOf, upScale } from '../draw/ridge.js';
import { drawShares } from '../draw/shares.js';
import { drawStair, drawSweepNames } from '../draw/stair.js';
import { html, path, svg } from '../draw/elements.js';
import { drawWindows } from '../draw/windows.js';
import { State, msAt } from '../think/chart.js';
import { shownOf } from '../think/forecast.js';
import { lightOfPatches } from '../think/patches.js';
import { paintGround } from '../think/painter.js';
import { timeScale } from '../think/scales.js';
import * as say from '../think/say.js';
import { sightTo } from '../think/sight.js';
import { between } from '../think/sphere.js';
import { stairAt } from '../think/stair.js';
import { inColour, inksAt } from '../think/tones.js';

/** @typedef {import('../think/forecast.js').Forecast} Forecast */
/** @typedef {{ minute: number, startS: number | null, wholeDay: boolean, frames: boolean }} Choice */
/** @typedef {import('../think/scales.js').TimeScale} TimeScale */

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
    this.ground = /** @type {HTMLCanvasElement} */ (html('canvas', { 'aria-hidden': 'true' }));
    this.view = html('div', { class: 'view' }, this.ground);
    this.ridge.prepend(this.view);
    /** @type {ImageData | null} */
    this.image = null;
    /** The same, a number a pixel. */
    this.rgba = new Uint32Array();
    /** What is drawn. @type {Forecast | null} */
    this.forecast = null;
    /** @type {import('../draw/ridge.js').UpScale | null} */
    this.up = null;
    /** @type {ReturnType<typeof stairAt>} */
    this.stair = [];
    /** Of the user's own. @type {import('../think/summits.js').Summit[]} */
    this.summits = [];
    /** Told when the ridge has been laid out anew. */
    this.onRidge = () => {};
    /** How much taller heights are drawn than bearings are wide. */
    this.stretch = 1;
    /** Of the light chart and of the set enlarged. @type {{ light: TimeScale | null, set: TimeScale | null }} */
    this.down = { light: null, set: null };
  }

  /** @param {Forecast} forecast @param {Choice} choice */
  draw(forecast, choice) {
    this.stair = forecast.set && choice.startS !== null ? stairAt(forecast, choice.startS) : [];
    if (this.forecast !== forecast) this.prepare(forecast);
    this.drawRidge(forecast, choice);
    this.drawAxis(this.bearings, forecast);
    if (forecast.chart) this.drawLight(forecast, choice);
    if (this.stair.length > 0) this.drawSet(forecast, choice);
    this.paint(forecast, choice.minute);
  }

  /** Only the picture's minute has changed. @param {Forecast} forecast @param {Choice} choice */
  drawMinute(forecast, choice) {
    this.paint(forecast, choice.minute);
    if (forecast.chart) this.moveMinute(forecast, choice);
  }

  /** Only the start has changed: the stair moves, the charts stay. @param {Forecast} forecast @param {number} startS */
  moveStair(forecast, startS) {
    this.stair = stairAt(forecast, startS);
    for (const [panel, down] of /** @type {const} */ ([[this.light, this.down.light], [this.set, this.down.set]])) {
      const drawing = panel.querySelector('svg');
      if (drawing && down) drawStair(drawing, frameOf(panel, forecast.span, panel.clientHeight), down, this.stair, forecast.set.horizontalFovDeg, say.exposure);
    }
  }

  /** @param {Forecast} forecast */
  prepare(forecast) {
    this.forecast = forecast;
    if (!forecast.scene) return;
    const { columns, rows } = forecast.scene.raster;
    [this.ground.width, this.ground.height] = [columns, rows];
    this.image = new ImageData(columns, rows);
    this.rgba = new Uint32Array(this.image.data.buffer);
  }

  /** Paints the ground at the raster's own size, and the sky behind it. @param {Forecast} forecast @param {number} minute */
  paint({ scene, chart }, minute) {
    if (!scene || !this.image || !this.up) return;
    const sun = chart ? { azimuthDeg: chart.sunAzimuthDeg[minute], altitudeDeg: chart.sunAltitudeDeg[minute] } : NoSun;
    const inks = inColour(inksAt(sun.altitudeDeg), chart?.beamX[minute] ?? null, chart?.beamY[minute] ?? null);
    const light = chart ? lightOfPatches(chart, scene.patches, minute) : new Float32Array();
    paintGround(this.rgba, scene.ground, scene.map, light, sun, inks);
    /** @type {CanvasRenderingContext2D} */ (this.ground.getContext('2d')).putImageData(this.image, 0, 0);
    this.view.style.background = skyOf(this.up, inks);
  }

  /** @param {Forecast} forecast @param {Choice} choice */
  drawRidge(forecast, choice) {
    const { scene, span, set } = forecast;
    if (!scene) return;
    const flat = frameOf(this.ridge, span, 0);
    const up = upScale(scene.raster, flat);
    const frame = { ...flat, height: up.height };
    this.up = up;
    this.stretch = up.stretch;
    placeScene(this.view, this.ground, scene.raster, up, frame);
    const drawing = layOver(this.ridge, frame);
    drawAltitudes(drawing, frame, up);
    drawSummits(drawing, frame, up, this.summitsInSight(forecast));
    if (choice.frames && set) {
      drawFrames(drawing, frame, up, set, this.stair);
      drawClean(drawing, frame, up, set);
    }
    drawing.append(border(frame));
    this.onRidge();
  }

  /** @param {Forecast} forecast */
  summitsInSight({ answer, scene }) {
    return this.summits.map(({ name, ...place }) => ({ name, ...between(answer.lookout, place) })).sort((a, b) => a.metres - b.metres).flatMap(summit => {
      const sight = scene && sightTo(scene.raster, summit.bearingDeg, summit.metres);
      return sight && 'altitudeDeg' in sight ? [{ ...summit, altitudeDeg: sight.altitudeDeg }] : [];
    });
  }

  /** What a point of the picture's panel shows; null outside the ground and sky of the raster.
   * @param {number} x @param {number} y in CSS px @param {Forecast} forecast */
  placeOf(x, y, { scene, span }) {
    if (!scene) return null;
    const { raster } = scene;
    const [frame, up] = [frameOf(this.ridge, span, 0), this.up];
    if (!up) return null;
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
    if (this.stair.length > 0) drawStair(drawing, frame, down, this.stair, forecast.set.horizontalFovDeg, say.exposure);
    drawing.append(border(frame));
    this.down.light = down;
    this.moveMinute(forecast, choice);
  }

  /** Marks the picture's minute on the chart. @param {Forecast} forecast @param {Choice} choice */
  moveMinute({ span }, choice) {
    const drawing = this.light.querySelector('svg');
    if (!drawing || !this.down.light) return;
    let now = drawing.querySelector('.now');
    if (!now) {
      // Asking for the width makes the browser lay the page out, which is not for every minute.
      const { left, right } = frameOf(this.light, span, 0);
      now = drawing.appendChild(path('now', `M${left - 6} -5l6 5l-6 5ZM${left} 0H${right}`));
    }
    now.setAttribute('transform', `translate(0 ${this.down.light.toPx(choice.minute * 60).toFixed(1)})`);
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
    drawing.append(border(frame));
    this.down.set = down;
    this.drawAxis(this.setBearings, forecast);
  }
}

/** The swatches of the legend. @param {HTMLElement} legend */
export function paintLegend(legend) {
  const ink = inks();
  for (const canvas of legend.querySelectorAll('canvas')) fillSwatch(canvas, State[/** @type {keyof typeof State} */ (canvas.dataset.state)], pixelRatio(), ink);
}

/** @param {import('../draw/plate.js').Frame} frame */
const border = ({ left, right, height }) => svg('rect', { class: 'border', x: left, y: 0.5, width: right - left, height: height - 1 });

/** Seconds of local time since midnight at the start of the chart, so that ticks fall on full minutes and hours. @param {Forecast} forecast */
function phaseOf({ chart, clock }) {
  const [h, m, s] = clock.hms(/** @type {import('../think/chart.js').Chart} */ (chart).startMs).split(':').map(Number);
  return h * 3600 + m * 60 + s;
}
