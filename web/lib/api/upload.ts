import type { z } from 'zod';
import { failureOf, offlineFailure } from './problem.ts';
import { readAs } from './request.ts';

/** How much of a file has gone out. **Units** bytes. */
export interface UploadProgress {
  readonly sentBytes: number;
  readonly totalBytes: number;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined; // told as unreadable by whoever asked for a shape
  }
}

/** Sends one file as a form field named `file`; tells on the way how much has gone out. */
export function upload<Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  file: File,
  onProgress: (progress: UploadProgress) => void,
): Promise<z.output<Schema>> {
  return new Promise((resolve, reject) => {
    const sending = new XMLHttpRequest();
    sending.open('POST', path);
    sending.setRequestHeader('accept', 'application/json');
    sending.upload.addEventListener('progress', (event) =>
      onProgress({ sentBytes: event.loaded, totalBytes: event.total }),
    );
    sending.addEventListener('error', () => reject(offlineFailure()));
    sending.addEventListener('load', () => {
      const body = parsed(sending.responseText);
      if (sending.status >= 200 && sending.status < 300)
        resolve(Promise.resolve(body).then((told) => readAs(schema, told)));
      else reject(failureOf(sending.status, body));
    });
    const form = new FormData();
    form.append('file', file);
    sending.send(form);
  });
}
