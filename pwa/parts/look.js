/** How the screen looks on this phone: unit, theme, size of text. */

const USUAL = { unit: "bar", theme: "auto", textSize: "1", person: "" };

/** From here on the bar at the bottom would cover too much: it stands at the end of the page instead. */
const LARGE_TEXT = 2;

/** The settings with what is usual where nothing was chosen. */
export function readSettings(workbook) {
  return Object.fromEntries(Object.entries(USUAL).map(([name, usual]) => [name, workbook.settings.get(name) ?? usual]));
}

/** Theme and text size are set on the page itself. */
export function applyLook({ theme, textSize }) {
  const root = document.documentElement;
  root.dataset.theme = theme;
  root.dataset.large = String(Number(textSize) >= LARGE_TEXT);
  root.style.setProperty("--text-size", textSize);
}
