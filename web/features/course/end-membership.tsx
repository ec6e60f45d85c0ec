import { useQueryClient } from '@tanstack/react-query';
import { useNavigate } from 'react-router';
import { removeMember, withdrawInvitation, type CourseDetail, type PeopleOfCourse } from '../../lib/api/courses.ts';
import { queries } from '../../lib/api/queries.ts';
import { useMe } from '../../lib/api/use-me.ts';
import { paths } from '../../lib/paths.ts';
import { AskedDeed } from '../../ui/asked-deed.tsx';
import { endingOf } from './people-rules.ts';

interface EndMembershipProps {
  readonly course: CourseDetail;
  readonly member: PeopleOfCourse['members'][number];
}

/** Ends a membership where that is one's to end: one's own by leaving, another's by removing. */
export function EndMembership({ course, member }: EndMembershipProps) {
  const me = useMe();
  const cache = useQueryClient();
  const navigate = useNavigate();
  const ending = endingOf(member, { personId: me.id, role: course.role });
  if (ending === null) return null;
  if (ending === 'leave')
    return (
      <AskedDeed
        word="Leave"
        label={`Leave ${course.title}`}
        question={`Leave “${course.title}”?`}
        yes="Leave the course"
        deed={async () => {
          await removeMember(course.id, member.personId);
          await navigate(paths.shelf);
          await cache.invalidateQueries({ queryKey: queries.shelf().queryKey });
        }}
      >
        You see nothing of it from then on. What you wrote and marked stays in it. To teach here again you need a new
        invitation.
      </AskedDeed>
    );
  return (
    <AskedDeed
      word="Remove"
      label={`Remove ${member.name}`}
      question={`Remove ${member.name}?`}
      yes="Remove"
      deed={async () => {
        await removeMember(course.id, member.personId);
        await cache.invalidateQueries({ queryKey: queries.course(course.id).queryKey });
      }}
    >
      {member.name} sees nothing of this course from then on.{' '}
      {member.role === 'student'
        ? 'What was heard and sung is kept and counts again if this student comes back. A code that is still open lets anybody in who has it.'
        : 'An open splitting table closes at once. What this teacher wrote and marked stays.'}
    </AskedDeed>
  );
}

interface WithdrawProps {
  readonly courseId: string;
  readonly invitation: PeopleOfCourse['openInvitations'][number];
}

/** Takes an invitation back that nobody has taken up. */
export function Withdraw({ courseId, invitation }: WithdrawProps) {
  const cache = useQueryClient();
  return (
    <AskedDeed
      word="Withdraw"
      label={`Withdraw the invitation of ${invitation.email}`}
      question={`Withdraw the invitation of ${invitation.email}?`}
      yes="Withdraw it"
      deed={async () => {
        await withdrawInvitation(courseId, invitation.id);
        await cache.invalidateQueries({ queryKey: queries.people(courseId).queryKey });
      }}
    >
      Its link leads nowhere from then on. You can invite the same address again.
    </AskedDeed>
  );
}
