const types: Readonly<Record<string, string>> = {
  pdf: 'application/pdf',
  png: 'image/png',
  svg: 'image/svg+xml',
  musicxml: 'application/vnd.recordare.musicxml+xml',
  mxl: 'application/vnd.recordare.musicxml',
  zip: 'application/zip',
};

/** Lets the browser save bytes under a name. */
export function saveFile(name: string, bytes: Uint8Array<ArrayBuffer>): void {
  const type = types[name.slice(name.lastIndexOf('.') + 1)] ?? 'application/octet-stream';
  saveBlob(name, new Blob([bytes], { type }));
}

/** Lets the browser save a blob under a name. */
export function saveBlob(name: string, blob: Blob): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
