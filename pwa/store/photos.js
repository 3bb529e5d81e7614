/** Photos: turned upright, made smaller, written anew (which leaves out place and camera data). */

const LONGEST_SIDE = 1600;
const JPEG_QUALITY = 0.8;

function scaled(width, height) {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(width, height));
  return [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
}

async function redrawn(blob) {
  const picture = await createImageBitmap(blob, { imageOrientation: "from-image" });
  const [width, height] = scaled(picture.width, picture.height);
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext("2d").drawImage(picture, 0, 0, width, height);
  picture.close();
  return canvas.convertToBlob({ type: "image/jpeg", quality: JPEG_QUALITY });
}

/** {bytes, type} of the picture to keep. A picture that this browser cannot read is kept as it came. */
export async function smallerPhoto(blob) {
  const smaller = await redrawn(blob).catch(() => blob);
  return { bytes: await smaller.arrayBuffer(), type: smaller.type || "application/octet-stream" };
}
