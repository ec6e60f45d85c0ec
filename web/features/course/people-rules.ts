import type { PeopleOfCourse } from '../../lib/api/courses.ts';

type Member = PeopleOfCourse['members'][number];

/** Who looks at the list. */
export interface Onlooker {
  readonly personId: string;
  readonly role: Member['role'];
}

/** What somebody may offer to end a membership: one's own by leaving, another's by removing; null where neither. */
export function endingOf(member: Member, { personId, role }: Onlooker): 'leave' | 'remove' | null {
  if (member.role === 'owner') return null;
  if (member.personId === personId) return 'leave';
  return role === 'owner' || (role === 'coTeacher' && member.role === 'student') ? 'remove' : null;
}
