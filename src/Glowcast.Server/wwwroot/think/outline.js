// @ts-check
const Degree = Math.PI / 180;
const PointsPerSide = 8;

/** Where the edge of a frame lies on the sky: a camera keeps straight lines straight, so level and pitched frames bulge.
 * @param {number} bearingDeg @param {number} pitchDeg of its middle @param {number} acrossDeg @param {number} upDeg its field of view
 * @returns {[number, number][]} bearing and altitude [°], once around clockwise from the upper left */
export function frameOutline(bearingDeg, pitchDeg, acrossDeg, upDeg) {
  const [u, v] = [Math.tan((acrossDeg / 2) * Degree), Math.tan((upDeg / 2) * Degree)];
  /** @type {[number, number][]} */
  const corners = [[-u, v], [u, v], [u, -v], [-u, -v]];
  return corners.flatMap(([u0, v0], i) => {
    const [u1, v1] = corners[(i + 1) % 4];
    return Array.from({ length: PointsPerSide }, (_, n) => direction(u0 + ((u1 - u0) * n) / PointsPerSide, v0 + ((v1 - v0) * n) / PointsPerSide, bearingDeg, pitchDeg));
  });
}

/** @param {number} u tangent to the right of the axis @param {number} v tangent above it
 * @param {number} bearingDeg @param {number} pitchDeg @returns {[number, number]} */
function direction(u, v, bearingDeg, pitchDeg) {
  const [cos, sin] = [Math.cos(pitchDeg * Degree), Math.sin(pitchDeg * Degree)];
  const [right, ahead, up] = [u, cos - v * sin, sin + v * cos];
  return [(((bearingDeg + Math.atan2(right, ahead) / Degree) % 360) + 360) % 360, Math.atan2(up, Math.hypot(right, ahead)) / Degree];
}
