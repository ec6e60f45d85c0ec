import { useQueryClient } from '@tanstack/react-query';
import { changeCourse, type CourseDetail } from '../../lib/api/courses.ts';
import { queries } from '../../lib/api/queries.ts';
import { Renaming } from '../../ui/renaming.tsx';

interface RenameCourseProps {
  readonly course: CourseDetail;
}

/** Changes a course's name and what it says about itself. */
export function RenameCourse({ course }: RenameCourseProps) {
  const cache = useQueryClient();
  return (
    <Renaming
      word="Name and summary"
      known={{ title: course.title, second: course.summary }}
      second={{ label: 'What it is about', hint: 'One sentence for the people in it.', maxLength: 500, rows: 3 }}
      keep={async ({ title, second }) => {
        await changeCourse(course.id, { title, summary: second });
        await Promise.all([
          cache.invalidateQueries({ queryKey: queries.course(course.id).queryKey }),
          cache.invalidateQueries({ queryKey: queries.shelf().queryKey }),
        ]);
      }}
    />
  );
}
