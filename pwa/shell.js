/** Releases of the app on this phone: put in place as a whole, switched when the technician says so. */

const LOOK_AGAIN_AFTER_MS = 3_600_000;

class Release {
  #registration = null;
  #wanted = false;
  #serving = navigator.serviceWorker?.controller ?? null;
  #replaced = false;
  #listeners = new Set();
  #lookedAt = 0;
  #started = Promise.resolve();

  /**
   * Registers the service worker and looks for a new release whenever the page is seen again. Resolves when the worker
   * serves this page, or when it is clear that it will not.
   */
  start() {
    this.#started = this.#begin().catch((error) => console.warn(error.message));
    return this.#started;
  }

  /** Resolves once `start`, where it was called, has come to its end. */
  get started() {
    return this.#started;
  }

  async #begin() {
    if (!navigator.serviceWorker) return;
    navigator.serviceWorker.addEventListener("controllerchange", () => this.#changedOver());
    this.#registration = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    this.#registration.addEventListener("updatefound", () => this.#watch(this.#registration.installing));
    this.#lookedAt = Date.now();
    if (this.#registration.installing) this.#watch(this.#registration.installing);
    this.#tellIfReady();
    document.addEventListener("visibilitychange", () => this.#lookAgain());
    await this.#takenOver();
  }

  /** On the first visit the worker takes the page over as soon as the shell is kept whole. */
  #takenOver() {
    const first = this.#registration.installing ?? this.#registration.waiting;
    if (navigator.serviceWorker.controller || this.#registration.active || !first) return undefined;
    return new Promise((resolve) => {
      navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true });
      first.addEventListener("statechange", () => first.state === "redundant" && resolve());
    });
  }

  /** Calls `listener()` when a new release is on the phone and waits for a yes. */
  onReady(listener) {
    this.#listeners.add(listener);
    this.#tellIfReady();
    return () => this.#listeners.delete(listener);
  }

  /** The technician's yes: the waiting release takes over and the page is loaded anew, once. */
  use() {
    this.#wanted = true;
    if (this.#replaced) this.#reloadOnce();
    else this.#tellIfReady();
  }

  #watch(worker) {
    worker.addEventListener("statechange", () => this.#tellIfReady());
  }

  /** A yes stands for whichever release waits: one that is still newer may take the place of the first. */
  #tellIfReady() {
    const waiting = this.#registration?.waiting;
    if (!navigator.serviceWorker?.controller || !(waiting || this.#replaced)) return;
    if (this.#wanted) waiting?.postMessage({ kind: "use_release" });
    for (const listener of this.#listeners) listener();
  }

  /** Another page of this phone may have said yes: this one is not loaded anew under the technician's hand, but asks. */
  #changedOver() {
    const isFirst = !this.#serving;
    this.#serving = navigator.serviceWorker.controller;
    if (isFirst) return;
    this.#replaced = true;
    if (this.#wanted) this.#reloadOnce();
    else this.#tellIfReady();
  }

  #reloadOnce() {
    if (!this.#wanted) return;
    this.#wanted = false;
    location.reload();
  }

  #lookAgain() {
    if (document.visibilityState !== "visible" || Date.now() - this.#lookedAt < LOOK_AGAIN_AFTER_MS) return;
    this.#lookedAt = Date.now();
    this.#registration.update().catch(() => {});
  }
}

/** The page's one view of releases. */
export const release = new Release();
