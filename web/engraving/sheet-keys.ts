import type { Step } from './walk.ts';

/** The step that a key asks for on a sheet, or null. */
export function stepOfKey(event: Pick<KeyboardEvent, 'key' | 'altKey' | 'ctrlKey' | 'metaKey'>): Step | null {
  if (event.ctrlKey || event.metaKey) return null;
  switch (event.key) {
    case 'ArrowRight':
      return event.altKey ? 'nextSlice' : 'next';
    case 'ArrowLeft':
      return event.altKey ? 'previousSlice' : 'previous';
    case 'ArrowUp':
      return 'higher';
    case 'ArrowDown':
      return 'lower';
    case 'Home':
      return 'first';
    case 'End':
      return 'last';
    default:
      return null;
  }
}
