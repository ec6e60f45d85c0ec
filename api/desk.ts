import type { INestApplicationContext } from '@nestjs/common';
import { CoursesService } from './courses/courses.service.ts';
import { EnrolmentsService } from './courses/enrolments.service.ts';
import { InvitationsService } from './courses/invitations.service.ts';
import { LessonsService } from './lessons/lessons.service.ts';
import { ReleasesService } from './lessons/releases.service.ts';
import { PeopleService } from './people/people.service.ts';
import type { Person } from './people/person.ts';
import { PracticeService } from './practice/practice.service.ts';
import { ScoresService } from './scores/scores.service.ts';
import { SongsService } from './scores/songs.service.ts';
import { ProposalsService } from './splits/proposals.service.ts';
import { SplitsService } from './splits/splits.service.ts';

/** The services behind the routes, for work that comes without HTTP: the demo, commands, tests. Every rule of the routes holds here too. */
export interface Desk {
  readonly people: PeopleService;
  readonly courses: CoursesService;
  readonly songs: SongsService;
  readonly scores: ScoresService;
  readonly splits: SplitsService;
  readonly proposals: ProposalsService;
  readonly lessons: LessonsService;
  readonly releases: ReleasesService;
  readonly practice: PracticeService;
  /** The person with this address, made where there is none; without a password, so that only links let in. */
  readonly personNamed: (name: string, email: string) => Promise<Person>;
  /** Makes a person a co-teacher, by an invitation that the owner gives and the person takes up. */
  readonly admitCoTeacher: (owner: Person, courseId: string, person: Person) => Promise<void>;
  /** Makes a person a student, by a code that a teacher gives and the person uses. */
  readonly admitStudent: (teacher: Person, courseId: string, person: Person) => Promise<void>;
}

/** The desk of a running app. */
export function deskOf(app: INestApplicationContext): Desk {
  const people = app.get(PeopleService);
  const invitations = app.get(InvitationsService);
  const enrolments = app.get(EnrolmentsService);
  return {
    people,
    courses: app.get(CoursesService),
    songs: app.get(SongsService),
    scores: app.get(ScoresService),
    splits: app.get(SplitsService),
    proposals: app.get(ProposalsService),
    lessons: app.get(LessonsService),
    releases: app.get(ReleasesService),
    practice: app.get(PracticeService),
    personNamed: async (name, email) =>
      (await people.withEmail(email)) ?? (await people.makePerson({ name, email, password: null, isVerified: true })),
    admitCoTeacher: async (owner, courseId, person) => {
      const { link } = await invitations.invite(owner, courseId, { email: person.email });
      await invitations.accept(person, link.slice(link.lastIndexOf('/') + 1), {}, new Headers());
    },
    admitStudent: async (teacher, courseId, person) => {
      const { code } = await enrolments.makeCode(teacher, courseId);
      await enrolments.enrol(person, { code }, new Headers());
    },
  };
}
