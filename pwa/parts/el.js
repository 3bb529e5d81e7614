/** Build nodes without markup in text: every word shown is a text node. */

const SVG = "http://www.w3.org/2000/svg";
const LIVE = new Set(["value", "checked"]);

/** An HTML element: `el("button", {class: "main", on: {click: fn}}, "Keep")`. */
export function el(tag, props = {}, ...children) {
  return fill(document.createElement(tag), props, children);
}

/** An SVG element; a drawing is described beside it in words, so it is hidden from screen readers. */
export function draw(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

/** The root of a drawing with its own coordinates. */
export function drawing(width, height, ...children) {
  const box = { viewBox: `0 0 ${width} ${height}`, "aria-hidden": "true", class: "drawing", focusable: "false" };
  return draw("svg", box, ...children);
}

function fill(node, props, children) {
  for (const [name, value] of Object.entries(props)) apply(node, name, value);
  node.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

function apply(node, name, value) {
  if (value === null || value === undefined || value === false) return;
  if (name === "on") return listen(node, value);
  if (name === "key") return node.setAttribute("data-key", value);
  if (LIVE.has(name)) node[name] = value;
  node.setAttribute(name, value === true ? "" : String(value));
}

function listen(node, handlers) {
  node.listens = handlers;
  for (const [event, handler] of Object.entries(handlers)) node[`on${event}`] = handler;
}
