// @ts-check
/** Plans kept in this browser, each with its last forecast, so that they open again where no service answers. */

/** @typedef {{ name: string, planJson: string, startS: number | null, savedAt: number, answer: any }} Kept the one without a name is the last that was shown */

const Store = 'plans';

/** @param {IDBTransactionMode} mode @param {(plans: IDBObjectStore) => IDBRequest} ask @returns {Promise<any>} */
function within(mode, ask) {
  return new Promise((done, fail) => {
    const opening = indexedDB.open('glowcast', 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(Store, { keyPath: 'name' });
    opening.onerror = () => fail(opening.error);
    opening.onsuccess = () => {
      const change = opening.result.transaction(Store, mode);
      const asked = ask(change.objectStore(Store));
      change.oncomplete = () => { opening.result.close(); done(asked.result); };
      change.onabort = () => { opening.result.close(); fail(change.error); };
    };
  });
}

/** @param {Kept} plan in place of one of the same name */
export const keep = plan => within('readwrite', plans => plans.put(plan));

/** @param {string} name */
export const forget = name => within('readwrite', plans => plans.delete(name));

/** @returns {Promise<Kept[]>} */
export const all = () => within('readonly', plans => plans.getAll());

/** @param {string} planJson @returns {Promise<Kept | undefined>} with the forecast of just that plan */
export const withPlan = async planJson => (await all()).find(kept => kept.planJson === planJson);
