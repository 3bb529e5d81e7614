/** The small air line of a verdict: whole up to the broken place, its two ends bent apart there. */
import { draw, drawing } from "../parts/el.js";

/** @param whole name of the place before, `broken` name of the place at fault (or null: the line is whole) */
export function brokenLine(whole, broken) {
  if (!broken) return drawing(350, 44, draw("path", { d: "M4 24H346", class: "tube" }));
  return drawing(
    350, 64,
    draw("text", { x: 4, y: 14, class: "small start" }, whole),
    draw("text", { x: 346, y: 14, class: "small end hot" }, broken),
    draw("path", { d: "M4 40H136Q150 40 154 24", class: "tube" }),
    draw("path", { d: "M346 40H206Q190 40 186 58", class: "tube broken" }),
  );
}
