import { applyDecorators, HttpCode, SerializeOptions } from '@nestjs/common';
import { ApiOperation, ApiResponse } from '@nestjs/swagger';
import type { z } from 'zod';
import { errorStatus, problem, type ErrorCode } from '../../contract/index.ts';

interface Answer {
  readonly summary: string;
  readonly status?: 200 | 201 | 204;
  readonly schema?: z.ZodType;
  /** Every refusal that this route knows, beside `not-signed-in` and `internal`. */
  readonly errors?: readonly ErrorCode[];
}

const ofStatus = (errors: readonly ErrorCode[]): [number, ErrorCode[]][] => {
  const byStatus = new Map<number, ErrorCode[]>();
  for (const code of errors) byStatus.set(errorStatus[code], [...(byStatus.get(errorStatus[code]) ?? []), code]);
  return [...byStatus];
};

/** Declares what a route answers: its status, its schema (which also strips what is not in it) and its refusals. */
export function Answers({ summary, status = 200, schema, errors = [] }: Answer): MethodDecorator {
  const problems = ofStatus(errors).map(([code, names]) =>
    ApiResponse({ status: code, description: names.join(', '), standardSchema: problem }),
  );
  const success =
    schema === undefined ? { status, description: summary } : { status, description: summary, standardSchema: schema };
  const serialised = schema === undefined ? [] : [SerializeOptions({ schema })];
  return applyDecorators(HttpCode(status), ApiOperation({ summary }), ApiResponse(success), ...serialised, ...problems);
}
