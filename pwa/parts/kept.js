/** The promise of the app: 'kept' stands on the screen only after the phone has really stored it. */
import { words } from "../words/words.js";

/** What takes longer is told; what does not would only flicker. */
const SLOW_MS = 100;

/**
 * Watches what is being kept. `changed` is called whenever the line at the bottom has to change, `holdFor` with each
 * promise of a write: what else is to be painted may wait for it.
 */
export function createKeeper(changed, holdFor) {
  let line = { state: "idle", label: "", handle: null };
  const show = (next) => {
    line = next;
    changed();
  };

  return {
    get line() {
      return line;
    },
    /** Run what stores a value and tell the truth about it; resolves to what the action gives. */
    async keep(handle, label, action) {
      const slow = setTimeout(() => show({ state: "keeping", label, handle }), SLOW_MS);
      const over = (next) => {
        clearTimeout(slow);
        show({ label, handle, ...next });
      };
      try {
        const work = Promise.resolve(action());
        holdFor(work);
        const result = await work;
        over({ state: "kept" });
        return result;
      } catch (error) {
        over({ state: "failed", why: error.message });
        return undefined;
      }
    },
    async undo() {
      const { handle } = line;
      if (!handle) return;
      try {
        const undone = await handle.undo();
        show({ state: undone ? "undone" : "nothing", label: line.label, handle: undone ? handle : null });
      } catch (error) {
        show({ state: "failed", label: words.kept.undo, handle, why: error.message });
      }
    },
    clear() {
      line = { state: "idle", label: "", handle: null };
    },
  };
}

/** The sentence for the line. */
export function keptText(line) {
  return words.kept[line.state](line.label, line.why);
}
