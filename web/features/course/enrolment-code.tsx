import { useMutation } from '@tanstack/react-query';
import { makeEnrolmentCode } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { EdgeButton } from '../../ui/buttons.tsx';
import { CopyLine } from '../../ui/copy-line.tsx';
import { Notice } from '../../ui/notice.tsx';

interface EnrolmentCodeProps {
  readonly courseId: string;
}

/** Makes a code that lets students in. */
export function EnrolmentCode({ courseId }: EnrolmentCodeProps) {
  const making = useMutation({ mutationFn: () => makeEnrolmentCode(courseId) });
  return (
    <div>
      <EdgeButton onPress={() => making.mutate()} isDisabled={making.isPending}>
        Make a code for students
      </EdgeButton>
      {making.isError ? <Notice kind="trouble">{plainWords(making.error)}</Notice> : null}
      {making.data === undefined ? null : (
        <CopyLine label={`Students join with the code ${making.data.code}, or by this link.`} text={making.data.link} />
      )}
    </div>
  );
}
