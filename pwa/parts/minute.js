/** A minute to hold through: the clock, where it stands on the page, and the thumb's button. */
import { createClock } from "./clock.js";
import { el } from "./el.js";
import { button, mainButton } from "./page.js";
import { prepareSound, tone } from "./sound.js";

export const MINUTE_S = 60;

/** @param text words of the page: start, running, over, again, readEnd, fields.held; `end` opens the reading at the end */
export function createMinute(app, name, { text, end, begin = () => {} }) {
  const clock = createClock(app.workbook.settings, name, (second) => {
    if (second === MINUTE_S) tone();
    app.repaint();
  });
  async function start() {
    prepareSound();
    begin();
    await clock.start();
    app.repaint();
  }
  const left = () => (clock.seconds() === null ? MINUTE_S : Math.max(0, MINUTE_S - Math.floor(clock.seconds())));
  clock.run();

  return {
    halt: clock.halt,
    stop: clock.stop,
    /** How long it was held: the minute where the clock ran it, and as long as it ran; else what is `known`. */
    held(known) {
      const gone = clock.seconds();
      if (gone === null) return known ?? MINUTE_S;
      return gone < MINUTE_S ? Math.round(gone) : MINUTE_S;
    },
    /** On the page: what is left, and the start. */
    box(isRead) {
      const again = isRead || clock.seconds() !== null;
      return el(
        "div",
        { class: "clock", key: "clock" },
        el("p", { class: "time", role: "timer" }, left() ? text().running(left()) : text().over),
        button(again ? text().again : text().start, start, { key: "start minute here" }),
      );
    },
    /** Under the thumb while it runs, and before it where it is `due`; else null. */
    bar(isDue) {
      if (clock.seconds() === null) return isDue ? mainButton({ text: text().start, click: start, key: "start minute" }) : null;
      if (left() > 0) return mainButton({ text: text().running(left()), aside: text().fields.held, click: end, key: "minute" });
      return mainButton({ text: text().readEnd, click: end, key: "minute" });
    },
  };
}

/** A reading at the end of the hold: it brings its time, at `path`, along. */
export function heldField(field, job, minute, path) {
  const places = (kpa) => [...field.places(kpa), [path, minute.held(job.value(path))]];
  const write = async (kpa) => {
    await job.handle.setMany(places(kpa));
    await minute.stop();
  };
  return { ...field, places, write };
}
