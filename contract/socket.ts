import { z } from 'zod';
import { submissionSchema } from '../music/index.ts';
import { errorCode } from './errors.ts';
import { uuid } from './ids.ts';
import { orderedOperation, splitSnapshot } from './split.ts';

/** Raised when a message changes its meaning; a server refuses another one. */
export const PROTOCOL_VERSION = 1;

/** What one person shows to the others at the same table; memory only. */
export const presence = z.object({
  bar: z.string().max(64).nullable(),
  selection: z.array(z.string().max(64)).max(500),
});

/** What a client may send. The first message is always `join`. */
export const clientMessage = z.discriminatedUnion('type', [
  z.object({ type: z.literal('join'), protocol: z.int(), songId: uuid, knownRevision: z.int().nullable() }),
  z.object({ type: z.literal('submit'), songId: uuid, submission: submissionSchema }),
  z.object({ type: z.literal('presence'), songId: uuid, presence }),
  z.object({ type: z.literal('leave'), songId: uuid }),
]);
export type ClientMessage = z.output<typeof clientMessage>;

const peer = z.object({ connectionId: z.string(), personId: uuid, name: z.string(), presence });

/** What the server sends. */
export const serverMessage = z.discriminatedUnion('type', [
  z.object({ type: z.literal('snapshot'), songId: uuid, snapshot: splitSnapshot, peers: z.array(peer) }),
  z.object({ type: z.literal('catchUp'), songId: uuid, operations: z.array(orderedOperation), peers: z.array(peer) }),
  z.object({ type: z.literal('ordered'), songId: uuid, operation: orderedOperation }),
  z.object({
    type: z.literal('refused'),
    songId: uuid.nullable(),
    operationId: z.string().nullable(),
    code: errorCode,
    detail: z.string(),
  }),
  z.object({ type: z.literal('peers'), songId: uuid, peers: z.array(peer) }),
]);
export type ServerMessage = z.output<typeof serverMessage>;
