import { lazy, Suspense } from 'react';

const MarkdownText = lazy(async () => ({ default: (await import('./markdown-text.tsx')).MarkdownText }));

interface ProseProps {
  readonly text: string;
}

/** Text that a person wrote, its Markdown shown; HTML in it is left out. */
export const Prose = ({ text }: ProseProps) => (
  <Suspense fallback={<p>{text.slice(0, 200)}</p>}>
    <MarkdownText text={text} />
  </Suspense>
);
