/** A long series drawn with few points: of every block of rows its lowest and its highest, so that no peak is lost. */

const COARSEST = 2;

/** Rows of the lowest and highest value of each block of `size` rows; -1 where a block holds nothing. */
function firstLevel(values) {
  const blocks = Math.ceil(values.length / COARSEST);
  const level = { size: COARSEST, low: new Int32Array(blocks), high: new Int32Array(blocks) };
  for (let block = 0; block < blocks; block += 1) {
    const [one, other] = [block * COARSEST, Math.min(block * COARSEST + 1, values.length - 1)];
    level.low[block] = chosen(values, one, other, (left, right) => left <= right);
    level.high[block] = chosen(values, one, other, (left, right) => left >= right);
  }
  return level;
}

function chosen(values, one, other, isBetter) {
  if (one < 0 || Number.isNaN(values[one])) return other < 0 || Number.isNaN(values[other]) ? -1 : other;
  if (other < 0 || Number.isNaN(values[other])) return one;
  return isBetter(values[one], values[other]) ? one : other;
}

function nextLevel(values, { size, low, high }) {
  const blocks = Math.ceil(low.length / 2);
  const level = { size: size * 2, low: new Int32Array(blocks), high: new Int32Array(blocks) };
  for (let block = 0; block < blocks; block += 1) {
    const [one, other] = [2 * block, Math.min(2 * block + 1, low.length - 1)];
    level.low[block] = chosen(values, low[one], low[other], (left, right) => left <= right);
    level.high[block] = chosen(values, high[one], high[other], (left, right) => left >= right);
  }
  return level;
}

/** The first row whose time is not before `when`. */
export function rowAt(times, when) {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < when) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** One channel over time. Blocks lie at the same rows however the view moves, so that a line does not shiver. */
export class Thinned {
  #levels = [];

  constructor(times, values) {
    this.times = times;
    this.values = values;
    for (let level = firstLevel(values); ; level = nextLevel(values, level)) {
      this.#levels.push(level);
      if (level.low.length <= 1) break;
    }
  }

  /** {x, y} from time `from` to time `to`, at most about two for each of `most` blocks; `y` NaN where there is a gap. */
  points(from, to, most, scale = 1) {
    const first = Math.max(0, rowAt(this.times, from) - 1);
    const last = Math.min(this.times.length - 1, rowAt(this.times, to));
    const rows = last - first + 1 <= most ? every(first, last) : this.#extremes(first, last, most);
    return rows.map((row) => (row < 0 ? { x: this.times[-1 - row], y: NaN } : { x: this.times[row], y: this.values[row] * scale }));
  }

  /** Rows of the extremes in their order; a block that holds nothing is the row -1 - (its first row). */
  #extremes(first, last, most) {
    const level = this.#levels.find(({ size }) => (last - first + 1) / size <= most) ?? this.#levels.at(-1);
    const rows = [];
    for (let block = Math.floor(first / level.size); block * level.size <= last; block += 1) {
      const [low, high] = [level.low[block], level.high[block]];
      if (low < 0) rows.push(-1 - block * level.size);
      else if (low === high) rows.push(low);
      else rows.push(Math.min(low, high), Math.max(low, high));
    }
    return rows;
  }
}

function every(first, last) {
  return Array.from({ length: last - first + 1 }, (_, at) => first + at);
}
