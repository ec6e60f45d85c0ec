import { Module } from '@nestjs/common';
import { PeopleModule } from '../people/people.module.ts';
import { ContentsRepository } from './contents.repository.ts';
import { CourseAccess } from './course-access.ts';
import { CoursePeopleController } from './course-people.controller.ts';
import { CoursePeopleService } from './course-people.service.ts';
import { CourseRepository } from './course.repository.ts';
import { CoursesController } from './courses.controller.ts';
import { CoursesService } from './courses.service.ts';
import { EnrolmentsService } from './enrolments.service.ts';
import { InvitationsService } from './invitations.service.ts';
import { LinkWriter } from './link-writer.ts';
import { MembershipEnded } from './membership-ended.ts';
import { MembershipRepository } from './membership.repository.ts';
import { WaysInRepository } from './ways-in.repository.ts';

@Module({
  imports: [PeopleModule],
  controllers: [CoursesController, CoursePeopleController],
  providers: [
    CoursesService,
    CoursePeopleService,
    InvitationsService,
    EnrolmentsService,
    CourseAccess,
    LinkWriter,
    MembershipEnded,
    CourseRepository,
    ContentsRepository,
    MembershipRepository,
    WaysInRepository,
  ],
  exports: [
    CoursesService,
    CoursePeopleService,
    InvitationsService,
    EnrolmentsService,
    CourseAccess,
    MembershipEnded,
    MembershipRepository,
  ],
})
export class CoursesModule {}
