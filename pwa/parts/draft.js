/** What was typed before it belongs to a job: at hand at once, and written down so that it outlives the page. */

/** @param settings the phone's settings, `name` the draft's, `start` what it holds before anything is typed */
export function createDraft(settings, name, start = {}) {
  let values = settings.get(name) ?? start;
  return {
    get values() {
      return values;
    },
    /** Takes one field; resolves when it is written down. */
    put(field, value) {
      values = { ...values, [field]: value };
      return settings.set(name, values);
    },
    clear() {
      values = start;
      return settings.set(name, null);
    },
  };
}
