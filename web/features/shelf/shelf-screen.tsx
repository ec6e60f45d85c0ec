import { useQuery } from '@tanstack/react-query';
import { queries } from '../../lib/api/queries.ts';
import { useMe } from '../../lib/api/use-me.ts';
import { lastPlaceOf } from '../../lib/last-place.ts';
import { AccountLine } from '../../ui/account-line.tsx';
import { WordLink } from '../../ui/buttons.tsx';
import { Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { ThemeSwitch } from '../../ui/theme-switch.tsx';
import { CourseBolt } from './course-bolt.tsx';
import { EmptySlot } from './empty-slot.tsx';
import { NextThings } from './next-things.tsx';
import { PasswordSlip } from './password-slip.tsx';
import { shelfSentence } from './shelf-words.ts';
import styles from './shelf.module.css';

/** My courses, where I was last, and the next thing to do. */
export function ShelfScreen() {
  const me = useMe();
  const { data: shelf } = useQuery(queries.shelf());
  const last = lastPlaceOf(me.id);
  return (
    <PageFrame title="Heddle" end={<AccountLine />}>
      <h1 className={styles.greeting}>Hello, {me.name}</h1>
      {shelf === undefined ? (
        <Wait>Fetching your courses…</Wait>
      ) : (
        <>
          <p className={styles.sentence}>{shelfSentence(shelf.courses)}</p>
          {last === null ? null : (
            <p className={styles.last}>
              Last time you were at <WordLink to={last.path}>{last.title}</WordLink>
            </p>
          )}
          <ul className={styles.shelf}>
            {shelf.courses.map((course, index) => (
              <CourseBolt key={course.id} course={course} isFirst={index === 0} />
            ))}
            <EmptySlot hasCourses={shelf.courses.some((course) => course.role !== 'student')} />
          </ul>
          <NextThings courses={shelf.courses} />
          <footer className={styles.footer}>
            {me.hasPassword ? null : <PasswordSlip />}
            <ThemeSwitch />
          </footer>
        </>
      )}
    </PageFrame>
  );
}
