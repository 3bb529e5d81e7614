/** Puts a screen on the page, and brings it up to date when something changed. */
import { patch } from "./patch.js";

const LONGEST_HOLD_MS = 100;

/** `root` is where screens stand. A screen is {build() -> Node, painted?(root), leave?()}. */
export function createPainter(root) {
  let screen = null;
  let painting = false;
  let due = false;
  let holds = 0;
  let afterwards = [];
  const bar = new ResizeObserver(([{ target }]) => {
    document.documentElement.style.scrollPaddingBottom = `${target.offsetHeight}px`;
    root.querySelector("main :focus-visible")?.scrollIntoView({ block: "nearest" });
  });

  /** Soon, and once for all that changed until then. */
  function repaint() {
    if (due) return;
    due = true;
    if (!holds) paintSoon();
  }
  /** Behind the next frame, which belongs to the answer to a touch. A hidden page has no frames. */
  function paintSoon() {
    if (document.hidden) setTimeout(paintDue);
    else requestAnimationFrame(() => setTimeout(paintDue));
  }
  function paintDue() {
    if (due && !holds) paint();
  }
  /** While `work` goes on, what can wait is not painted: its answer comes first. Not for longer than one notices. */
  function holdFor(work) {
    let held = true;
    const release = () => {
      if (held) holds -= 1;
      held = false;
      if (due && !holds) paintSoon();
    };
    holds += 1;
    work.then(release, release);
    setTimeout(release, LONGEST_HOLD_MS);
  }
  function repaintNow() {
    if (painting) repaint();
    else paint();
  }
  function paint() {
    due = false;
    if (!screen) return;
    painting = true;
    const seen = focusInView();
    try {
      const fresh = screen.build();
      if (root.firstElementChild) patch(root.firstElementChild, fresh);
      else root.append(fresh);
      screen.painted?.(root);
      if (seen?.isConnected) seen.scrollIntoView({ block: "nearest" });
    } finally {
      painting = false;
    }
    document.title = root.querySelector("h1")?.textContent ?? document.title;
    const doing = afterwards;
    afterwards = [];
    for (const one of doing) one();
  }

  /**
   * A button that has the keyboard's focus and is in sight: what is painted above it must not push it out. Never a
   * field, which a touch focuses as well: the page must not move under a finger.
   */
  function focusInView() {
    const focused = root.querySelector("main button:focus-visible");
    const box = focused?.getBoundingClientRect();
    return box && box.bottom > 0 && box.top < innerHeight ? focused : null;
  }

  /** What takes the focus comes to stand above the bar, however tall that is. */
  function watchBar() {
    bar.disconnect();
    const foot = root.querySelector("footer");
    if (foot) bar.observe(foot);
  }

  /** Only the part that `selector` finds, at once: what answers a touch does not wait for the whole page. */
  function repaintPart(selector, fresh) {
    const old = root.querySelector(selector);
    if (old) patch(old, fresh);
    else repaint();
  }

  return {
    repaint,
    repaintPart,
    holdFor,
    /** Once, when the page has been painted the next time. */
    afterPaint: (one) => afterwards.push(one),
    /** At once: for who must find on the page what has just been asked for. */
    repaintNow,
    /** Change to another screen: its heading takes the focus, so that one hears where one is. */
    show(make) {
      const first = screen === null;
      screen?.leave?.();
      screen = make();
      root.replaceChildren();
      repaintNow();
      watchBar();
      scrollTo(0, 0);
      if (!first) root.querySelector("h1")?.focus({ preventScroll: true });
    },
  };
}
