import type { CourseOnShelf } from '../../lib/api/courses.ts';
import type { Dye } from '../../../music/index.ts';
import { dyePaint } from '../../ui/dye.ts';
import { Eye } from '../../ui/eye.tsx';
import styles from './shelf.module.css';

interface NextThing {
  readonly dye: Dye;
  readonly title: string;
  readonly text: string;
}

const forTeachers: readonly NextThing[] = [
  { dye: 'indigo', title: 'Hear a bass by itself', text: 'At a song’s splitting table, lift B and press play.' },
  {
    dye: 'verdigris',
    title: 'Drop in a transcription',
    text: 'MusicXML from any notation program; tablature is welcome.',
  },
  { dye: 'madder', title: 'Put one note right', text: 'Bars that are like it can change along, in one step.' },
];

const forStudents: readonly NextThing[] = [
  { dye: 'indigo', title: 'Hear one line', text: 'Open a lesson and start with the lowest line alone.' },
  { dye: 'verdigris', title: 'Sing what you heard', text: 'A line that you can sing is a line that you can hear.' },
  { dye: 'madder', title: 'Hear them together', text: 'Then listen for it while all the others play.' },
];

interface NextThingsProps {
  readonly courses: readonly CourseOnShelf[];
}

/** Three things to try, on one thread. */
export function NextThings({ courses }: NextThingsProps) {
  const things = courses.length > 0 && courses.every((course) => course.role === 'student') ? forStudents : forTeachers;
  return (
    <section aria-labelledby="next-things" className={styles.nextThings}>
      <h2 id="next-things">A good way in</h2>
      <ol className={styles.next}>
        {things.map((thing, index) => (
          <li key={thing.title}>
            <Eye line={{ letter: String(index + 1), dye: thing.dye }} size={34} />
            <svg className={styles.thread} viewBox="0 0 300 34" preserveAspectRatio="none" aria-hidden="true">
              <path
                d="M0 17C60 10 120 24 180 19S270 15 300 17"
                fill="none"
                stroke={dyePaint[thing.dye].colour}
                strokeWidth="2.6"
                strokeDasharray={dyePaint[thing.dye].stitch}
                vectorEffect="non-scaling-stroke"
              />
            </svg>
            <h3>{thing.title}</h3>
            <p>{thing.text}</p>
          </li>
        ))}
      </ol>
    </section>
  );
}
