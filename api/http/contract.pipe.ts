import { Injectable, StandardSchemaValidationPipe, type ArgumentMetadata } from '@nestjs/common';
import { DomainError, notFound } from '../errors/domain-error.ts';
import { isStorable } from './storable.ts';

type Issues = Parameters<
  NonNullable<NonNullable<ConstructorParameters<typeof StandardSchemaValidationPipe>[0]>['exceptionFactory']>
>[0];

const MOST_ISSUES_TOLD = 20;
const pathOf = (issue: Issues[number]): string =>
  (issue.path ?? []).map((segment) => String(typeof segment === 'object' ? segment.key : segment)).join('.');

const bodyInvalid = (issues: Issues): DomainError => {
  const told = issues.slice(0, MOST_ISSUES_TOLD).map((issue) => ({ path: pathOf(issue), detail: issue.message }));
  const first = told[0];
  const where = first === undefined || first.path === '' ? '' : ` at ${first.path}`;
  return new DomainError(
    'body-invalid',
    `The request is not in the right form${where}: ${first?.detail ?? 'unknown'}.`,
    told,
  );
};

const UNSTORABLE_TEXT = 'A text holds a null character or half of a character, and cannot be kept.';

/** Holds every body, query and path to its contract schema; an impossible path is simply not there. */
@Injectable()
export class ContractPipe extends StandardSchemaValidationPipe {
  constructor() {
    super({ exceptionFactory: bodyInvalid });
  }

  override async transform<Value>(value: Value, metadata: ArgumentMetadata): Promise<Value> {
    if (metadata.type === 'body' || metadata.type === 'query') {
      if (!isStorable(value)) throw new DomainError('body-invalid', UNSTORABLE_TEXT);
      return super.transform(value, metadata);
    }
    if (metadata.type !== 'param') return super.transform(value, metadata);
    try {
      return await super.transform(value, metadata);
    } catch {
      throw notFound('address');
    }
  }
}
