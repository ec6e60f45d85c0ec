import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import { useParams } from 'react-router';
import { queries } from '../../lib/api/queries.ts';
import { useMe } from '../../lib/api/use-me.ts';
import { keepLastPlace } from '../../lib/last-place.ts';
import { paths } from '../../lib/paths.ts';
import { AccountLine } from '../../ui/account-line.tsx';
import { WordLink } from '../../ui/buttons.tsx';
import { Cloth } from '../../ui/cloth.tsx';
import { Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import styles from './course.module.css';
import { RenameCourse } from './rename-course.tsx';
import { StudentCourse } from './student-course.tsx';
import { TeacherCourse } from './teacher-course.tsx';

/** A course: its workshop for those who teach it, its lessons for those who learn. */
export function CourseScreen() {
  const { courseId = '' } = useParams();
  const me = useMe();
  const { data: course } = useQuery(queries.course(courseId));
  const title = course?.title;
  useEffect(() => {
    if (title !== undefined) keepLastPlace(me.id, { path: paths.course(courseId), title });
  }, [me.id, courseId, title]);
  if (course === undefined) {
    return (
      <PageFrame title="A course">
        <Wait>Fetching the course…</Wait>
      </PageFrame>
    );
  }
  return (
    <PageFrame title={course.title} place={<WordLink to={paths.shelf}>Your shelf</WordLink>} end={<AccountLine />}>
      <header className={styles.title}>
        <Cloth of={course.id} className={styles.swatch} />
        <div>
          <h1>{course.title}</h1>
          {course.summary === '' ? null : <p className={styles.summary}>{course.summary}</p>}
          {course.role === 'student' ? null : <RenameCourse course={course} />}
        </div>
      </header>
      {course.role === 'student' ? <StudentCourse course={course} /> : <TeacherCourse course={course} />}
    </PageFrame>
  );
}
