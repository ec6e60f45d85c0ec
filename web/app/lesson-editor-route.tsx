import { LessonReader } from '../features/lesson/lesson-reader.tsx';
import { LessonEditorScreen } from '../features/lesson-editor/lesson-editor-screen.tsx';

/** The lesson editor, with the student's lesson as its preview. */
export const LessonEditorRoute = () => (
  <LessonEditorScreen preview={(content) => <LessonReader content={content} practice={null} ownMixes={null} />} />
);
