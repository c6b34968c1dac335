// @ts-check
/** Stretches of time in seconds after the start of the chart: start included, end excluded; lists of them are ordered and apart. */

/** @typedef {{ startS: number, endS: number }} Stretch */

/** @param {number[]} ends starts and ends in turn @returns {Stretch[]} */
export function stretchesOf(ends) {
  const found = [];
  for (let i = 0; i + 1 < ends.length; i += 2) found.push({ startS: ends[i], endS: ends[i + 1] });
  return found;
}

/** @param {Stretch[]} stretches @param {number} seconds */
export function covers(stretches, seconds) {
  return stretches.some(stretch => stretch.startS <= seconds && seconds < stretch.endS);
}

/** What two lists have in common. @param {Stretch[]} a @param {Stretch[]} b */
export function common(a, b) {
  const found = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    const stretch = { startS: Math.max(a[i].startS, b[j].startS), endS: Math.min(a[i].endS, b[j].endS) };
    if (stretch.endS > stretch.startS) found.push(stretch);
    if (a[i].endS < b[j].endS) i++;
    else j++;
  }
  return found;
}

/** When at least a share of some members are in one of their stretches.
 * @param {Stretch[][]} members @param {number} least share, 0 to 1 @param {number} lengthS of the whole time */
export function whenAtLeast(members, least, lengthS) {
  const changes = members.flatMap(stretches => stretches.flatMap(s => [{ s: s.startS, by: 1 }, { s: s.endS, by: -1 }]));
  changes.push({ s: 0, by: 0 }, { s: lengthS, by: 0 });
  changes.sort((a, b) => a.s - b.s);
  /** @type {Stretch[]} */
  const found = [];
  let count = 0;
  for (let i = 0; i + 1 < changes.length; i++) {
    count += changes[i].by;
    const [startS, endS] = [changes[i].s, changes[i + 1].s];
    if (endS <= startS || count < least * members.length - 1e-9) continue;
    const last = found[found.length - 1];
    if (last?.endS === startS) last.endS = endS;
    else found.push({ startS, endS });
  }
  return found;
}
