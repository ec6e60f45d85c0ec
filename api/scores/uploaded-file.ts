import path from 'node:path';
import type { FastifyRequest } from 'fastify';
import { DomainError } from '../errors/domain-error.ts';
import type { UploadedFile } from './score-reader.ts';

const LONGEST_NAME = 200;

/** The file's own name: no folders, no control characters. */
function plainName(name: string | undefined): string {
  const base = path.posix.basename((name ?? '').replaceAll('\\', '/'));

  const plain = base.replace(/[\u0000-\u001f\u007f]/g, '').trim();
  return plain === '' ? 'score.musicxml' : plain.slice(-LONGEST_NAME);
}

function decoded(header: string | string[] | undefined): string | undefined {
  if (typeof header !== 'string') return undefined;
  try {
    return decodeURIComponent(header);
  } catch {
    return header;
  }
}

/** The file that a request carries: a form's one file, or the body itself with its name in `x-file-name`. **Errors** `body-invalid`. */
export async function uploadedFile(request: FastifyRequest): Promise<UploadedFile> {
  if (request.isMultipart()) {
    const part = await request.file();
    if (part === undefined) throw new DomainError('body-invalid', 'The form holds no file.');
    return { fileName: plainName(part.filename), bytes: await part.toBuffer() };
  }
  if (!Buffer.isBuffer(request.body) || request.body.byteLength === 0) {
    throw new DomainError('body-invalid', 'Send a form with one file, or the file itself as application/octet-stream.');
  }
  return { fileName: plainName(decoded(request.headers['x-file-name'])), bytes: request.body };
}
