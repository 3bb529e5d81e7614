/** The one door to IndexedDB. A write counts only when its transaction is complete, with strict durability. */

const BLOCKED_AFTER_MS = 3000;
const PAUSES_MS = [100, 300, 900, 2700];

/** Storage that cannot be used. `kind`: "unavailable", "blocked", "closed", "full" or "failed". */
export class StorageError extends Error {
  constructor(kind, cause) {
    super(`storage: ${kind}`, { cause });
    this.name = "StorageError";
    this.kind = kind;
  }
}

const ALMOST_FULL = 0.95;
const LOST = new Set(["InvalidStateError", "UnknownError"]);

function kindOf(error) {
  return error?.name === "QuotaExceededError" ? "full" : "failed";
}

/** The steps from nothing to the present stores, one a version; a step once released never changes. */
const STEPS = [
  (database) => {
    database.createObjectStore("operations", { keyPath: "id" });
    database.createObjectStore("jobs", { keyPath: "id" });
    database.createObjectStore("blobs", { keyPath: "sha256" });
    database.createObjectStore("bytes");
    database.createObjectStore("values");
  },
];

function upgrade(request, { oldVersion }) {
  for (const step of STEPS.slice(oldVersion)) step(request.result, request.transaction);
}

/** A promise for the result of one IndexedDB request; it keeps the transaction alive while it is awaited. */
export function resultOf(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function requestOpen(name) {
  try {
    return indexedDB.open(name, STEPS.length);
  } catch (error) {
    throw new StorageError("unavailable", error);
  }
}

function openOnce(name) {
  return new Promise((resolve, reject) => {
    let settled = false;
    const settle = (action, result) => {
      if (!settled) action(result);
      settled = true;
    };
    const request = requestOpen(name);
    request.onupgradeneeded = (event) => upgrade(request, event);
    request.onblocked = () => {
      setTimeout(() => settle(reject, new StorageError("blocked")), BLOCKED_AFTER_MS);
    };
    request.onerror = () => settle(reject, new StorageError(request.error?.name === "VersionError" ? "closed" : "unavailable", request.error));
    request.onsuccess = () => {
      if (settled) request.result.close();
      settle(resolve, request.result);
    };
  });
}

/** A browser that was ended a moment ago may still hold the files: it says UnknownError, and lets go soon. */
async function openPatiently(name) {
  for (const pause of PAUSES_MS) {
    try {
      return await openOnce(name);
    } catch (error) {
      if (error.cause?.name !== "UnknownError") throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, pause));
  }
  return openOnce(name);
}

/** One database, one connection, opened again once when the browser loses it. */
export class Database {
  #name;
  #connection = null;
  #outdated = false;

  constructor(name) {
    this.#name = name;
  }

  /** Called when another page needs a newer schema: this page has let go and can keep nothing more. */
  onOutdated = () => {};

  #connect() {
    if (this.#outdated) return Promise.reject(new StorageError("closed"));
    this.#connection ??= openPatiently(this.#name).then(
      (database) => this.#watch(database),
      (error) => {
        this.#connection = null;
        throw error;
      },
    );
    return this.#connection;
  }

  #watch(database) {
    database.onclose = () => this.#drop();
    database.onversionchange = () => {
      this.#outdated = true;
      database.close();
      this.#drop();
      this.onOutdated();
    };
    return database;
  }

  #drop() {
    this.#connection = null;
  }

  /** Writes and reads back; rejects with a StorageError where nothing would be kept. */
  async prove() {
    const probe = `probe ${crypto.randomUUID()}`;
    await this.write(["values"], (stores) => resultOf(stores.values.put(true, probe)));
    const found = await this.write(["values"], async (stores) => {
      const value = await resultOf(stores.values.get(probe));
      await resultOf(stores.values.delete(probe));
      return value;
    });
    if (!found) throw new StorageError("unavailable");
  }

  /** Runs `work(stores)` in a read transaction and resolves with its result. */
  read(names, work) {
    return this.#withReplay(() => this.#run(names, "readonly", work));
  }

  /**
   * Runs `work(stores)` in one strict transaction; resolves with its result once the transaction is complete.
   * `work` may await nothing but requests of these stores, and may run twice.
   */
  write(names, work) {
    return this.#withReplay(() => this.#run(names, "readwrite", work));
  }

  async #withReplay(attempt) {
    try {
      return await attempt();
    } catch (error) {
      if (!this.#isLost(error)) throw typed(error);
      this.#drop();
      return attempt().catch(async (second) => Promise.reject(await typedWithRoom(second)));
    }
  }

  /** A transaction that the browser itself ended, and a handle that is none any more: worth one more try. */
  #isLost(error) {
    return LOST.has(error?.name) || error?.name === "AbortError";
  }

  async #run(names, mode, work) {
    const database = await this.#connect();
    const transaction = database.transaction(names, mode, { durability: "strict" });
    const complete = new Promise((resolve, reject) => {
      transaction.oncomplete = resolve;
      transaction.onabort = () => reject(transaction.error ?? new DOMException("aborted", "AbortError"));
      transaction.onerror = () => reject(transaction.error);
    });
    const stores = Object.fromEntries(names.map((name) => [name, transaction.objectStore(name)]));
    const [result] = await Promise.all([this.#guarded(transaction, work, stores), complete]);
    return result;
  }

  /** An error in `work` undoes the whole transaction. */
  async #guarded(transaction, work, stores) {
    try {
      const result = await work(stores);
      if (transaction.mode === "readwrite") commit(transaction);
      return result;
    } catch (error) {
      try {
        transaction.abort();
      } catch {
        // It has already been undone.
      }
      throw error;
    }
  }
}

/** Nothing more will be asked of it: the disk need not wait for the page to hear of each write. */
function commit(transaction) {
  try {
    transaction.commit?.();
  } catch {
    // It has come to its end by itself, well or not: its events tell.
  }
}

/** Some browsers end a transaction for want of room without saying so. */
async function typedWithRoom(error) {
  if (error?.name !== "AbortError") return typed(error);
  const { usage = 0, quota = Infinity } = (await navigator.storage?.estimate?.().catch(() => ({}))) ?? {};
  return new StorageError(usage > ALMOST_FULL * quota ? "full" : "failed", error);
}

function typed(error) {
  if (error instanceof DOMException) return new StorageError(kindOf(error), error);
  return error;
}
