import { z } from 'zod';
import { uuid } from './ids.ts';

/** The person who is signed in. */
export const me = z.object({ id: uuid, name: z.string(), email: z.email(), hasPassword: z.boolean() });
