import { z } from 'zod';
import { uuid } from './ids.ts';

/** The person who is signed in. */
export const me = z.object({ id: uuid, name: z.string(), email: z.email(), hasPassword: z.boolean() });

/** A password that a person chooses. **Units** characters. */
export const password = z.string().min(10).max(128);
const personName = z.string().trim().min(1).max(80);

/** The one-time token of a sign-in link. */
export const signInLinkTaken = z.object({ token: z.string().min(16).max(128) });
/** A person sets a password; `current` is needed where one is set already. */
export const passwordChange = z.object({ current: z.string().max(128).nullable().default(null), password });

/** How somebody whom an invitation lets in becomes a person here; the address is that of the invitation. */
export const invitedNewcomer = z.object({ name: personName, password });
/** How somebody whom an enrolment code lets in becomes a person here. */
export const enrolledNewcomer = invitedNewcomer.extend({ email: z.email().max(254) });
