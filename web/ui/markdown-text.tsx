import Markdown from 'react-markdown';
import styles from './prose.module.css';

interface MarkdownTextProps {
  readonly text: string;
}

/** Headings go down two steps, because the page has its own; pictures stay out, so that nothing is fetched from elsewhere. */
const components = { h1: 'h3', h2: 'h3', h3: 'h4', h4: 'h4', h5: 'h4', h6: 'h4' } as const;

/** Markdown as React elements; no HTML gets through. */
export const MarkdownText = ({ text }: MarkdownTextProps) => (
  <div className={styles.prose}>
    <Markdown skipHtml disallowedElements={['img']} unwrapDisallowed components={components}>
      {text}
    </Markdown>
  </div>
);
