/** UUIDs of version 7 (RFC 9562): 48 bits of Unix milliseconds, then a counter and random bits. */

const COUNTER_LIMIT = 0x1000;
let lastMilliseconds = 0;
let counter = 0;

function advance() {
  const now = Date.now();
  if (now > lastMilliseconds) {
    lastMilliseconds = now;
    counter = crypto.getRandomValues(new Uint16Array(1))[0] & 0x7ff;
    return;
  }
  counter += 1;
  if (counter < COUNTER_LIMIT) return;
  lastMilliseconds += 1;
  counter = 0;
}

function hex(number, digits) {
  return number.toString(16).padStart(digits, "0");
}

/** A new UUIDv7; those made on one page rise strictly, also when the clock stands still or goes back. */
export function uuid7() {
  advance();
  const time = hex(lastMilliseconds, 12);
  const tail = crypto.getRandomValues(new Uint8Array(8));
  tail[0] = (tail[0] & 0x3f) | 0x80;
  const rest = Array.from(tail, (byte) => hex(byte, 2)).join("");
  return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(counter, 3)}-${rest.slice(0, 4)}-${rest.slice(4)}`;
}
