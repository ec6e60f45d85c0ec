import type { z } from 'zod';
import {
  attempt,
  attemptDraft,
  attemptsOfRelease,
  lessonDetail,
  releaseDetail,
  type LessonStep,
} from '../../../contract/index.ts';
import { request, requestDone, requestVersioned } from './request.ts';

export type LessonDetail = z.output<typeof lessonDetail>;
export type Attempt = z.output<typeof attempt>;
export type AttemptDraft = z.output<typeof attemptDraft>;

/** What a teacher writes of a lesson. */
export interface LessonText {
  readonly title: string;
  readonly steps: readonly LessonStep[];
}

const at = (lessonId: string) => `/api/lessons/${lessonId}`;

export const fetchLesson = (lessonId: string) => requestVersioned(lessonDetail, at(lessonId));
/** Keeps a lesson's text if it is still at `etag`. **Errors** `changed-meanwhile`. */
export const saveLesson = (lessonId: string, text: LessonText, etag: string) =>
  requestVersioned(lessonDetail, at(lessonId), { method: 'PATCH', body: text, ifMatch: etag });
/** Takes a lesson away, and its releases with it; what students did is kept. */
export const removeLesson = (lessonId: string) => requestDone(at(lessonId), { method: 'DELETE' });
export const releaseLesson = (lessonId: string) =>
  request(releaseDetail, `${at(lessonId)}/releases`, { method: 'POST', body: {} });
export const fetchRelease = (releaseId: string) => request(releaseDetail, `/api/releases/${releaseId}`);
export const fetchAttempts = (releaseId: string) => request(attemptsOfRelease, `/api/releases/${releaseId}/attempts`);
export const addAttempt = (releaseId: string, draft: AttemptDraft) =>
  request(attempt, `/api/releases/${releaseId}/attempts`, { method: 'POST', body: draft });
