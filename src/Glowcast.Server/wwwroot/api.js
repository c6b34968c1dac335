// @ts-check
/** What the page asks the service. A refusal is a `Refusal` with every fault by field. */

export class Refusal extends Error {
  /** @param {string} title @param {Record<string, string[]>} faults */
  constructor(title, faults) {
    super(title);
    this.faults = faults;
  }
}

const Silent = 'The service does not answer. Is it still running?';

/** Nobody answered. */
export class Unreachable extends Refusal {}

/** The plan that the service opens with; null where it has none. */
export async function demoPlan() {
  const response = await ask('/api/demo');
  return response.status === 404 ? null : answered(response);
}

/** What a plan is taken along as. @param {any} plan @param {string} kind such as html or gpx */
export async function card(plan, kind) {
  const response = await ask(`/api/cards?as=${kind}`, posted(plan));
  return response.ok ? response.blob() : answered(response);
}

/** @param {any} body */
export const posted = body => ({ method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });

/** @returns {Promise<{ id: string, grid: any }[]>} */
export const grids = async () => answered(await ask('/api/grids'));

/** @param {File} file @param {(share: number) => void} onProgress @returns {Promise<{ id: string }>} */
export const sendGrid = (file, onProgress) => new Promise((done, fail) => {
  // Only this old way of asking tells how much has been sent.
  const request = new XMLHttpRequest();
  request.open('POST', `/api/grids?name=${encodeURIComponent(file.name)}`);
  request.setRequestHeader('Content-Type', 'application/octet-stream');
  request.upload.onprogress = event => onProgress(event.loaded / event.total);
  request.onerror = () => fail(new Unreachable(Silent, {}));
  request.onload = () => answered(new Response(request.responseText, { status: request.status })).then(done, fail);
  request.send(file);
});

/** @param {string} planJson @param {AbortSignal} signal */
export const forecast = async (planJson, signal) => answered(await ask('/api/forecasts?pictures=true', { ...posted(null), body: planJson, signal }));

/** Judges a sounding; refused where it cannot be read. @param {string} text @returns {Promise<{ likelihood: string }>} */
export const sounding = async text => answered(await ask('/api/soundings', { method: 'POST', headers: { 'Content-Type': 'text/plain' }, body: text }));

/** What the service keeps of a kind. @param {string} kind plans, lookouts or gear
 * @returns {Promise<({ name: string, changed: string } & Record<string, any>)[]>} the thing itself under the kind's field */
export const kept = async kind => answered(await ask(`/api/${kind}`));

/** @param {string} kind @param {string} name @param {Record<string, any>} thing under the kind's field */
export const keep = async (kind, name, thing) => answered(await ask(`/api/${kind}/${idOf(name)}`, { ...posted({ name, ...thing }), method: 'PUT' }));

/** @param {string} kind @param {string} name */
export const forget = (kind, name) => ask(`/api/${kind}/${idOf(name)}`, { method: 'DELETE' });

/** @param {string} name */
const idOf = name => name.toLowerCase().normalize('NFKD').replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '').slice(0, 60) || 'plan';

/** Looks through days as long work: waits for it, and stops it when told to.
 * @param {{ plan: any, from: string, to: string }} asked @param {(share: number) => void} onProgress @param {AbortSignal} stop @returns {Promise<any>} */
export async function season(asked, onProgress, stop) {
  const { id } = await answered(await ask('/api/seasons', posted(asked)));
  const cancel = () => ask(`/api/jobs/${id}`, { method: 'DELETE' });
  if (stop.aborted) cancel();
  else stop.addEventListener('abort', cancel);
  const ended = await followed(`/api/jobs/${id}/events`, onProgress);
  if (ended.state !== 'done') throw new Refusal(ended.problem?.detail ?? `The work was ${ended.state}.`, ended.problem?.errors ?? {});
  return answered(await ask(ended.result));
}

/** @param {string} events of a job @param {(share: number) => void} onProgress @returns {Promise<any>} the job when it has ended */
function followed(events, onProgress) {
  return new Promise((done, fail) => {
    const source = new EventSource(events);
    const on = (/** @type {string} */ state, /** @type {(job: any) => void} */ does) => source.addEventListener(state, event => does(JSON.parse(/** @type {MessageEvent} */ (event).data)));
    for (const state of ['queued', 'running']) on(state, job => onProgress(job.share));
    for (const state of ['done', 'failed', 'cancelled']) on(state, job => { source.close(); done(job); });
    source.onerror = () => { source.close(); fail(new Unreachable(Silent, {})); };
  });
}

/** @param {string} address @param {RequestInit} [request] */
export async function ask(address, request) {
  try {
    return await fetch(address, request);
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Unreachable(Silent, {});
  }
}

/** @param {Response} response */
export async function answered(response) {
  if (response.ok) return response.json();
  const problem = await response.json().catch(() => ({}));
  throw new Refusal(problem.detail ?? problem.title ?? `The service answered with status ${response.status}.`, problem.errors ?? {});
}
