/** The bytes of a PNG or APNG file as a URI that holds them. */
export function dataUri(png: Uint8Array): string {
  return `data:image/png;base64,${base64(png)}`;
}

export function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("base64");
}
