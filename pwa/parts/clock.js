/** A running clock that outlives the page: its start is written down, not its ticks. */

const TICK_MS = 250;

/**
 * @param settings the phone's settings
 * @param name what it times, such as "hold <job>"
 * @param tick called while it runs, with whole seconds gone
 */
export function createClock(settings, name, tick) {
  let timer = null;
  let last = -1;

  const seconds = () => {
    const start = settings.get(`clock ${name}`);
    return start ? (Date.now() - start) / 1000 : null;
  };
  const beat = () => {
    const gone = seconds();
    if (gone === null) return halt();
    if (Math.floor(gone) === last) return undefined;
    last = Math.floor(gone);
    return tick(last);
  };
  const halt = () => {
    clearInterval(timer);
    timer = null;
  };
  const run = () => {
    if (timer === null && seconds() !== null) timer = setInterval(beat, TICK_MS);
  };

  return {
    seconds,
    run,
    halt,
    async start() {
      last = -1;
      await settings.set(`clock ${name}`, Date.now());
      run();
    },
    async stop() {
      halt();
      await settings.set(`clock ${name}`, null);
    },
  };
}
