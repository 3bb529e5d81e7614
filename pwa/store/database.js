/** The one door to IndexedDB. A write counts only when its transaction is complete, with strict durability. */

const VERSION = 1;
const BLOCKED_AFTER_MS = 3000;

/** Storage that cannot be used. `kind`: "unavailable", "blocked", "closed", "full" or "failed". */
export class StorageError extends Error {
  constructor(kind, cause) {
    super(`storage: ${kind}`, { cause });
    this.name = "StorageError";
    this.kind = kind;
  }
}

const LOST = new Set(["InvalidStateError", "UnknownError"]);

function kindOf(error) {
  return error?.name === "QuotaExceededError" ? "full" : "failed";
}

function createStores(database) {
  database.createObjectStore("operations", { keyPath: "id" });
  database.createObjectStore("jobs", { keyPath: "id" });
  database.createObjectStore("blobs", { keyPath: "sha256" });
  database.createObjectStore("bytes");
  database.createObjectStore("values");
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
    return indexedDB.open(name, VERSION);
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
    request.onupgradeneeded = () => createStores(request.result);
    request.onblocked = () => {
      setTimeout(() => settle(reject, new StorageError("blocked")), BLOCKED_AFTER_MS);
    };
    request.onerror = () => settle(reject, new StorageError("unavailable", request.error));
    request.onsuccess = () => {
      if (settled) request.result.close();
      settle(resolve, request.result);
    };
  });
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
    this.#connection ??= openOnce(this.#name).then(
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

  /** Opens, writes and reads back; rejects with a StorageError where nothing would be kept. */
  async open() {
    const stamp = `${Date.now()}-${Math.random()}`;
    await this.write(["values"], (stores) => resultOf(stores.values.put(stamp, "probe")));
    const found = await this.read(["values"], (stores) => resultOf(stores.values.get("probe")));
    if (found !== stamp) throw new StorageError("unavailable");
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
      return attempt().catch((second) => Promise.reject(typed(second)));
    }
  }

  #isLost(error) {
    return LOST.has(error?.name) || (error?.name === "AbortError" && this.#connection === null);
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
      return await work(stores);
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

function typed(error) {
  if (error instanceof DOMException) return new StorageError(kindOf(error), error);
  return error;
}
