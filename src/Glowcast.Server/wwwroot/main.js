// @ts-check
/** Ties the page together: asks for the plan, works it out, draws it, listens. */
import * as service from './api.js';
import { html } from './draw/elements.js';
import { msAt } from './think/chart.js';
import { longDate } from './think/clock.js';
import { describeLight, describeRidge, describeSet, describeStair, readAt } from './think/describe.js';
import { forecastOf, setWindow, shownOf } from './think/forecast.js';
import { emptyPlan } from './think/plan.js';
import { degrees, place } from './think/say.js';
import * as notes from './views/notes.js';
import { PlanForm } from './views/plan-form.js';
import { Plate, paintLegend } from './views/plate.js';
import { chartTable } from './views/table.js';

/** @template {HTMLElement} T @param {string} id @returns {T} */
const part = id => /** @type {T} */ (document.getElementById(id));

const form = new PlanForm(part('plan'), workOut);
const plate = new Plate(part('plate'));
const minute = /** @type {HTMLInputElement} */ (part('minute'));
const start = /** @type {HTMLInputElement} */ (part('start'));

/** @type {import('./think/forecast.js').Forecast | null} */
let forecast = null;
/** @type {import('./views/plate.js').Choice} */
const choice = { minute: 0, startS: null, wholeDay: false, frames: false };
let asking = new AbortController();

/** @param {string} planJson */
async function workOut(planJson) {
  asking.abort();
  asking = new AbortController();
  const { signal } = asking;
  clearProblem();
  const done = showProgress();
  try {
    const answer = await service.forecast(planJson, signal);
    const plan = JSON.parse(planJson);
    form.show(plan);
    forecast = forecastOf(answer, plan);
    showForecast(forecast);
  } catch (error) {
    if (!signal.aborted) showProblem(error);
  } finally {
    if (!signal.aborted) done();
  }
}

/** Says that the page is at work, and for how long already. */
function showProgress() {
  const begun = performance.now();
  const say = () => {
    const seconds = Math.floor((performance.now() - begun) / 1000);
    part('progress').textContent = `Following the sun over every visible slope${seconds > 2 ? `, ${seconds} s so far` : ''} …`;
  };
  say();
  document.body.classList.add('working');
  const timer = setInterval(say, 1000);
  return () => {
    clearInterval(timer);
    part('progress').textContent = '';
    document.body.classList.remove('working');
  };
}

function clearProblem() {
  part('problem').hidden = true;
  form.showFaults({});
}

/** @param {unknown} error */
function showProblem(error) {
  const faults = error instanceof service.Refusal ? error.faults : {};
  const others = form.showFaults(faults);
  const title = error instanceof service.Refusal ? error.message : 'The page itself failed; reload it.';
  if (!(error instanceof service.Refusal)) console.error(error);
  part('problem').replaceChildren(
    html('h2', {}, Object.keys(faults).length > 0 ? 'The plan cannot be worked out' : 'No answer'), html('p', {}, title),
    html('ul', {}, ...others.map(([field, messages]) => html('li', {}, html('b', {}, field), ` ${messages.join(' ')}`))),
    forecast ? html('p', { class: 'quiet' }, 'What stands below is still the answer to the plan before.') : '');
  part('problem').hidden = false;
  // Faults that stand beside no field of the form must be seen too.
  if (others.length > 0) part('problem').scrollIntoView({ block: 'nearest' });
}

/** @param {import('./think/forecast.js').Forecast} shown */
function showForecast(shown) {
  const { answer, chart } = shown;
  part('title').textContent = longDate(answer.date);
  part('where').textContent = `From ${place(answer.lookout.latitudeDeg, answer.lookout.longitudeDeg)}, the eye at ${Math.round(answer.lookout.eyeHeightM)} m, bearings ${degrees(answer.span.fromDeg)} to ${degrees(answer.span.toDeg)}. Times are ${shown.clock.name}.`;
  fill('verdict', notes.verdictView(shown));
  fill('windows', notes.windowsView(shown));
  fill('set-facts', notes.setView(shown));
  fill('order', notes.orderView(shown));
  fill('spoils', notes.spoilsView(shown));
  fill('remedies', notes.remediesView(shown));
  fill('assumed', notes.assumedView(shown));
  fill('cautions', notes.cautionsView(shown));
  part('below').hidden = false;
  part('plate').hidden = !shown.scene;
  part('light-part').hidden = part('table').hidden = !chart;
  part('set-part').hidden = shown.startS === null;
  setRanges(shown);
  drawAll();
}

/** @param {string} id @param {(Node | string | null | undefined | false)[]} children */
function fill(id, children) {
  const shown = /** @type {(Node | string)[]} */ (children.filter(child => child));
  part(id).replaceChildren(...shown);
  part(id).hidden = shown.length === 0;
}

/** @param {import('./think/forecast.js').Forecast} shown */
function setRanges(shown) {
  const { chart, startS } = shown;
  choice.startS = startS;
  if (!chart) return;
  minute.max = String(chart.minutes - 1);
  choice.minute = Math.floor(firstSeenS(shown, chart) / 60);
  minute.value = String(choice.minute);
  if (startS === null) return;
  const window = setWindow(shown);
  start.min = String(Math.floor(Math.max(0, window.startS - shown.set.totalS)));
  start.max = String(Math.ceil(Math.min(chart.lengthS - shown.set.totalS, window.endS)));
  start.value = String(startS);
  part('earliest').hidden = part('latest').hidden = !shown.answer.fit.earliestStart;
}

/** The moment that the picture shows first: the middle of the set, as far as the window reaches; else the middle of the day.
 * @param {import('./think/forecast.js').Forecast} shown @param {import('./think/chart.js').Chart} chart */
function firstSeenS(shown, chart) {
  if (shown.windows.length === 0) return chart.lengthS / 2;
  const window = setWindow(shown);
  return Math.min((shown.startS ?? window.startS) + (shown.set?.totalS ?? 0) / 2, window.endS);
}

function drawAll() {
  if (!forecast) return;
  plate.draw(forecast, choice);
  sayMinute();
  sayStair();
  paintLegend(part('legend'));
  part('stretch').textContent = plate.stretch > 1 ? `heights drawn ×${plate.stretch}` : '';
  if (forecast.chart) part('table').querySelector('.scroll')?.replaceChildren(chartTable(forecast, shownOf(forecast, choice.wholeDay)));
  part('light-panel').setAttribute('aria-label', describeLight(forecast, choice));
}

function sayMinute() {
  if (!forecast) return;
  const text = forecast.chart ? forecast.clock.hm(msAt(forecast.chart, choice.minute * 60)) : 'any time: no sun';
  part('minute-text').textContent = text;
  minute.setAttribute('aria-valuetext', text);
  part('ridge-panel').setAttribute('aria-label', describeRidge(forecast, choice));
}

function sayStair() {
  if (!forecast?.chart || choice.startS === null) return;
  const text = forecast.clock.hms(msAt(forecast.chart, choice.startS));
  part('start-text').textContent = text;
  start.setAttribute('aria-valuetext', text);
  const found = describeStair(forecast, plate.stair);
  part('stair-text').textContent = found;
  part('stair-text').className = plate.stair.some(step => step.problem) ? 'missing' : '';
  part('set-panel').setAttribute('aria-label', describeSet(forecast, found));
}

function listen() {
  minute.addEventListener('input', () => chooseMinute(Number(minute.value)));
  start.addEventListener('input', () => chooseStart(Number(start.value)));
  part('earliest').addEventListener('click', () => chooseStartAt('earliestStart'));
  part('latest').addEventListener('click', () => chooseStartAt('latestStart'));
  part('frames').addEventListener('change', event => {
    choice.frames = /** @type {HTMLInputElement} */ (event.target).checked;
    drawAll();
  });
  for (const radio of document.querySelectorAll('input[name=part]')) radio.addEventListener('change', () => {
    choice.wholeDay = /** @type {HTMLInputElement} */ (radio).value === 'day' && /** @type {HTMLInputElement} */ (radio).checked;
    drawAll();
  });
  part('light-panel').addEventListener('click', event => {
    if (forecast?.chart && plate.down) chooseMinute(Math.round(plate.down.toS(within(event).y) / 60));
  });
  part('ridge-panel').addEventListener('pointermove', event => {
    if (forecast) part('readout').textContent = readAt(forecast, choice, plate.placeOf(within(event).x, within(event).y, forecast));
  });
  part('ridge-panel').addEventListener('pointerleave', () => { part('readout').textContent = ''; });
  new ResizeObserver(() => drawAll()).observe(part('plate'));
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawAll);
}

/** Where in its panel the pointer is. @param {MouseEvent} event */
function within(event) {
  const box = /** @type {HTMLElement} */ (event.currentTarget).getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

/** @param {number} chosen */
function chooseMinute(chosen) {
  if (!forecast?.chart) return;
  choice.minute = Math.max(0, Math.min(forecast.chart.minutes - 1, chosen));
  minute.value = String(choice.minute);
  plate.drawMinute(forecast, choice);
  sayMinute();
}

/** @param {number} seconds after the chart's start */
function chooseStart(seconds) {
  choice.startS = seconds;
  drawAll();
}

/** @param {'earliestStart' | 'latestStart'} which */
function chooseStartAt(which) {
  if (!forecast?.chart) return;
  const seconds = (Date.parse(forecast.answer.fit[which]) - forecast.chart.startMs) / 1000;
  start.value = String(seconds);
  chooseStart(seconds);
}

async function begin() {
  listen();
  try {
    const demo = await service.demoPlan();
    if (demo) {
      form.show(demo);
      await workOut(JSON.stringify(demo, null, 2));
      return;
    }
    form.show(emptyPlan((await service.grids()).map(grid => grid.id)));
    form.details.open = true;
    part('progress').textContent = 'Write a plan, and have it worked out.';
  } catch (error) {
    showProblem(error);
  }
}

begin();
