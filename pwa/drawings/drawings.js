/** The drawing of each test page, by its name and the kind of the car. */
import { kindOf } from "../parts/kind.js";
import * as air from "./bench.js";
import * as control from "./control_bench.js";

const ALL = { ...air, ...control };

/** The drawing called `name` for this car, with its words. */
export function drawingOf(name, parts, document) {
  return ALL[name](parts, kindOf(document));
}
