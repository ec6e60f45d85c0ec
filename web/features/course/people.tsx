import { useQuery } from '@tanstack/react-query';
import type { CourseDetail } from '../../lib/api/courses.ts';
import { queries } from '../../lib/api/queries.ts';
import { Wait } from '../../ui/notice.tsx';
import styles from './course.module.css';
import { EndMembership, Withdraw } from './end-membership.tsx';
import { EnrolmentCode } from './enrolment-code.tsx';
import { Invite } from './invite.tsx';

interface PeopleProps {
  readonly course: CourseDetail;
}

const roleWords = { owner: 'owner', coTeacher: 'teacher', student: 'student' } as const;
const day = (instant: string): string =>
  new Date(instant).toLocaleDateString('en-GB', { day: 'numeric', month: 'long' });

/** Who is in a course, who is invited, and how others get in. */
export function People({ course }: PeopleProps) {
  const { data: people } = useQuery(queries.people(course.id));
  return (
    <section aria-labelledby="people" className={styles.people}>
      <h2 id="people">People</h2>
      {people === undefined ? (
        <Wait>Fetching who is here…</Wait>
      ) : (
        <ul className={styles.names}>
          {people.members.map((member) => (
            <li key={member.personId}>
              <span>
                {member.name} <span className={styles.quiet}>{roleWords[member.role]}</span>
              </span>
              <EndMembership course={course} member={member} />
            </li>
          ))}
          {people.openInvitations.map((invitation) => (
            <li key={invitation.id}>
              <span>
                {invitation.email} <span className={styles.quiet}>invited, until {day(invitation.expiresAt)}</span>
              </span>
              {course.role === 'owner' ? <Withdraw courseId={course.id} invitation={invitation} /> : null}
            </li>
          ))}
        </ul>
      )}
      {course.role === 'owner' ? (
        <Invite courseId={course.id} openIds={people?.openInvitations.map(({ id }) => id) ?? []} />
      ) : null}
      <EnrolmentCode courseId={course.id} />
    </section>
  );
}
