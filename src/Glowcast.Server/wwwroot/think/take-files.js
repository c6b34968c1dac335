// @ts-check
/** The picture files of a folder, as frames of a take. */

/** Raw files first: where a JPEG lies beside one, the raw file is the frame. */
const Endings = ['dng', 'cr3', 'cr2', 'nef', 'nrw', 'arw', 'raf', 'orf', 'rw2', 'pef', 'srw', 'tif', 'tiff', 'jpg', 'jpeg'];

/** @typedef {{ name: string, file: File, picture: File | null }} TakeFile picture: what the browser can show of it */

/** @param {string} name */
const rank = name => Endings.indexOf(name.slice(name.lastIndexOf('.') + 1).toLowerCase());

/** @param {{ path: string, file: File }[]} files @returns {TakeFile[]} */
export function framesOf(files) {
  /** @type {Map<string, TakeFile>} */
  const frames = new Map();
  for (const { path, file } of files.filter(each => rank(each.path) >= 0).sort((a, b) => rank(a.path) - rank(b.path))) {
    const stem = path.slice(0, path.lastIndexOf('.'));
    const picture = file.type === 'image/jpeg' ? file : null;
    const known = frames.get(stem);
    if (known) known.picture ??= picture;
    else frames.set(stem, { name: path, file, picture });
  }
  return [...frames.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Of an input for folders. @param {Iterable<File>} chosen */
export const chosenFiles = chosen => [...chosen].map(file => ({ path: file.webkitRelativePath.split('/').slice(1).join('/') || file.name, file }));

/** Of what was dropped: files, and folders with all below them. @param {DataTransfer} dropped @returns {Promise<{ path: string, file: File }[]>} */
export async function droppedFiles(dropped) {
  const entries = [...dropped.items].map(item => item.webkitGetAsEntry()).filter(entry => entry !== null);
  return (await Promise.all(entries.map(entry => below(entry, entry.isDirectory ? null : '')))).flat();
}

/** @param {any} entry @param {string | null} within null for the folder that was dropped itself @returns {Promise<{ path: string, file: File }[]>} */
async function below(entry, within) {
  const path = within === null ? '' : within + entry.name;
  if (entry.isFile) return [{ path, file: await new Promise((done, fail) => entry.file(done, fail)) }];
  const reader = entry.createReader();
  const found = [];
  // It answers a hundred at a time.
  for (let some; (some = await new Promise((done, fail) => reader.readEntries(done, fail))).length > 0;) found.push(...some);
  return (await Promise.all(found.map(each => below(each, path && `${path}/`)))).flat();
}
