// @ts-check
/** What a forecast says in words. */
import { button, html } from '../draw/elements.js';
import * as say from '../think/say.js';

/** @typedef {import('../think/forecast.js').Forecast} Forecast */

/** @typedef {{ ms: number, row: import('../think/starts.js').Row, room: { beforeS: number, afterS: number } | null }} Live
 * another start than the answer's, as its table has it */

/** @param {Forecast} forecast @param {Live | null} live null at the start that the answer is about */
export function verdictView({ answer, clock }, live) {
  const { fit } = answer;
  const at = (/** @type {string} */ moment) => clock.hms(Date.parse(moment));
  const [word, sentence] = live ? liveVerdict(live, fit, clock.hms(live.ms)) : say.verdict(fit, answer.whyNone);
  return [
    html('h2', { class: `verdict ${live ? (live.row.firstProblem ? 'tooLong' : 'tight') : fit?.verdict ?? 'noLight'}` }, word),
    fit?.earliestStart && html('p', { class: 'starts' }, 'Begin between ', html('b', {}, at(fit.earliestStart)), ' and ', html('b', {}, at(fit.latestStart)), '.'),
    html('p', {}, say.sentence(sentence)),
    fit?.recommendedStart && html('p', {}, 'Best begun at ', html('b', {}, at(fit.recommendedStart)), fit.chosenBecause === 'given' ? '' : ` (${fit.chosenSentence})`,
      ...(fit.onSiteBy ? ['; be on site by ', html('b', {}, clock.hm(Date.parse(fit.onSiteBy)))] : []), '.'),
    (fit?.reasons ?? []).length > 0 && html('ul', { class: 'reasons' }, ...fit.reasons.map((/** @type {any} */ reason) => html('li', {}, say.sentence(reason.sentence)))),
    ...(fit?.exposureDrift?.advice ?? []).map((/** @type {string} */ advice) => html('p', {}, advice)),
    answer.nearestMiss && html('p', {}, nearestMiss(answer.nearestMiss, clock.hms(Date.parse(answer.nearestMiss.at)))),
  ];
}

/** @param {Live} live @param {any} fit @param {string} start @returns {[string, string]} */
function liveVerdict({ row, room }, fit, start) {
  const chance = `Begun at ${start}, ${row.inLight} of ${fit.exposures} exposures have their light, ${say.chance(row.chance)}`;
  if (row.firstProblem) return ['Not from this start', `${chance}; first to fail, at ${row.firstProblem.bearingDeg.toFixed(1)}°: ${say.Problems[row.firstProblem.problem]}.`];
  const rooms = room ? `: room before ${say.room(room.beforeS, fit.roomBeforeUncertaintyS)}, room after ${say.room(room.afterS, fit.roomAfterUncertaintyS)}` : '';
  return ['From this start', `${chance}${rooms}.`];
}

/** @param {any} miss @param {string} at */
function nearestMiss(miss, at) {
  const valley = miss.valleyShare === null ? '' : `, and ${say.percent(miss.valleyShare)} of the valley`;
  return `Nearest to a window at ${at}: ${say.percent(miss.litShare)} of the ridge is lit then${valley}.`;
}

/** @param {Forecast} forecast */
export function windowsView({ answer, clock }) {
  if (answer.windows.length === 0) return [];
  const windows = answer.windows.map((/** @type {any} */ window, /** @type {number} */ i) => html('section', {},
    html('h3', {}, answer.windows.length > 1 ? `Window ${i + 1}` : 'The window'),
    facts([
      ['starts', `${clock.hms(Date.parse(window.start))} ${say.plusMinus(window.startUncertaintyS)}, ${window.startBecause}`],
      ['ends', `${clock.hms(Date.parse(window.end))} ${say.plusMinus(window.endUncertaintyS)}, ${window.endBecause}`],
      ['lasts', say.time(window.lengthS)],
      ['lit half-way', `${say.percent(window.litShare)} of the ridge, ${window.valleyShare === null ? 'no valley seen' : `${say.percent(window.valleyShare)} of the valley`}`],
      ['light', `${say.Directions[window.lightDirection]}; ${window.source} at ${window.sunAzimuthDeg.toFixed(0)}°, ${say.degrees(window.sunAltitudeDeg)} high`],
      window.unlitSentence ? ['unlit', window.unlitSentence] : null,
      ...pictureFacts(window),
      window.atStart.unknownBeyondM !== null || window.atEnd.unknownBeyondM !== null
        ? ['not known', `whether ground past the grid's edge, ${beyond(window)} away towards the sun, stands in the way`] : null,
    ])));
  return [...windows, ...seenView(answer.notes)];
}

/** What the day offers, a line each. @param {Forecast} forecast @param {(edits: Record<string, unknown>) => void} onTake plans for that kind of picture */
export function picturesView({ answer, clock }, onTake) {
  if (answer.pictures.length === 0) return [];
  const planned = new Set(answer.windows.map((/** @type {any} */ window) => `${window.kind} ${window.start}`));
  return [
    html('h3', {}, 'Pictures of the day'),
    html('ul', { class: 'pictures' }, ...answer.pictures.map((/** @type {any} */ { kind, name, window, fit }) => html('li', {},
      html('b', {}, `${clock.hm(Date.parse(window.start))} to ${clock.hm(Date.parse(window.end))}`), ` ${name}`,
      html('span', { class: 'quiet' }, `${window.exposure ? `, ${window.exposure.shutter}` : ''}${fit ? `. ${fit.sentence}` : ''} `),
      planned.has(`${kind} ${window.start}`) ? html('span', { class: 'quiet' }, '(planned)') : button('Plan this one', () => onTake({ picture: kind, 'set.startAt': null }))))),
  ];
}

/** What was seen in the field less what had been forecast. @param {any} notes of this lookout and of all, null without any */
function seenView(notes) {
  const seen = [seenFact('first light', 'firstLightS', notes), seenFact('last light', 'lastLightS', notes)].filter(fact => fact !== null);
  if (seen.length === 0) return [];
  return [html('section', {}, html('h3', {}, 'By field notes'), facts(seen), html('p', { class: 'quiet' }, 'No time on this page is moved by them.'))];
}

/** @param {string} name @param {string} field of the notes @param {any} notes of this lookout and of all, null without any @returns {[string, string] | null} */
function seenFact(name, field, notes) {
  const [here, all] = [notes?.lookout?.[field], notes?.everywhere[field]];
  if (!all) return null;
  const everywhere = `at all lookouts ${say.deviation(all)}`;
  if (!here) return [name, everywhere];
  return [name, `here ${say.deviation(here)}${here.count === all.count ? '' : `; ${everywhere}`}`];
}

/** @param {any} window @returns {([string, string] | null)[]} */
function pictureFacts({ picture, blackPoint, exposure, ridgeInAir }) {
  const { relief } = picture ?? {};
  return [
    ridgeInAir?.sentence ? ['not seen', ridgeInAir.sentence] : null,
    blackPoint ? ['contrast', `${say.BlackPoints[blackPoint.verdict]}: ${blackPoint.stops.toFixed(1)} stops from the darkest tenth of the ground in the picture, ${say.distance(1000 * blackPoint.darkestKm)} away, to the brightest, ${say.distance(1000 * blackPoint.brightestKm)} away`] : null,
    exposure ? ['exposure', exposure.sentence] : null,
    relief ? ['relief', `${say.Reliefs[relief.reading]}: ${say.percent(relief.shadow)} of the visible ridge in shadow of its own or of other ground`] : null,
  ];
}

/** @param {any} window */
function beyond(window) {
  const edges = [window.atStart.unknownBeyondM, window.atEnd.unknownBeyondM].filter(edge => edge !== null);
  return say.distance(Math.min(...edges));
}

/** @param {Forecast} forecast */
export function setView({ set }) {
  if (!set) return [];
  return [
    html('h3', {}, 'The set'),
    facts([
      ['frames', `${set.columnsWithSpares} columns × ${set.rows} ${set.rows === 1 ? 'row' : 'rows'} = ${set.framesPerSet}, of them ${set.framesPerSet - set.frames} spare`],
      ['step', `${set.stepDeg.toFixed(1)}° sideways${set.rows > 1 ? `, ${set.rowStepDeg.toFixed(1)}° between rows` : ''}`],
      ['field of a frame', `${set.horizontalFovDeg.toFixed(1)}° × ${set.verticalFovDeg.toFixed(1)}°`],
      ['clean picture', `${say.pixels(set.cleanWidthPx)} × ${say.pixels(set.cleanHeightPx)} px`],
      ['print', `${say.centimetres(set.printWidthMm)} × ${say.centimetres(set.printHeightMm)} at ${set.printPpi} ppi`],
      ['time', `${say.time(set.setS)} a set${set.setCount > 1 ? `, ${say.time(set.totalS)} for ${set.setCount} sets` : ''}`],
      ['neighbours apart', `${set.maxSideGapS.toFixed(0)} s sideways${set.rows > 1 ? `, ${set.maxVerticalGapS.toFixed(0)} s up and down` : ''}`],
      ['sharp from', `${say.distance(set.nearLimitM)} at infinity; off the no-parallax point harmless from ${say.distance(set.parallaxFreeM)}`],
    ]),
  ];
}

/** @param {Forecast} forecast */
export function spoilsView({ set }) {
  const matters = (set?.spoils ?? []).filter((/** @type {any} */ spoil) => spoil.matters);
  if (matters.length === 0) return [];
  return [html('h3', {}, 'What can spoil it'), html('ul', {}, ...matters.map((/** @type {any} */ spoil) => html('li', {}, say.sentence(spoil.sentence))))];
}

/** @param {Forecast} forecast */
export function orderView({ set }) {
  if (!set) return [];
  const direction = set.order.direction === 'leftToRight' ? 'left to right' : 'right to left';
  const rows = set.rows === 1 ? '' : `, row ${set.order.firstRow} first, ${set.order.rows === 'oneWay' ? 'every row the same way' : 'rows back and forth'}`;
  return [
    html('h3', {}, 'Order of shooting'), html('p', {}, `From ${direction}${rows}. Row 1 is the topmost.`),
    set.order.reasons.length > 0 && html('ul', {}, ...set.order.reasons.map((/** @type {string} */ reason) => html('li', {}, say.sentence(reason)))),
  ];
}

/** @param {Forecast} forecast @param {(edits: Record<string, unknown>) => void} onTry */
export function remediesView({ answer, clock }, onTry) {
  const { fit } = answer;
  if (!fit || fit.verdict === 'fits' || (fit.remedies.length === 0 && fit.verdict !== 'tooLong')) return [];
  if (fit.remedies.length === 0) return [html('h3', {}, 'What would make it fit'), html('p', {}, say.sentence(fit.whyNothingFits ?? 'Nothing that was tried.'))];
  return [
    html('h3', {}, 'What would make it fit'), html('p', {}, 'The cheapest for the print first; each is worked out in full. Undo takes one back.'),
    html('ol', { class: 'remedies' }, ...fit.remedies.map((/** @type {any} */ remedy) => html('li', {},
      html('b', {}, remedy.change), ` ${say.sentence(remedy.cost)} `,
      html('span', { class: 'quiet' },
        `${clock.hms(Date.parse(remedy.earliestStart))} to ${clock.hms(Date.parse(remedy.latestStart))}, ${say.chance(remedy.chance)}, ${say.time(remedy.marginS)} of starts; print ${say.centimetres(remedy.printWidthMm)} × ${say.centimetres(remedy.printHeightMm)}.`), ' ',
      button(remedy.parts > 1 ? 'Try the first half' : 'Try it', () => onTry(remedy.edits))))),
  ];
}

/** @param {Forecast} forecast */
export function assumedView({ answer, clock }) {
  const { assumed, span } = answer;
  const past = {
    nothing: 'nothing',
    gridEdge: 'a smooth earth as high as the grid’s own edge there',
  }[assumed.beyondGrid.assumed] ?? `a smooth earth at ${say.height(assumed.beyondGrid.heightM)}`;
  return [
    html('h3', {}, 'What this rests on'),
    html('ul', {},
      html('li', {}, `Times are ${clock.name}; ± is one standard deviation.`),
      html('li', {}, `Ridge is ground from ${say.distance(1000 * span.ridgeFromKm)} on. Its crest, the topmost ${assumed.crestBandDeg}°, is lit on a bearing when ${say.percent(assumed.crestLit)} of it sees at least ${say.percent(assumed.discShare)} of the sun's disc and is lifted by it by ${say.stops(assumed.litStops)} over its own shade.`),
      html('li', {}, `A window needs ${say.percent(assumed.columnsLit)} of the bearings lit that the sun lights at all in that half of the day, and no more than ${say.percent(assumed.valleyLit)} of the valley in the picture.`),
      html('li', {}, `Lines of sight bend by k = ${assumed.refractionK}; past the grid's edge stands ${past}.`)),
  ];
}

/** @param {Forecast} forecast @param {() => void} onLeaveOut takes the sounding out of the plan */
export function cloudView({ answer: { cloud } }, onLeaveOut) {
  const { sounding } = cloud;
  const given = cloud.deckTopM === null ? 'No cloud is assumed.' : `A sea of cloud up to ${say.height(cloud.deckTopM)}.`;
  return [
    html('h3', {}, 'Cloud'), html('p', {}, say.inUnits(cloud.sentence, cloud.sentenceImperial) ?? say.sentence(given)),
    sounding && html('p', {}, `Likelihood of a sea of cloud by the sounding: ${sounding.likelihood}. ${say.inUnits(sounding.lookout?.sentence, sounding.lookout?.sentenceImperial) ?? ''}`),
    sounding && html('ul', {}, ...say.inUnits(sounding.reasons, sounding.reasonsImperial).map((/** @type {string} */ reason) => html('li', {}, reason))),
    sounding && button('Leave the sounding out', onLeaveOut),
  ];
}

/** @param {Forecast} forecast */
export const cautionsView = ({ answer }) => [
  html('h3', {}, 'Mind'), html('ul', {}, ...answer.cautions.map((/** @type {string} */ caution) => html('li', {}, say.sentence(caution)))),
];

/** @param {([string, string] | null)[]} pairs */
function facts(pairs) {
  return html('dl', {}, ...pairs.flatMap(pair => (pair ? [html('dt', {}, pair[0]), html('dd', {}, pair[1])] : [])));
}
