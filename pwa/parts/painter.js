/** Puts a screen on the page, and brings it up to date when something changed. */
import { patch } from "./patch.js";

/** `root` is where screens stand. A screen is {build() -> Node, painted?(root), leave?()}. */
export function createPainter(root) {
  let screen = null;
  let painting = false;
  let due = false;

  /** Soon, and once for all that changed until then; a hidden page has no frames. */
  function repaint() {
    if (due) return;
    due = true;
    if (document.hidden) setTimeout(paintDue);
    else requestAnimationFrame(paintDue);
  }
  function paintDue() {
    if (due) paint();
  }
  function repaintNow() {
    if (painting) repaint();
    else paint();
  }
  function paint() {
    due = false;
    if (!screen) return;
    painting = true;
    try {
      const fresh = screen.build();
      if (root.firstElementChild) patch(root.firstElementChild, fresh);
      else root.append(fresh);
      screen.painted?.(root);
    } finally {
      painting = false;
    }
    document.title = root.querySelector("h1")?.textContent ?? document.title;
  }

  return {
    repaint,
    /** At once: for who must find on the page what has just been asked for. */
    repaintNow,
    /** Change to another screen: its heading takes the focus, so that one hears where one is. */
    show(make) {
      const first = screen === null;
      screen?.leave?.();
      screen = make();
      root.replaceChildren();
      repaintNow();
      scrollTo(0, 0);
      if (!first) root.querySelector("h1")?.focus({ preventScroll: true });
    },
  };
}
