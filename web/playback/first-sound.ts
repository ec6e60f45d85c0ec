let hasSounded = false;

/** Whether nothing has sounded on this page so far; whoever asks is about to sound. */
export function isFirstSound(): boolean {
  const isFirst = !hasSounded;
  hasSounded = true;
  return isFirst;
}
