/** A short tone, for eyes that are on the gauge. */

const GAIN = 0.25;
let output = null;

/** Wake the phone's sound while a finger is on the screen: later it is not allowed to begin. */
export function prepareSound() {
  output ??= new AudioContext();
  if (output.state === "suspended") output.resume();
}

/** Sound a tone; silent where the phone has not let us begin. */
export function tone(hertz = 880, seconds = 0.2) {
  if (output?.state !== "running") return;
  const [source, level] = [output.createOscillator(), output.createGain()];
  source.frequency.value = hertz;
  level.gain.value = GAIN;
  source.connect(level).connect(output.destination);
  source.start();
  source.stop(output.currentTime + seconds);
}
