// @ts-check
/** Local time of the lookout. */

/** @typedef {{ hm: (ms: number) => string, hms: (ms: number) => string, name: string }} Clock */

const MsPerDegree = 240_000;

/** @param {string | null} timeZone of the tz database; without one the clock keeps local mean solar time
 * @param {number} longitudeDeg
 * @returns {Clock} instants are in ms since 1970, UTC; seconds and minutes are rounded as the service rounds them */
export function localClock(timeZone, longitudeDeg) {
  const shiftMs = timeZone ? 0 : longitudeDeg * MsPerDegree;
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: timeZone ?? 'UTC', hour: '2-digit', minute: '2-digit', second: '2-digit', hourCycle: 'h23',
  });
  const hms = (/** @type {number} */ ms) => format.format(ms + shiftMs);
  return {
    hms: ms => hms(ms + 500),
    hm: ms => hms(60_000 * Math.round(Math.floor((ms + 500) / 1000) / 60)).slice(0, 5),
    name: timeZone ? `local time, ${timeZone}` : 'local mean solar time',
  };
}

/** "Saturday, 24 October 2026". @param {string} isoDate */
export function longDate(isoDate) {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });
  return format.format(Date.parse(`${isoDate}T00:00:00Z`));
}

/** "Sat 24 Oct 2026". @param {string} isoDate */
export const shortDate = isoDate => new Date(`${isoDate}T00:00:00Z`).toUTCString().replace(',', '').slice(0, 15);
