/** Puts a screen on the page, and brings it up to date when something changed. */
import { patch } from "./patch.js";

/** `root` is where screens stand. A screen is {build() -> Node, painted?(root), leave?()}. */
export function createPainter(root) {
  let screen = null;
  let painting = false;
  let again = false;

  function repaint() {
    if (!screen) return;
    if (painting) {
      again = true;
      return;
    }
    paint();
    if (!again) return;
    again = false;
    queueMicrotask(repaint);
  }
  function paint() {
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
    /** Change to another screen: its heading takes the focus, so that one hears where one is. */
    show(make) {
      const first = screen === null;
      screen?.leave?.();
      screen = make();
      root.replaceChildren();
      repaint();
      scrollTo(0, 0);
      if (!first) root.querySelector("h1")?.focus({ preventScroll: true });
    },
  };
}
