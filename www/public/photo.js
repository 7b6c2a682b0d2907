// Reads a photo away from the page: upright, in sRGB, no longer than is asked for. What is no photo is answered by nothing.

async function read(file, longest) {
  const photo = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, longest / Math.max(photo.width, photo.height));
  const [wide, high] = [photo.width, photo.height].map((side) => Math.max(1, Math.round(side * scale)));
  const context = new OffscreenCanvas(wide, high).getContext("2d", { willReadFrequently: true });
  context.imageSmoothingQuality = "high";
  context.drawImage(photo, 0, 0, wide, high);
  const taken = photo.width * photo.height;
  photo.close();
  return [wide, high, taken, context.getImageData(0, 0, wide, high).data.buffer];
}

self.onmessage = async ({ data: [file, longest] }) => {
  try {
    const answer = await read(file, longest);
    self.postMessage(answer, [answer[3]]);
  } catch {
    self.postMessage([]);
  }
};
