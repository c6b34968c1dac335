// @ts-check
/** The whole state of the page as the part of an address after "#", and back. */

/** @typedef {{ plan: any, startS: number | null, minute: number | null }} State
 * start of the set [s after the chart's start] and minute of the picture; null as the forecast has them */

/** @param {State} state */
export async function linkOf(state) {
  const bytes = await through(new Blob([JSON.stringify(state)]), new CompressionStream('deflate-raw'));
  return btoa(String.fromCharCode(...bytes)).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** @param {string} link @returns {Promise<State | null>} null where it holds none */
export async function stateOf(link) {
  try {
    const bytes = Uint8Array.from(atob(link.replaceAll('-', '+').replaceAll('_', '/')), letter => letter.charCodeAt(0));
    const state = JSON.parse(new TextDecoder().decode(await through(new Blob([bytes]), new DecompressionStream('deflate-raw'))));
    return state?.plan ? { startS: null, minute: null, ...state } : null;
  } catch {
    return null;
  }
}

/** @param {Blob} blob @param {GenericTransformStream} change */
async function through(blob, change) {
  return new Uint8Array(await new Response(blob.stream().pipeThrough(/** @type {any} */ (change))).arrayBuffer());
}
