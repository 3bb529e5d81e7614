/** The place in the app stands in the address, so that it outlives the page. */

/** '#/job/<id>/road/<run>' as its names. */
export function route() {
  return location.hash.replace(/^#\/?/, "").split("/").filter(Boolean).map(decodeURIComponent);
}

/** The address of a place: `link("job", id, "actuator")`. */
export function link(...names) {
  return `#/${names.map(encodeURIComponent).join("/")}`;
}

/** Go to a place. */
export function go(...names) {
  location.hash = link(...names);
}

/** Tell `fn` whenever the place changes. */
export function onRoute(fn) {
  addEventListener("hashchange", fn);
}
