/** SHA-256 as small hexadecimal letters. `crypto.subtle` exists in secure contexts alone. */

const encoder = new TextEncoder();

export async function sha256(bytes) {
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export function sha256OfText(text) {
  return sha256(encoder.encode(text));
}

/** The number of bytes of a text in UTF-8. */
export function byteLength(text) {
  return encoder.encode(text).length;
}
