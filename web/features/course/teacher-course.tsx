import type { CourseDetail } from '../../lib/api/courses.ts';
import { paths } from '../../lib/paths.ts';
import { WordLink } from '../../ui/buttons.tsx';
import styles from './course.module.css';
import { LessonList } from './lesson-list.tsx';
import { People } from './people.tsx';
import { SongList } from './song-list.tsx';

interface TeacherCourseProps {
  readonly course: CourseDetail;
}

/** The workshop of a course: songs, lessons in order, people. */
export const TeacherCourse = ({ course }: TeacherCourseProps) => (
  <div className={styles.workshop}>
    <div className={styles.work}>
      <SongList course={course} />
      <LessonList course={course} />
    </div>
    <aside className={styles.aside}>
      <People course={course} />
      <p>
        <WordLink to={paths.progress(course.id)}>Who has heard and sung what</WordLink>
      </p>
    </aside>
  </div>
);
