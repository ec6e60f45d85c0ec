/** The address of every screen; nothing else writes one. */
export const paths = {
  shelf: '/',
  signIn: '/sign-in',
  signInByLink: (token: string) => `/sign-in/${token}`,
  invitation: (token: string) => `/invitations/${token}`,
  enrolment: (code: string) => `/enrol/${code}`,
  course: (courseId: string) => `/courses/${courseId}`,
  progress: (courseId: string) => `/courses/${courseId}/progress`,
  song: (songId: string) => `/songs/${songId}`,
  table: (songId: string) => `/songs/${songId}/table`,
  lessonEditor: (lessonId: string) => `/lessons/${lessonId}`,
  lesson: (releaseId: string) => `/released/${releaseId}`,
} as const;

/** The same addresses as patterns for the router. */
export const patterns = {
  signIn: '/sign-in',
  signInByLink: '/sign-in/:token',
  invitation: '/invitations/:token',
  enrolment: '/enrol/:code',
  course: '/courses/:courseId',
  progress: '/courses/:courseId/progress',
  song: '/songs/:songId',
  table: '/songs/:songId/table',
  lessonEditor: '/lessons/:lessonId',
  lesson: '/released/:releaseId',
} as const;
