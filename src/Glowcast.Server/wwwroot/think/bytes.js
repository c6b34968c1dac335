// @ts-check
/** Arrays as answers send them. */

/** @param {string} base64 */
export function bytesOf(base64) {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** @param {string} base64 32-bit numbers, little-endian */
export const floatsOf = base64 => new Float32Array(bytesOf(base64).buffer);

/** @param {string} base64 unsigned 16-bit numbers, little-endian */
export const shortsOf = base64 => new Uint16Array(bytesOf(base64).buffer);

const NearestM = 10;
const UnitsPerEfold = 6000;

/** Distances of the ridge picture [m]; 0 is sky. @param {string} base64 16-bit, logarithmic */
export const distancesOf = base64 => Float32Array.from(shortsOf(base64), units => (units === 0 ? 0 : NearestM * Math.exp(units / UnitsPerEfold)));
