import { z } from 'zod';

/** Every reason for which the API or the socket refuses; one code, one status. */
export const errorStatus = {
  'body-invalid': 400,
  'file-refused': 422,
  'not-signed-in': 401,
  'not-permitted': 403,
  'not-found': 404,
  'already-there': 409,
  'operation-differs': 409,
  'operation-unknown-note': 422,
  'operation-unknown-line': 422,
  'code-expired': 410,
  'changed-meanwhile': 412,
  'precondition-missing': 428,
  'too-large': 413,
  'too-many-requests': 429,
  'nothing-to-split': 409,
  'reading-timed-out': 422,
  'origin-refused': 403,
  unavailable: 503,
  internal: 500,
} as const;

export type ErrorCode = keyof typeof errorStatus;

const codes = Object.keys(errorStatus) as [ErrorCode, ...ErrorCode[]];
export const errorCode = z.enum(codes);

/** An RFC 9457 problem body. */
export const problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  code: errorCode,
  detail: z.string(),
  issues: z.array(z.unknown()).optional(),
  requestId: z.string(),
});
export type Problem = z.output<typeof problem>;
