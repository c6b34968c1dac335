// @ts-check
/** Small prints of frames: at once how bright their parts are, and the picture itself when it comes into sight. */
const [Columns, Rows, High, Wide] = [16, 12, 84, 112];

/** @param {any} frame as the service read it @param {Blob | null} picture */
export function print(frame, picture) {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [frame.lie >= 5 ? Math.round(High * High / Wide) : Wide, High];
  const context = /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d'));
  if (frame.glance) context.drawImage(glance(frame.glance), 0, 0, canvas.width, canvas.height);
  if (picture) shown.set(canvas, picture);
  if (picture) sight.observe(canvas);
  return canvas;
}

/** @param {number[]} stops below full white, row by row */
function glance(stops) {
  const small = new OffscreenCanvas(Columns, Rows);
  const context = /** @type {OffscreenCanvasRenderingContext2D} */ (small.getContext('2d'));
  const pixels = context.createImageData(Columns, Rows);
  stops.forEach((stop, i) => pixels.data.set([...Array(3).fill(255 * 2 ** (stop / 2.2)), 255], 4 * i));
  context.putImageData(pixels, 0, 0);
  return small;
}

/** @type {WeakMap<Element, Blob>} */
const shown = new WeakMap();
const sight = new IntersectionObserver(seen => seen.filter(each => each.isIntersecting).forEach(async ({ target }) => {
  sight.unobserve(target);
  const canvas = /** @type {HTMLCanvasElement} */ (target);
  const picture = await createImageBitmap(/** @type {Blob} */ (shown.get(canvas)), { resizeHeight: 2 * High }).catch(() => null);
  if (!picture) return;
  [canvas.width, canvas.height] = [picture.width, picture.height];
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d')).drawImage(picture, 0, 0);
  picture.close();
}));
