// @ts-check
/** Places on the ground, near enough for a map: a sphere. */
import { bearing } from './scales.js';

/** @typedef {{ latitudeDeg: number, longitudeDeg: number }} Place */

const EarthM = 6_371_000;
const Degree = Math.PI / 180;

/** @param {Place} from @param {number} bearingDeg @param {number} metres @returns {Place} */
export function placeAt({ latitudeDeg, longitudeDeg }, bearingDeg, metres) {
  const [lat, azimuth, arc] = [latitudeDeg * Degree, bearingDeg * Degree, metres / EarthM];
  const sine = Math.sin(lat) * Math.cos(arc) + Math.cos(lat) * Math.sin(arc) * Math.cos(azimuth);
  const east = Math.atan2(Math.sin(azimuth) * Math.sin(arc) * Math.cos(lat), Math.cos(arc) - Math.sin(lat) * sine);
  return { latitudeDeg: Math.asin(sine) / Degree, longitudeDeg: longitudeDeg + east / Degree };
}

/** @param {Place} from @param {Place} to @returns {{ bearingDeg: number, metres: number }} */
export function between(from, to) {
  const [a, b, east] = [from.latitudeDeg * Degree, to.latitudeDeg * Degree, (to.longitudeDeg - from.longitudeDeg) * Degree];
  const [x, y] = [Math.sin(east) * Math.cos(b), Math.cos(a) * Math.sin(b) - Math.sin(a) * Math.cos(b) * Math.cos(east)];
  return { bearingDeg: bearing(Math.atan2(x, y) / Degree), metres: EarthM * Math.atan2(Math.hypot(x, y), Math.sin(a) * Math.sin(b) + Math.cos(a) * Math.cos(b) * Math.cos(east)) };
}
