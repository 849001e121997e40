// The names in a zip file, from its central directory (APPNOTE 6.3, sections 4.3.12 and 4.3.16).

/**
 * The names of the files in a zip file, without folders.
 * @param {Buffer} zip
 * @returns {string[]}
 * @throws if it is not a zip file
 */
export function namesInZip(zip) {
  const end = zip.lastIndexOf(Buffer.from([0x50, 0x4b, 0x05, 0x06]));
  if (end < 0) throw new Error("This is no zip file: it has no end record.");
  const names = [];
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left--) {
    const length = zip.readUInt16LE(at + 28);
    names.push(zip.toString("utf8", at + 46, at + 46 + length));
    at += 46 + length + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return names.filter((name) => !name.endsWith("/"));
}
