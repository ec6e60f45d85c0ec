import { useRouteError } from 'react-router';
import { isFailure, plainWords } from '../lib/api/problem.ts';
import { paths } from '../lib/paths.ts';
import { FilledButton, WordLink } from '../ui/buttons.tsx';
import { PageFrame } from '../ui/page-frame.tsx';
import { NotFoundPage } from './not-found-page.tsx';
import styles from './page.module.css';

/** Stands where a screen could not be shown. */
export function ErrorPage() {
  const thrown = useRouteError();
  if (isFailure(thrown, 'not-found')) return <NotFoundPage />;
  const mayNot = isFailure(thrown, 'not-permitted');
  return (
    <PageFrame title="Something went wrong" width="reading">
      <div className={styles.page} role="alert">
        <h1>{mayNot ? 'This is for the teachers of the course' : 'This page could not be shown'}</h1>
        <p>{plainWords(thrown)}</p>
        {mayNot ? null : <p>What had been saved is safe on the server. Reload the page to go on.</p>}
        {mayNot ? null : <FilledButton onPress={() => window.location.reload()}>Reload</FilledButton>}
        <WordLink to={paths.shelf} reloadDocument>
          To your shelf
        </WordLink>
      </div>
    </PageFrame>
  );
}
