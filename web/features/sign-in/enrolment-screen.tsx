import { useQuery } from '@tanstack/react-query';
import { useParams } from 'react-router';
import { fetchEnrolment } from '../../lib/api/people.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { WordLink } from '../../ui/buttons.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { Doorway } from './doorway.tsx';
import { EnrolmentForm } from './enrolment-form.tsx';

/** Joins a course as a student, by its code. */
export function EnrolmentScreen() {
  const { code = '' } = useParams();
  const { data: me } = useQuery(queries.me());
  const course = useQuery({
    queryKey: ['enrolment', code],
    queryFn: () => fetchEnrolment(code),
    throwOnError: false,
  });
  if (course.isError) {
    return (
      <Doorway title="This code does not open" lead="Ask your teacher for a new one.">
        <Notice kind="trouble">{plainWords(course.error)}</Notice>
      </Doorway>
    );
  }
  if (course.data === undefined || me === undefined) {
    return (
      <Doorway title="A course" lead="Looking what the code is for…">
        <Wait>One moment…</Wait>
      </Doorway>
    );
  }
  return (
    <Doorway title={course.data.courseTitle} lead="Join this course to hear and sing its lines.">
      <EnrolmentForm code={code} me={me} />
      {me === null ? (
        <p>
          Been here before?{' '}
          <WordLink to={paths.signIn} state={{ back: paths.enrolment(code) }}>
            Sign in first
          </WordLink>
        </p>
      ) : null}
    </Doorway>
  );
}
