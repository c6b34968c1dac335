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
export const forecast = async (planJson, signal) => answered(await ask('/api/forecasts?pictures=true', {
  method: 'POST', headers: { 'Content-Type': 'application/json' }, body: planJson, signal,
}));

/** @param {string} address @param {RequestInit} [request] */
async function ask(address, request) {
  try {
    return await fetch(address, request);
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Unreachable(Silent, {});
  }
}

/** @param {Response} response */
async function answered(response) {
  if (response.ok) return response.json();
  const problem = await response.json().catch(() => ({}));
  throw new Refusal(problem.detail ?? problem.title ?? `The service answered with status ${response.status}.`, problem.errors ?? {});
}
