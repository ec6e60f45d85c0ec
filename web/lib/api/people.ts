import { z } from 'zod';
import {
  courseJoined,
  enrolledNewcomer,
  enrolmentTold,
  invitationTold,
  invitedNewcomer,
  me,
} from '../../../contract/index.ts';
import { isFailure } from './problem.ts';
import { request, requestDone } from './request.ts';

/** The person who is signed in. */
export type Me = z.output<typeof me>;
export type InvitedNewcomer = z.input<typeof invitedNewcomer>;
export type EnrolledNewcomer = z.input<typeof enrolledNewcomer>;

/** The person who is signed in; null for a stranger. */
export async function fetchMe(): Promise<Me | null> {
  try {
    return await request(me, '/api/me');
  } catch (thrown) {
    if (isFailure(thrown, 'not-signed-in')) return null;
    throw thrown;
  }
}

export const signIn = (email: string, password: string) =>
  requestDone('/api/auth/sign-in/email', { method: 'POST', body: { email, password } });
export const signInByLink = (token: string) =>
  requestDone('/api/sign-in-links/acceptance', { method: 'POST', body: { token } });
export const signOut = () => requestDone('/api/auth/sign-out', { method: 'POST', body: {} });

/** Sets the first password of whoever is signed in. */
export const setPassword = (password: string) =>
  requestDone('/api/me/password', { method: 'PUT', body: { current: null, password } });

/** What an invitation is for. */
export const fetchInvitation = (token: string) => request(invitationTold, `/api/invitations/${token}`);
/** Takes up an invitation to teach: as whoever is signed in, or as somebody new. */
export const acceptInvitation = (token: string, newcomer: InvitedNewcomer | null) =>
  request(courseJoined, `/api/invitations/${token}/acceptance`, {
    method: 'POST',
    body: newcomer === null ? {} : { newcomer },
  });

/** What an enrolment code is for. */
export const fetchEnrolment = (code: string) => request(enrolmentTold, `/api/enrolment-codes/${code}`);
/** Enrols whoever is signed in, or somebody new. */
export const enrol = (code: string, newcomer: EnrolledNewcomer | null) =>
  request(courseJoined, '/api/enrolments', { method: 'POST', body: newcomer === null ? { code } : { code, newcomer } });
