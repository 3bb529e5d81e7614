/** Keep the screen on while a road page is open. Asked for, asked again, never depended on. */

/** `changed(on)` tells whether the phone agreed. */
export function createAwake(changed) {
  let lock = null;
  let wanted = false;

  async function ask() {
    if (!wanted || lock || document.visibilityState !== "visible" || !navigator.wakeLock) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", lost);
      if (!wanted) lock.release();
    } catch {
      lock = null;
    }
    changed(lock !== null);
  }
  function lost() {
    lock = null;
    changed(false);
  }
  document.addEventListener("visibilitychange", ask);

  return {
    get on() {
      return lock !== null;
    },
    want() {
      if (wanted) return;
      wanted = true;
      ask();
    },
    release() {
      wanted = false;
      lock?.release();
    },
  };
}
