/** Asks the calculation for the verdict of a job whenever it changed; never in the way of keeping a reading. */
import { withValues } from "./pointer.js";

/** The parts of a job that a verdict is drawn from. */
const MOVERS = ["tests", "spec", "complaint", "boost_control", "vehicle", "site", "gauges", "workshop"];

/** `changed` is called when an answer has come. */
export function createVerdicts(engine, language, changed) {
  const known = new Map();
  let trial = { asked: null, verdict: null };

  /** A handle's document stays the same object until something in it changes. */
  function ask({ document }, unit, entry) {
    if (entry.document === document && entry.unit === unit) return;
    Object.assign(entry, { document, unit, fresh: false });
    engine.judge(document, { unit, language }).then(
      (verdict) => answer(entry, document, unit, { verdict, fault: null, fresh: true }),
      (error) => answer(entry, document, unit, { fault: error, fresh: error.kind === "broken" }),
    );
  }
  function answer(entry, document, unit, result) {
    if (entry.document !== document || entry.unit !== unit) return;
    if (result.verdict) compare(entry, document, result.verdict);
    Object.assign(entry, result);
    changed();
  }

  /** What the readings since the last verdict moved in it; a photo or a note moves nothing and says nothing. */
  function compare(entry, document, verdict) {
    const before = entry.verdict;
    const readings = JSON.stringify(MOVERS.map((key) => document[key]));
    const [moved, first] = [readings !== entry.readings, before === null];
    entry.readings = readings;
    if (!moved || first) return;
    engine.whatChanged(before, verdict, { language }).then(
      (line) => {
        if (entry.readings !== readings) return;
        entry.moved = line ?? "";
        changed();
      },
      () => {},
    );
  }

  return {
    /**
     * The last verdict of a job {verdict, fresh, fault, moved}; asks for a new one where the job has changed. `fresh`: it is
     * the answer for what stands there now (a refused document is an answer too, and `fault` then says why). `moved`: in
     * one line what the last readings moved, empty where they moved nothing, null before there is anything to compare.
     */
    of(handle, unit) {
      if (!known.has(handle.id)) known.set(handle.id, { verdict: null, fresh: false, fault: null, moved: null });
      const entry = known.get(handle.id);
      ask(handle, unit, entry);
      return entry;
    },
    /** What a check would say of the job with these values, which are not kept yet; null until it is known. */
    trialOf(handle, unit, pairs, check) {
      const document = { ...withValues(handle.document, pairs), id: `${handle.id} trial` };
      const asked = JSON.stringify(document) + unit;
      if (trial.asked !== asked) {
        trial = { asked, verdict: null };
        engine.judge(document, { unit, language }).then(
          (verdict) => {
            if (trial.asked !== asked) return;
            trial.verdict = verdict;
            changed();
          },
          () => {},
        );
      }
      return trial.verdict?.findings.find((one) => one.check === check) ?? null;
    },
    /** Ask again: the engine has become ready. */
    forget() {
      for (const entry of known.values()) entry.document = null;
    },
  };
}
