// @ts-check
/** Ties the page of takes together: reads files, has them sorted, shows the sheet, hands out lists. */
import { answered, ask, posted } from '../api.js';
import { button, html } from '../draw/elements.js';
import * as kept from '../kept.js';
import { localClock } from '../think/clock.js';
import { Take } from '../think/take.js';
import { chosenFiles, droppedFiles, framesOf } from '../think/take-files.js';
import { Fields } from './fields.js';
import { TakeSheet } from './take-sheet.js';

const HeadBytes = 512 << 10;
const FilesAtOnce = 32;

/** @template {HTMLElement} T @param {string} id @returns {T} */
const part = id => /** @type {T} */ (document.getElementById(id));
const [plan, compare, keep] = [/** @type {HTMLSelectElement} */ (part('plan')), ...['compare', 'keep'].map(id => /** @type {HTMLInputElement} */ (part(id)))];
const [sort, stop] = ['sort', 'stop'].map(id => /** @type {HTMLButtonElement} */ (part(id)));
const sheet = new TakeSheet(part('frames'), part('said'), () => { sort.textContent = 'Sort again with these borders'; drawLists(); });

/** How wrong the camera's clock was: by itself, or by a frame. */
const clock = new Fields('take', [
  { path: 'clockErrorS', label: 'Ahead by', unit: 's', hint: 'negative: behind', kind: 'number' },
  { path: 'knownFrame.name', label: 'Or a frame', hint: 'whose moment is known', kind: 'text' },
  { path: 'knownFrame.shotAt', label: 'Shot at', hint: 'with Z or an offset', kind: 'text' },
]);
part('clock').append(...clock.rows());

/** @type {kept.Kept[]} */
let plans = [];
/** @type {any[]} */
let frames = [];
/** @type {{ file: string, reason: string }[]} */
let skipped = [];
/** @type {Map<string, Blob | null>} */
let pictures = new Map();
/** @type {Take | null} */
let take = null;
let stopping = new AbortController();

/** @param {string} address @param {RequestInit} request */
const post = (address, request) => ask(`/api/${address}`, { ...request, method: 'POST', signal: stopping.signal });

/** Does something long that can be stopped, and says what went wrong. @param {() => Promise<void>} work */
async function busy(work) {
  stopping = new AbortController();
  [sort.disabled, stop.hidden, part('problem').hidden] = [true, false, true];
  clock.showFaults({});
  try {
    await work();
    part('progress').textContent = '';
  } catch (error) {
    const { name, message, faults } = /** @type {any} */ (error);
    part('progress').textContent = name === 'AbortError' ? 'Stopped.' : '';
    if (name === 'AbortError') return;
    part('problem').replaceChildren(html('h2', {}, message), ...clock.showFaults(faults ?? {}).map(([field, texts]) => html('p', {}, `${field}: ${texts.join(' ')}`)));
    part('problem').hidden = false;
  } finally {
    [sort.disabled, stop.hidden] = [frames.length === 0, true];
  }
}

/** @param {{ path: string, file: File }[]} files */
const read = files => busy(async () => {
  const pictured = framesOf(files);
  [frames, skipped, take, pictures] = [[], [], null, new Map(pictured.map(({ name, picture }) => [name, picture]))];
  if (pictured.length === 0) throw new Error('There are no pictures in it: JPEG, TIFF, DNG or the raw files of cameras.');
  for (let at = 0; at < pictured.length; at += FilesAtOnce) {
    part('progress').textContent = `Reading ${at} of ${pictured.length} files …`;
    const form = new FormData();
    for (const { name, file } of pictured.slice(at, at + FilesAtOnce)) form.append('files', file.slice(0, HeadBytes), name);
    const found = await answered(await post('takes/frames', { body: form }));
    frames.push(...found.frames);
    skipped.push(...found.skipped);
  }
  await sortFrames();
});

async function sortFrames() {
  part('progress').textContent = 'Sorting …';
  const json = plans[Number(plan.value)]?.planJson;
  const chosen = json && JSON.parse(json);
  const against = compare.checked || keep.checked ? await forecastOf(chosen) : null;
  const answer = await answered(await post('takes', posted(clock.into({ frames, plan: chosen, borders: take?.borders, forecast: against?.address, keep: keep.checked }))));
  take = new Take(answer);
  const byName = new Map(frames.map(frame => [frame.name, frame]));
  sheet.show(take, name => ({ frame: byName.get(name), picture: pictures.get(name) ?? null }));
  sort.textContent = 'Sort again';
  drawFound(answer, against?.local);
  drawLists();
  for (const id of ['sorted', 'sheet', 'lists']) part(id).hidden = false;
}

/** Its address, and the clock of its lookout. @param {any} plan */
async function forecastOf(plan) {
  const forecast = await post('forecasts', posted(plan));
  const { timeZone, lookout } = await answered(forecast);
  return { address: forecast.headers.get('Content-Location')?.split('/').at(-1), local: localClock(timeZone, lookout.longitudeDeg) };
}

/** @param {any} answer @param {import('../think/clock.js').Clock} [local] of the lookout it is compared at */
function drawFound({ sets, cautions, withoutTime, repeats, ownTimes, compared, note }, local) {
  const count = (/** @type {string} */ wholeness) => sets.filter((/** @type {any} */ set) => set.wholeness === wholeness).length;
  const times = ['rotateS', 'rowChangeS', 'markerS', 'repeatGapS'].filter(name => (ownTimes ?? {})[name] != null);
  const said = [
    ...cautions, ...skipped.map(({ file, reason }) => `${file}: ${reason}`),
    withoutTime.length > 0 && `${withoutTime.length} frames do not say when they were shot: ${withoutTime.slice(0, 5).join(', ')}.`,
    ...repeats.map((/** @type {any} */ choice) => `Of sets ${choice.sets.join(', ')}, set ${choice.better} is the better. ${choice.reason}`),
    ...(compared?.sets ?? []).map((/** @type {any} */ at) => `Set ${at.set} ${at.isWithin ? 'lies within a window of light' : at.inWindow ? 'begins in a window of light and ends after it' : 'begins outside every window of light'}.`),
    ...(compared?.lightSeen ?? []).map((/** @type {any} */ seen) => `${seen.change === 'firstLight' ? 'First' : 'Last'} light seen at ${local?.hms(Date.parse(seen.at))} ${local?.name}${seen.lateS === null ? '' : `, ${Math.abs(seen.lateS).toFixed(0)} s ${seen.lateS < 0 ? 'before' : 'after'} the forecast`}.`),
    times.length > 0 && `Your own times, for the set of the next plan: ${times.map(name => `${name} ${ownTimes[name].toFixed(1)}`).join(', ')}.`,
    note && 'Kept as a field note; later forecasts show what all notes say.',
  ];
  part('sorted').replaceChildren(
    html('h2', { class: 'verdict' }, `${sets.length} ${sets.length === 1 ? 'set' : 'sets'}: ${count('whole')} whole, ${count('notWhole')} not whole, ${count('uncertain')} uncertain`),
    html('ul', {}, ...said.map(text => text && html('li', {}, text))));
}

function drawLists() {
  const sorted = /** @type {Take} */ (take);
  const list = (/** @type {string} */ label, /** @type {string} */ name, /** @type {() => string} */ text, type = 'text/plain') => button(label, () => {
    const address = URL.createObjectURL(new Blob([text()], { type }));
    html('a', { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 1000);
  });
  part('lists').replaceChildren(html('h2', {}, 'Lists of files per set'), html('div', { class: 'buttons' },
    list('Text', 'take.txt', () => sorted.text), list('CSV', 'take.csv', () => sorted.csv, 'text/csv'), list('JSON', 'take.json', () => JSON.stringify(sorted.answer), 'application/json')));
}

async function offerPlans() {
  plans = (await kept.all().catch(() => [])).sort((a, b) => b.savedAt - a.savedAt);
  plan.replaceChildren(...plans.map(({ name }, i) => html('option', { value: String(i) }, name || 'the last one shown')), html('option', { value: 'none' }, 'none: the rhythm is found from the take'));
  offerForecast();
}

/** Only a plan has one. */
function offerForecast() {
  const isNone = plan.value === 'none';
  for (const box of [compare, keep]) [box.disabled, box.checked] = [isNone, box.checked && !isNone];
  part('why').textContent = isNone ? `Both need the forecast of a plan: ${plans.length > 0 ? 'choose one above' : 'work one out on the page of the light on the ridge, and it is offered above'}.` : '';
}

part('folder').addEventListener('change', event => read(chosenFiles(/** @type {FileList} */ (/** @type {HTMLInputElement} */ (event.target).files))));
part('drop').addEventListener('dragover', event => event.preventDefault());
part('drop').addEventListener('drop', async event => {
  event.preventDefault();
  const dropped = /** @type {DragEvent} */ (event).dataTransfer;
  if (dropped) await read(await droppedFiles(dropped));
});
part('ask').addEventListener('submit', event => {
  event.preventDefault();
  busy(sortFrames);
});
stop.addEventListener('click', () => stopping.abort());
plan.addEventListener('change', offerForecast);
offerPlans();
