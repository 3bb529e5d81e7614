/** Has the service worker put the engine's files on the phone, so that it starts with no network later. */

import { release } from "../shell.js";

const SILENT_FOR_MS = 60_000;

/**
 * Resolves when the engine's files are on the phone, or at once where no service worker is at work
 * (the browser then fetches them itself). Calls `progress({loadedBytes, totalBytes})` on the way.
 */
export async function fetchEngine(progress) {
  await release.started;
  const worker = navigator.serviceWorker?.controller;
  if (worker) await askWorker(worker, progress);
}

function askWorker(worker, progress) {
  return new Promise((resolve, reject) => {
    const { port1, port2 } = new MessageChannel();
    let timer = null;
    const expect = () => {
      clearTimeout(timer);
      timer = setTimeout(() => reject(new Error("silent")), SILENT_FOR_MS);
    };
    port1.onmessage = ({ data }) => {
      expect();
      if (data.kind === "progress") return progress({ loadedBytes: data.loadedBytes, totalBytes: data.totalBytes });
      clearTimeout(timer);
      return data.kind === "kept" ? resolve() : reject(new Error(data.says));
    };
    expect();
    worker.postMessage({ kind: "fetch_engine" }, [port2]);
  });
}
