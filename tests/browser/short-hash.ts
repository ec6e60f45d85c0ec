/** The first 16 digits of the SHA-256 of some bytes, one part after the other, by the browser itself. */
export async function shortHash(parts: readonly Uint8Array<ArrayBuffer>[]): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await new Blob([...parts]).arrayBuffer());
  return [...new Uint8Array(digest).subarray(0, 8)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
