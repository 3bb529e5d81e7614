/** The words of a test page for this car: the usual ones, and what its kind of boost control says otherwise. */
import { words } from "../words/words.js";
import { kindOf } from "./kind.js";

const made = new Map();

/** Words of a page, those of the actuator's and the device's kind laid over the usual ones. */
export function testWords(document, page) {
  const { device, actuator } = kindOf(document);
  const key = `${page} ${actuator} ${device}`;
  if (!made.has(key)) made.set(key, laid(words.tests[page], words.kinds[page]?.[actuator], words.kinds[page]?.[device]));
  return made.get(key);
}

function laid(usual, ...others) {
  return others.reduce((text, other = {}) => ({ ...text, ...Object.fromEntries(Object.entries(other).map(([name, part]) => [name, over(text[name], part)])) }), usual);
}

/** Named parts are laid over one by one; a text or a list takes the place of the other. */
function over(usual, part) {
  const named = typeof part === "object" && !Array.isArray(part);
  return named ? { ...usual, ...part } : part;
}
