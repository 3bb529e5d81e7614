/** Ranks order the items of a list: texts compared by bytes, with four random characters at the end. */

const DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz";
const FIRST_HEAD = "h0";
const HEAD_LENGTH = 2;
const TAIL_LENGTH = 4;

function tail() {
  const bytes = crypto.getRandomValues(new Uint8Array(TAIL_LENGTH));
  return Array.from(bytes, (byte) => DIGITS[byte % DIGITS.length]).join("");
}

function digitAt(text, at, absent) {
  return at < text.length ? Math.max(0, DIGITS.indexOf(text[at])) : absent;
}

/** The next two-character head after `before`, or null where there is none. */
function nextHead(before) {
  const head = before.slice(0, HEAD_LENGTH).padEnd(HEAD_LENGTH, "0");
  const number = digitAt(head, 0, 0) * DIGITS.length + digitAt(head, 1, 0) + 1;
  if (number >= DIGITS.length ** HEAD_LENGTH) return null;
  return DIGITS[Math.floor(number / DIGITS.length)] + DIGITS[number % DIGITS.length];
}

/** A text strictly between the two that does not begin `after`, so that any tail may follow it. */
function headBetween(before, after) {
  let head = "";
  let bounded = after !== null;
  for (let at = 0; ; at += 1) {
    const low = digitAt(before, at, 0);
    const high = bounded ? digitAt(after, at, 0) : DIGITS.length;
    if (high - low > 1) return head + DIGITS[low + Math.floor((high - low) / 2)];
    head += DIGITS[low];
    if (high > low) bounded = false;
  }
}

/**
 * A rank after `before` and before `after` (null: no neighbour on that side).
 * Neighbours of equal rank leave no room between them: the new one then goes behind both.
 */
export function rankBetween(before, after) {
  if (before === null && after === null) return FIRST_HEAD + tail();
  if (before !== null && (after === null || before >= after)) {
    return (nextHead(before) ?? headBetween(before, null)) + tail();
  }
  return headBetween(before ?? "", after) + tail();
}
