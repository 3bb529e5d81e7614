/** The map of the app: what is opened at start, which place shows which screen, who is told of what. */
import { engine } from "./engine/engine.js";
import { release } from "./shell.js";
import { openWorkbook } from "./store/workbook.js";
import { sync } from "./store/sync.js";
import { createAwake } from "./parts/awake.js";
import { el } from "./parts/el.js";
import { createGuide } from "./parts/guide.js";
import { jobContext } from "./parts/job_context.js";
import { createKeeper } from "./parts/kept.js";
import { createPainter } from "./parts/painter.js";
import { keptLine, mainButton, page } from "./parts/page.js";
import { lookAgain } from "./parts/photos.js";
import { go, link, onRoute, route } from "./parts/router.js";
import { marked } from "./parts/practice_mark.js";
import { testPageOf } from "./parts/test_pages.js";
import { createVerdicts } from "./parts/verdicts.js";
import { applyLook, readSettings } from "./parts/look.js";
import { actuatorScreen } from "./screens/actuator.js";
import { actuatorSweepScreen } from "./screens/actuator_sweep.js";
import { afterRepairScreen } from "./screens/after_repair.js";
import { baseBoostScreen } from "./screens/base_boost_run.js";
import { cardScreen } from "./screens/card.js";
import { changesScreen } from "./screens/changes.js";
import { chargeDecayScreen } from "./screens/charge_decay.js";
import { customerScreen } from "./screens/customer.js";
import { estimateScreen } from "./screens/estimate.js";
import { gaugesScreen } from "./screens/gauges.js";
import { jobScreen } from "./screens/job.js";
import { jobsScreen } from "./screens/jobs.js";
import { limitsScreen } from "./screens/limits.js";
import { logImportScreen } from "./screens/log_import.js";
import { lookScreen } from "./screens/look.js";
import { newJobScreen } from "./screens/new_job.js";
import { plainTestScreen } from "./screens/plain_test.js";
import { practiceScreen } from "./screens/practice.js";
import { roadScreen } from "./screens/road.js";
import { roadRunScreen } from "./screens/road_run.js";
import { runChartScreen } from "./screens/run_chart.js";
import { settingsScreen } from "./screens/settings.js";
import { smokeScreen } from "./screens/smoke.js";
import { solenoidScreen } from "./screens/solenoid.js";
import { solenoidSweepScreen } from "./screens/solenoid_sweep.js";
import { vacuumSupplyScreen } from "./screens/vacuum_supply.js";
import { verdictScreen } from "./screens/verdict.js";
import { words } from "./words/words.js";

const HOME = { "": jobsScreen, new: newJobScreen, settings: settingsScreen, changes: changesScreen, practice: practiceScreen };
const OF_A_JOB = {
  "": jobScreen,
  card: cardScreen,
  limits: limitsScreen,
  gauges: gaugesScreen,
  look: lookScreen,
  smoke: smokeScreen,
  charge_decay: chargeDecayScreen,
  actuator: actuatorScreen,
  actuator_sweep: actuatorSweepScreen,
  solenoid: solenoidScreen,
  solenoid_sweep: solenoidSweepScreen,
  road: roadScreen,
  log: logImportScreen,
  base_boost_run: baseBoostScreen,
  vacuum_supply: vacuumSupplyScreen,
  after_repair: afterRepairScreen,
  verdict: verdictScreen,
  customer: customerScreen,
  estimate: estimateScreen,
};

const OF_A_RUN = { log: logImportScreen, chart: runChartScreen };

/** The screen of a place; a job that this phone does not hold has none, a practice car's says what it is. */
function screenAt(app, [first = "", id, where = "", item, view]) {
  if (first !== "job") return (HOME[first] ?? jobsScreen)(app);
  const job = jobContext(app, id);
  if (!job) return missing(app, id);
  const screen = screenOf(app, job, where, item, view);
  return app.guide.isCar(id) ? marked(app, job, screen, where === "") : screen;
}

function screenOf(app, job, where, item, view) {
  if (where === "road" && item) return (OF_A_RUN[view] ?? roadRunScreen)(app, job, item);
  const screen = OF_A_JOB[where] ?? (testPageOf(where) ? plainTestScreen(where) : jobScreen);
  return screen(app, job);
}

/** A job that is not here may still come, from the workshop or from another page of this phone. */
function missing(app, id) {
  const build = () => {
    if (jobContext(app, id)) queueMicrotask(app.show);
    return goneScreen(app);
  };
  return { build };
}

function goneScreen(app) {
  const bar = mainButton({ text: words.nav.jobs, href: link() });
  return page({ title: words.jobs.title, key: "main gone", main: [el("p", {}, words.air.gone)], bar }, app.keeper);
}

/** What screens may use of the app. */
function createApp(workbook) {
  const painter = createPainter(document.querySelector("#app"));
  const app = {
    workbook,
    repaint: painter.repaint,
    repaintNow: painter.repaintNow,
    repaintPart: painter.repaintPart,
    afterPaint: painter.afterPaint,
    settings: readSettings(workbook),
    engineState: { state: "off" },
    syncState: { state: "idle" },
    photoUrls: new Map(),
    pendingPhoto: workbook.pendingPhotoIntent(),
    update: null,
    syncNow: () => sync.run(),
    async set(name, value) {
      await workbook.settings.set(name, value);
      app.settings = readSettings(workbook);
      applyLook(app.settings);
      painter.repaint();
    },
  };
  engine.logsFrom((name) => workbook.logBytes(name));
  app.engine = engine;
  app.keeper = createKeeper(() => painter.repaintPart(".kept", keptLine(app.keeper)), painter.holdFor);
  app.awake = createAwake(painter.repaint);
  app.verdicts = createVerdicts(engine, words.language, painter.repaint);
  const [root, card] = [document.querySelector("#app"), document.querySelector("#guide")];
  app.guide = createGuide(workbook, { root, card, unit: () => app.settings.unit, changed: painter.repaint });
  app.show = () => painter.show(() => screenAt(app, route()));
  return app;
}

/** The app hears of changes by itself, by sync, by the engine and of the way through its pages. */
function listen(app) {
  app.workbook.onChange(app.repaint);
  app.workbook.onOutdated(() => cannotGoOn(words.start.outdated, words.start.outdatedSays));
  onRoute(() => {
    app.keeper.clear();
    lookAgain(app.photoUrls);
    app.pendingPhoto = app.workbook.pendingPhotoIntent();
    app.show();
  });
  engine.onState((state) => {
    const becameReady = state.state === "ready" && app.engineState.state !== "ready";
    app.engineState = state;
    if (becameReady) app.verdicts.forget();
    app.repaint();
  });
  sync.onState((state) => {
    if (state.state === "idle" && state.lastAt && !app.workshopAsked) {
      app.workshopAsked = true;
      app.workbook.fetchWorkshop();
    }
    if (state.state === "idle") app.workbook.fetchReports();
    app.syncState = state;
    app.repaint();
  });
  release.onReady(() => {
    app.update = { take: () => release.use() };
    app.repaint();
  });
}

/** The first tap may ask the phone not to clear our store by itself; a camera that ended the page is taken up again. */
async function begin(app) {
  document.documentElement.lang = words.language;
  addEventListener("pointerup", () => navigator.storage?.persist?.(), { once: true });
  if (app.pendingPhoto && !route().length) {
    const { job, step } = app.pendingPhoto;
    go("job", job, step.startsWith("look_") ? "look" : step);
  }
  app.show();
  await breath();
  await app.workbook.prove();
  engine.start();
  await breath();
  sync.start(app.workbook);
}

/** Lets what was shown be seen and a finger be heard before the next piece of work. A hidden page has no frames. */
function breath() {
  const soon = document.hidden ? (next) => next() : requestAnimationFrame;
  return new Promise((resolve) => soon(() => setTimeout(resolve)));
}

/** Nothing can be kept: say so at once and in full. */
function cannotGoOn(title, says, why) {
  const main = el("main", { role: "alert" }, el("h1", {}, title), el("p", {}, says), why && el("p", { class: "hint" }, why));
  document.querySelector("#app").replaceChildren(el("div", { class: "page" }, main));
}

async function start() {
  release.start();
  try {
    const app = createApp(await openWorkbook());
    await app.guide.ready();
    applyLook(app.settings);
    listen(app);
    await begin(app);
  } catch (error) {
    cannotGoOn(words.start.failed, words.start.failedSays, error.message);
    throw error;
  }
}

start();
