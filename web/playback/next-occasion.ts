const documentOccasions = ['pointerdown', 'keydown', 'visibilitychange'] as const;

/** Does something once, at a person's next gesture, when the page comes back into view, or when a device is plugged in or out; returns how to give that up. */
export function atNextOccasion(deed: () => void): () => void {
  const ended = new AbortController();
  const { signal } = ended;
  const attempt = (): void => {
    ended.abort();
    deed();
  };
  for (const occasion of documentOccasions) document.addEventListener(occasion, attempt, { signal, capture: true });
  devicesOf(navigator)?.addEventListener('devicechange', attempt, { signal });
  return () => ended.abort();
}

/** The devices of a browser; it keeps them to itself where the page is not secure. */
export const devicesOf = (browser: { readonly mediaDevices?: MediaDevices }): MediaDevices | undefined =>
  browser.mediaDevices;
