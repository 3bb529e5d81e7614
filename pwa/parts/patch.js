/**
 * Bring what is on the screen up to what should be there, touching only what differs, so that focus, a half-typed
 * word, an opened paragraph and the scroll position outlive a repaint.
 */

/** Make `old` look like `fresh`; both describe the same part of the page. */
export function patch(old, fresh) {
  if (!alike(old, fresh)) return old.replaceWith(fresh);
  if (old.nodeType === Node.TEXT_NODE) return patchText(old, fresh);
  patchAttributes(old, fresh);
  patchListeners(old, fresh);
  if (!old.hasAttribute("data-opaque")) patchChildren(old, fresh);
  patchValue(old, fresh);
}

function alike(old, fresh) {
  if (old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName) return false;
  if (old.nodeType !== Node.ELEMENT_NODE) return true;
  return old.getAttribute("data-key") === fresh.getAttribute("data-key") && old.type === fresh.type;
}

function patchText(old, fresh) {
  if (old.data !== fresh.data) old.data = fresh.data;
}

function patchAttributes(old, fresh) {
  for (const { name } of [...old.attributes]) {
    const opened = name === "open" && old.nodeName === "DETAILS";
    if (!fresh.hasAttribute(name) && !opened) old.removeAttribute(name);
  }
  for (const { name, value } of fresh.attributes) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
}

function patchListeners(old, fresh) {
  for (const event of Object.keys(old.listens ?? {})) old[`on${event}`] = null;
  old.listens = fresh.listens;
  for (const [event, handler] of Object.entries(fresh.listens ?? {})) old[`on${event}`] = handler;
}

function patchChildren(old, fresh) {
  let here = old.firstChild;
  for (const next of [...fresh.childNodes]) {
    const match = find(here, next);
    if (!match) {
      old.insertBefore(next, here);
      continue;
    }
    while (here !== match) here = removeAndStep(here);
    patch(match, next);
    here = match.nextSibling;
  }
  while (here) here = removeAndStep(here);
}

function find(from, wanted) {
  for (let node = from; node; node = node.nextSibling) if (alike(node, wanted)) return node;
  return null;
}

function removeAndStep(node) {
  const next = node.nextSibling;
  node.remove();
  return next;
}

/** A word that is being typed is the technician's; the pad's own line is ours. */
function patchValue(old, fresh) {
  if (!("value" in fresh) || fresh.nodeName === "LI" || fresh.nodeName === "BUTTON") return;
  const typing = old === document.activeElement && !old.hasAttribute("data-ours");
  if (!typing && old.value !== fresh.value) old.value = fresh.value;
  if ("checked" in fresh) old.checked = fresh.checked;
}
