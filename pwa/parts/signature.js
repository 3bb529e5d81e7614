/** A pane to sign on with a finger: the strokes become one path, 1000 wide and 400 high, in whole numbers. */
import { words } from "../words/words.js";
import { draw } from "./el.js";

const WIDTH = 1000;
const HEIGHT = 400;
const CLOSEST = 6; // nearer points say nothing about a name
const MOST_POINTS = 3000;
const PATH = /^(?:M\d{1,4} \d{1,4}(?:L\d{1,4} \d{1,4})*)+$/;

/** A signature drawn from its path, for the eye; the words beside it say whose it is. */
export function drawnSignature(path) {
  if (!PATH.test(path ?? "")) return null;
  return draw("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, class: "signature", "aria-hidden": "true" }, draw("path", { d: path }));
}

/** The pane; `strokes` ({path, points, last}) is kept by whoever shows it. `changed()` after each stroke. */
export function signaturePane(strokes, changed) {
  const go = (pane, command, [x, y]) => {
    strokes.path += `${command}${x} ${y}`;
    strokes.points += 1;
    strokes.last = [x, y];
    pane.firstChild.setAttribute("d", strokes.path);
  };
  const begin = (event) => {
    const pane = event.currentTarget;
    if (strokes.points >= MOST_POINTS) return;
    pane.setPointerCapture(event.pointerId);
    const [x, y] = pointOf(event);
    go(pane, "M", [x, y]);
    go(pane, "L", [Math.min(x + 1, WIDTH), y]);
  };
  const move = (event) => {
    if (!strokes.last || strokes.points >= MOST_POINTS) return;
    const [x, y] = pointOf(event);
    if (Math.hypot(x - strokes.last[0], y - strokes.last[1]) >= CLOSEST) go(event.currentTarget, "L", [x, y]);
  };
  const end = () => {
    strokes.last = null;
    changed();
  };
  const on = { pointerdown: begin, pointermove: move, pointerup: end, pointercancel: end };
  const props = { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, class: "signature pane", role: "img", "aria-label": words.authorise.pane, key: "signature pane", on };
  return draw("svg", props, draw("path", { d: strokes.path }));
}

function pointOf({ clientX, clientY, currentTarget }) {
  const { left, top, width, height } = currentTarget.getBoundingClientRect();
  const within = (at, size, most) => Math.min(Math.max(Math.round((at / size) * most), 0), most);
  return [within(clientX - left, width, WIDTH), within(clientY - top, height, HEIGHT)];
}
