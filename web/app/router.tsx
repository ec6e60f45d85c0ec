import { createBrowserRouter, Outlet, type RouteObject } from 'react-router';
import { patterns, paths } from '../lib/paths.ts';
import { Wait } from '../ui/notice.tsx';
import { PageFrame } from '../ui/page-frame.tsx';
import { ErrorPage } from './error-page.tsx';
import { NotFoundPage } from './not-found-page.tsx';
import { SignedInGate } from './signed-in-gate.tsx';

const Fetching = () => (
  <PageFrame title="Heddle">
    <Wait>Fetching the page…</Wait>
  </PageFrame>
);

const openRoutes: RouteObject[] = [
  {
    path: patterns.signIn,
    lazy: { Component: async () => (await import('../features/sign-in/sign-in-screen.tsx')).SignInScreen },
  },
  {
    path: patterns.signInByLink,
    lazy: { Component: async () => (await import('../features/sign-in/link-screen.tsx')).LinkScreen },
  },
  {
    path: patterns.invitation,
    lazy: { Component: async () => (await import('../features/sign-in/invitation-screen.tsx')).InvitationScreen },
  },
  {
    path: patterns.enrolment,
    lazy: { Component: async () => (await import('../features/sign-in/enrolment-screen.tsx')).EnrolmentScreen },
  },
];

const signedInRoutes: RouteObject[] = [
  {
    path: paths.shelf,
    lazy: { Component: async () => (await import('../features/shelf/shelf-screen.tsx')).ShelfScreen },
  },
  {
    path: patterns.course,
    lazy: { Component: async () => (await import('../features/course/course-screen.tsx')).CourseScreen },
  },
  {
    path: patterns.progress,
    lazy: { Component: async () => (await import('../features/progress/progress-screen.tsx')).ProgressScreen },
  },
  {
    path: patterns.song,
    lazy: { Component: async () => (await import('./song-route.tsx')).SongRoute },
  },
  {
    path: patterns.table,
    lazy: { Component: async () => (await import('./table-route.tsx')).TableRoute },
  },
  {
    path: patterns.lessonEditor,
    lazy: { Component: async () => (await import('./lesson-editor-route.tsx')).LessonEditorRoute },
  },
  {
    path: patterns.lesson,
    lazy: { Component: async () => (await import('../features/lesson/lesson-screen.tsx')).LessonScreen },
  },
];

/** Every screen, each fetched when it is first opened. */
export const router = createBrowserRouter([
  {
    element: <Outlet />,
    errorElement: <ErrorPage />,
    hydrateFallbackElement: <Fetching />,
    children: [
      ...openRoutes,
      { element: <SignedInGate />, children: signedInRoutes },
      { path: '*', element: <NotFoundPage /> },
    ],
  },
]);
