// @ts-check
/** Arrays as answers send them. */

/** @param {string} base64 */
export function bytesOf(base64) {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

const NearestM = 10;
const UnitsPerEfold = 6000;

/** Distances of the ridge picture [m]; 0 is sky. @param {string} base64 16-bit little-endian, logarithmic */
export function distancesOf(base64) {
  const bytes = bytesOf(base64);
  const distances = new Float32Array(bytes.length / 2);
  for (let i = 0; i < distances.length; i++) {
    const units = bytes[2 * i] | (bytes[2 * i + 1] << 8);
    distances[i] = units === 0 ? 0 : NearestM * Math.exp(units / UnitsPerEfold);
  }
  return distances;
}
