import { paths } from '../lib/paths.ts';
import { FilledLink } from '../ui/buttons.tsx';
import { PageFrame } from '../ui/page-frame.tsx';
import styles from './page.module.css';

/** Told where nothing stands at an address, or nothing that this person may know of. */
export const NotFoundPage = () => (
  <PageFrame title="Not here" width="reading">
    <div className={styles.page}>
      <h1>There is nothing here</h1>
      <p>The address may be mistyped, or what stood here belongs to a course that you are not in.</p>
      <FilledLink to={paths.shelf}>To your shelf</FilledLink>
    </div>
  </PageFrame>
);
