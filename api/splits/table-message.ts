import { clientMessage, uuid, type ClientMessage, type ServerMessage } from '../../contract/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import { problemOf } from '../errors/problem-of.ts';
import { isStorable } from '../http/storable.ts';

const textAt = (value: unknown, key: string): string | null => {
  const inner = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : undefined;
  return typeof inner === 'string' ? inner : null;
};

/** The message of a client. **Errors** `body-invalid`. */
export function readMessage(body: unknown): ClientMessage {
  if (!isStorable(body)) throw new DomainError('body-invalid', 'A text of the message holds what cannot be kept.');
  const parsed = clientMessage.safeParse(body);
  if (parsed.success) return parsed.data;
  const first = parsed.error.issues[0];
  const where = first === undefined ? '' : ` at ${first.path.join('.')}`;
  throw new DomainError('body-invalid', `The message is not in the right form${where}.`);
}

/** The refusal of a message, naming its song and operation where it says them. */
export function refusalOf(body: unknown, error: unknown, requestId: string): ServerMessage {
  const { code, detail } = problemOf(error, requestId);
  const submission = typeof body === 'object' && body !== null && 'submission' in body ? body.submission : null;
  const song = uuid.safeParse(textAt(body, 'songId'));
  return {
    type: 'refused',
    songId: song.success ? song.data : null,
    operationId: textAt(submission, 'id'),
    code,
    detail,
  };
}
