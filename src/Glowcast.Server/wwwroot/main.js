// @ts-check
/** Ties the page together: asks for the plan, works it out, draws it, listens. */
import * as service from './api.js';
import { html } from './draw/elements.js';
import * as kept from './kept.js';
import { msAt } from './think/chart.js';
import { longDate } from './think/clock.js';
import { describeLight, describeRidge, describeSet, describeStair, readAt } from './think/describe.js';
import { forecastOf, setWindow, shownOf } from './think/forecast.js';
import { History } from './think/history.js';
import { linkOf, stateOf } from './think/link.js';
import { emptyPlan, isWhole, withValue, withValues } from './think/plan.js';
import { bearing } from './think/scales.js';
import { degrees, height, place } from './think/say.js';
import { roomAt, rowAt, startAt } from './think/starts.js';
import { Along } from './views/along.js';
import { Bar } from './views/bar.js';
import { Grids } from './views/grids.js';
import { GroundMap } from './views/map.js';
import { onDrag, within } from './views/drag.js';
import { Kept } from './views/kept.js';
import * as notes from './views/notes.js';
import { PlanForm } from './views/plan-form.js';
import { Plate, paintLegend } from './views/plate.js';
import { Print } from './views/print.js';
import { Season } from './views/season.js';
import { onSpan } from './views/span.js';
import { chartTable } from './views/table.js';

/** @typedef {import('./think/forecast.js').Forecast} Forecast */
/** @typedef {import('./think/link.js').State} State */

const HalfLookDeg = 20;
const MostSummits = 500;

/** @template {HTMLElement} T @param {string} id @returns {T} */
const part = id => /** @type {T} */ (document.getElementById(id));

const form = new PlanForm(part('plan'), planJson => workOut(planJson));
const plate = new Plate(part('plate'));
const keepsakes = new Kept(part('kept'), {
  current: () => ({ planJson: JSON.stringify(form.plan), startS: choice.startS, answer: forecast?.answer }),
  onOpen: plan => workOut(plan.planJson, plan),
  onUse: edits => begun(edits),
});
const bar = new Bar(part('bar'), { go: step => workOutState(states.go(step)), onLook: reshow });
new Along(part('along'), () => form.plan);
const season = new Season(part('season'), { plan: () => form.plan, onPick: date => change({ date }) });
const print = new Print(part('print'), plate);
const map = new GroundMap(part('map'), {
  stand: ({ latitudeDeg, longitudeDeg }) => begun({ 'lookout.latitudeDeg': Number(latitudeDeg.toFixed(6)), 'lookout.longitudeDeg': Number(longitudeDeg.toFixed(6)) }),
  look: bearingDeg => begun({ 'span.fromDeg': bearing(Math.round(bearingDeg) - HalfLookDeg), 'span.toDeg': bearing(Math.round(bearingDeg) + HalfLookDeg) }),
});
const grids = new Grids(part('grids'), {
  onGrid: id => begun({ grids: [...new Set([...form.plan.grids ?? [], id])] }),
  onForget: id => begun({ grids: form.plan.grids.filter((/** @type {string} */ other) => other !== id) }),
  onSounding: text => begun({ 'conditions.sounding': text, 'conditions.deckTopM': null }),
  onSummits: summits => {
    plate.summits = [...plate.summits, ...summits].slice(0, MostSummits);
    localStorage.setItem('summits', JSON.stringify(plate.summits));
    drawAll();
  },
});
const minute = /** @type {HTMLInputElement} */ (part('minute'));
const start = /** @type {HTMLInputElement} */ (part('start'));
/** @type {History<State>} */
const states = new History();

/** @type {Forecast | null} */
let forecast = null;
/** @type {import('./views/plate.js').Choice} */
const choice = { minute: 0, startS: null, wholeDay: false, frames: false };
let asking = new AbortController();

/** @param {string} planJson @param {{ startS?: number | null, minute?: number | null }} wanted as the forecast has them where not given
 * @param {boolean} isNew whether it can be undone */
async function workOut(planJson, wanted = {}, isNew = true) {
  asking.abort();
  asking = new AbortController();
  const { signal } = asking;
  clearProblem();
  const done = showProgress();
  try {
    const answer = await answerTo(planJson, signal);
    const plan = JSON.parse(planJson);
    form.show(plan);
    forecast = forecastOf(answer);
    choice.startS = forecast.startS;
    setRanges(forecast);
    if (forecast.startS !== null) choice.startS = wanted.startS ?? forecast.startS;
    choice.minute = wanted.minute ?? firstMinute(forecast);
    if (isNew) states.push({ plan, startS: choice.startS, minute: choice.minute });
    showForecast(forecast);
    remember();
    showGround();
  } catch (error) {
    if (!signal.aborted) showProblem(error);
  } finally {
    if (!signal.aborted) done();
  }
}

/** @param {State} state already in the history */
function workOutState(state) {
  workOut(JSON.stringify(state.plan), state, false);
}

/** Of the service; where it does not answer, the one kept with the plan. @param {string} planJson @param {AbortSignal} signal */
async function answerTo(planJson, signal) {
  part('offline').textContent = '';
  try {
    const answer = await service.forecast(planJson, signal);
    kept.keep({ name: '', planJson: JSON.stringify(JSON.parse(planJson)), startS: null, savedAt: Date.now(), answer }).catch(console.warn);
    return answer;
  } catch (error) {
    if (!(error instanceof service.Unreachable)) throw error;
    const found = await kept.withPlan(JSON.stringify(JSON.parse(planJson)));
    if (!found) throw error;
    part('offline').textContent = `No service answers. This is the forecast kept on ${new Date(found.savedAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })}; another start can be tried, another plan not.`;
    return found.answer;
  }
}

/** Puts what is shown into the address, so that the address is a link to it. */
async function remember() {
  bar.show(states);
  history.replaceState(null, '', `#${await linkOf({ plan: form.plan, startS: choice.startS, minute: choice.minute })}`);
}

/** What was dragged or slid has come to rest. */
function settle() {
  if (!forecast) return;
  keepStart();
  states.push({ plan: form.plan, startS: choice.startS, minute: choice.minute });
  remember();
}

/** Writes a start that was dragged into the plan, so that card, calendar, link and another date have it too. */
function keepStart() {
  if (!forecast?.chart || choice.startS === null || Math.abs(choice.startS - (forecast.startS ?? 0)) < 0.5) return;
  const { answer, chart, windows } = forecast;
  const window = answer.windows[windows.indexOf(setWindow(forecast, choice.startS))];
  form.show(withValue(form.plan, 'set.startAt', startAt(answer.windows, window, msAt(chart, choice.startS))));
}

/** What the answer's table says of a start that it is not about; null at its own. */
function liveStart() {
  if (!forecast?.chart || choice.startS === null || Math.abs(choice.startS - (forecast.startS ?? 0)) < 0.5) return null;
  const ms = msAt(forecast.chart, choice.startS);
  const row = rowAt(forecast.answer.fit, ms);
  return row && { ms, row, room: roomAt(forecast.answer.fit, ms) };
}

/** @param {Record<string, unknown>} edits new values by dotted paths */
const change = edits => workOut(JSON.stringify(withValues(form.edited(), edits)));

/** A change while the plan may not be whole yet. @param {Record<string, unknown>} edits */
async function begun(edits) {
  const plan = withValues(form.edited(), edits);
  if (isWhole(plan)) return workOut(JSON.stringify(plan));
  form.show(plan);
  await showGround();
}

/** Grids of the service and the map of those that the plan uses. */
async function showGround() {
  const known = await service.grids().catch(() => []);
  grids.show(known, form.plan.grids ?? []);
  map.show(known, form.plan, forecast);
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

/** @param {Forecast} shown */
function showForecast(shown) {
  const { answer, chart } = shown;
  part('title').textContent = longDate(answer.date);
  part('where').textContent = `From ${place(answer.lookout.latitudeDeg, answer.lookout.longitudeDeg)}, the eye at ${height(answer.lookout.eyeHeightM)}, bearings ${degrees(answer.span.fromDeg)} to ${degrees(answer.span.toDeg)}. Times are ${shown.clock.name}.`;
  fill('windows', notes.windowsView(shown));
  fill('pictures', notes.picturesView(shown, change));
  fill('set-facts', notes.setView(shown));
  fill('order', notes.orderView(shown));
  fill('spoils', notes.spoilsView(shown));
  fill('remedies', notes.remediesView(shown, change));
  fill('cloud', notes.cloudView(shown, () => change({ 'conditions.sounding': null })));
  fill('assumed', notes.assumedView(shown));
  fill('cautions', notes.cautionsView(shown));
  part('below').hidden = part('keeping').hidden = false;
  part('plate').hidden = !shown.scene;
  part('light-part').hidden = part('table').hidden = !chart;
  part('set-part').hidden = shown.startS === null;
  part('print').hidden = !shown.set;
  drawAll();
  if (shown.set) print.show(shown);
  part('season').hidden = false;
  season.show(shown);
}

/** In other units or another light. */
function reshow() {
  form.show(form.plan);
  if (forecast) showForecast(forecast);
}

/** @param {string} id @param {(Node | string | null | undefined | false)[]} children */
function fill(id, children) {
  const shown = /** @type {(Node | string)[]} */ (children.filter(child => child));
  part(id).replaceChildren(...shown);
  part(id).hidden = shown.length === 0;
}

/** @param {Forecast} shown */
function setRanges(shown) {
  const { chart, startS } = shown;
  if (!chart) return;
  minute.max = String(chart.minutes - 1);
  if (startS === null) return;
  const window = setWindow(shown, startS);
  start.min = String(Math.floor(Math.max(0, window.startS - shown.set.totalS)));
  start.max = String(Math.ceil(Math.min(chart.lengthS - shown.set.totalS, window.endS)));
  part('earliest').hidden = part('latest').hidden = !shown.answer.fit.earliestStart;
}

/** The moment that the picture shows first: the middle of the set, as far as the window reaches; else the middle of the day.
 * @param {Forecast} shown */
function firstMinute(shown) {
  if (!shown.chart) return 0;
  if (shown.windows.length === 0) return Math.floor(shown.chart.lengthS / 120);
  const window = setWindow(shown, shown.startS);
  return Math.floor(Math.min((shown.startS ?? window.startS) + (shown.set?.totalS ?? 0) / 2, window.endS) / 60);
}

function drawAll() {
  if (!forecast) return;
  plate.draw(forecast, choice);
  minute.value = String(choice.minute);
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
  if (!forecast) return;
  fill('verdict', notes.verdictView(forecast, liveStart()));
  if (!forecast.chart || choice.startS === null) return;
  const text = forecast.clock.hms(msAt(forecast.chart, choice.startS));
  start.value = String(choice.startS);
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
  for (const slider of [minute, start]) slider.addEventListener('change', settle);
  minute.addEventListener('change', () => print.draw());
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
  for (const panel of /** @type {const} */ (['light', 'set'])) onDrag(part(`${panel}-panel`), (from, target) => {
    if (target.classList.contains('grip')) return dragStair(panel, from.y);
    return panel === 'light' ? slideMinute(from.y) : null;
  });
  onSpan(plate, span => change({ 'span.fromDeg': span.fromDeg, 'span.toDeg': span.toDeg }));
  part('ridge-panel').addEventListener('pointermove', event => {
    const { x, y } = within(event, part('ridge-panel'));
    if (forecast) part('readout').textContent = readAt(forecast, choice, plate.placeOf(x, y, forecast));
  });
  part('ridge-panel').addEventListener('pointerleave', () => { part('readout').textContent = ''; });
  new ResizeObserver(() => { drawAll(); print.draw(); }).observe(part('plate'));
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawAll);
  addEventListener('hashchange', async () => {
    const state = await stateOf(location.hash.slice(1));
    if (state) workOut(JSON.stringify(state.plan), state);
  });
}

/** @param {number} y where the light chart was pressed [px] */
function slideMinute(y) {
  const to = (/** @type {number} */ at) => chooseMinute(Math.round((plate.down.light?.toS(at) ?? 0) / 60));
  to(y);
  return (/** @type {{ y: number }} */ at, /** @type {boolean} */ isDone) => {
    to(at.y);
    if (isDone) settle();
  };
}

/** @param {'light' | 'set'} panel @param {number} y where the stair was taken hold of [px] */
function dragStair(panel, y) {
  const down = plate.down[panel];
  const from = choice.startS;
  if (!down || from === null) return null;
  return (/** @type {{ y: number }} */ at, /** @type {boolean} */ isDone) => {
    if (!forecast) return;
    choice.startS = Math.max(Number(start.min), Math.min(Number(start.max), Math.round(from + down.toS(at.y) - down.toS(y))));
    if (isDone) return chooseStart(choice.startS), settle();
    plate.moveStair(forecast, choice.startS);
    sayStair();
  };
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
  chooseStart((Date.parse(forecast.answer.fit[which]) - forecast.chart.startMs) / 1000);
  settle();
}

async function begin() {
  listen();
  plate.summits = JSON.parse(localStorage.getItem('summits') ?? '[]');
  navigator.serviceWorker?.register('sw.js').catch(console.warn);
  keepsakes.show();
  try {
    const linked = await stateOf(location.hash.slice(1));
    if (linked) {
      form.show(linked.plan);
      return await workOut(JSON.stringify(linked.plan), linked);
    }
    const demo = await service.demoPlan();
    if (demo) {
      form.show(demo);
      return await workOut(JSON.stringify(demo));
    }
    form.show(emptyPlan((await service.grids()).map(grid => grid.id)));
    form.details.open = true;
    part('progress').textContent = 'Drop an elevation grid, click where you would stand, and where you would look. Or write a plan.';
    await showGround();
  } catch (error) {
    const [last] = error instanceof service.Unreachable ? await kept.all() : [];
    if (last) workOut(last.planJson, last);
    else showProblem(error);
  }
}

begin();
