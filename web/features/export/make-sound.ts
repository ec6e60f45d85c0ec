import type { SoundAnswer, SoundRequest } from './sound-worker.ts';
import workerUrl from './sound-worker.ts?worker&url';

/** A making of sound files under way. */
export interface SoundMaking {
  /** The file. **Errors** rejects with a sentence where none can be made. */
  readonly made: Promise<Extract<SoundAnswer, { readonly type: 'made' }>>;
  /** Stops at once; `made` is never kept then. */
  readonly cancel: () => void;
}

/** Makes sound files away from the page. `onShare` is told how much is done, 0 to 1. */
export function makeSound(request: SoundRequest, onShare: (share: number) => void): SoundMaking {
  const worker = new Worker(workerUrl, { type: 'module', name: 'heddle-sound-files' });
  const made = new Promise<Extract<SoundAnswer, { readonly type: 'made' }>>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<SoundAnswer>) => {
      if (data.type === 'share') {
        onShare(data.share);
        return;
      }
      worker.terminate();
      if (data.type === 'made') resolve(data);
      else if (data.type === 'nothing') reject(new Error('There is nothing to play in these bars.'));
      else reject(new Error(data.why));
    };
    worker.onerror = (event) => {
      worker.terminate();
      reject(new Error(event.message === '' ? 'The browser could not begin the work.' : event.message));
    };
    worker.postMessage(request);
  });
  return { made, cancel: () => worker.terminate() };
}
