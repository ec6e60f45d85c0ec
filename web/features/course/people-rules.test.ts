import { describe, expect, it } from 'vitest';
import type { CourseRole } from '../../../contract/index.ts';
import { endingOf } from './people-rules.ts';

const member = (role: CourseRole, personId: string = role) => ({
  personId,
  role,
  name: 'N',
  joinedAt: '2026-01-01T00:00:00Z',
});

describe('ending a membership', () => {
  it.each([
    ['owner', 'owner', null],
    ['owner', 'coTeacher', 'remove'],
    ['owner', 'student', 'remove'],
    ['coTeacher', 'owner', null],
    ['coTeacher', 'coTeacher', 'leave'],
    ['coTeacher', 'student', 'remove'],
  ] as const)('a member who is %s may, of a %s: %s', (role, other, ending) =>
    expect(endingOf(member(other), { personId: role, role })).toBe(ending),
  );

  it('is not a colleague’s to offer', () =>
    expect(endingOf(member('coTeacher', 'somebody else'), { personId: 'me', role: 'coTeacher' })).toBeNull());
});
