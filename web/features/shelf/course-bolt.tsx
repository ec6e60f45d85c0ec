import type { CourseOnShelf } from '../../lib/api/courses.ts';
import { paths } from '../../lib/paths.ts';
import { EdgeLink, FilledLink } from '../../ui/buttons.tsx';
import { Cloth } from '../../ui/cloth.tsx';
import { contentsOf } from './shelf-words.ts';
import styles from './shelf.module.css';

const roleWords = { owner: 'yours', coTeacher: 'you teach here too', student: 'you learn here' } as const;

interface CourseBoltProps {
  readonly course: CourseOnShelf;
  /** The first one carries the screen's one filled button. */
  readonly isFirst: boolean;
}

/** One course on the shelf: its cloth, its name, what it holds. */
export function CourseBolt({ course, isFirst }: CourseBoltProps) {
  const Way = isFirst ? FilledLink : EdgeLink;
  return (
    <li className={styles.place}>
      <article className={`paper ${styles.bolt ?? ''}`}>
        <Cloth of={course.id} className={styles.swatch} />
        <div className={styles.words}>
          <p className={styles.role}>{roleWords[course.role]}</p>
          <h2>{course.title}</h2>
          {course.summary === '' ? null : <p>{course.summary}</p>}
          <p className={styles.quiet}>{contentsOf(course)}</p>
          <Way to={paths.course(course.id)} aria-label={`Open ${course.title}`}>
            Open
          </Way>
        </div>
      </article>
    </li>
  );
}
