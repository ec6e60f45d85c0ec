import { Param } from '@nestjs/common';
import { uuid } from '../../contract/index.ts';

/** A record's id in the path; what is no UUID is not there. */
export const IdParam = (name = 'id'): ParameterDecorator => Param(name, { schema: uuid });
