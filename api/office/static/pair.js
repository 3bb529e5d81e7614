/** The code stands behind the # of the address that the camera read, which no server and no log sees. */
const code = decodeURIComponent(location.hash.slice(1));
const field = document.querySelector("input[name=code]");
if (code && !field.value) field.value = code;
history.replaceState(null, "", location.pathname);
