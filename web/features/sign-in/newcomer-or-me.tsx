import type { Me } from '../../lib/api/people.ts';
import { NewcomerFields, type Newcomer } from './newcomer-fields.tsx';

interface NewcomerOrMeProps {
  readonly me: Me | null;
  readonly newcomer: Newcomer;
  readonly onChange: (newcomer: Newcomer) => void;
}

/** Who joins: whoever is signed in, or somebody new. */
export const NewcomerOrMe = ({ me, newcomer, onChange }: NewcomerOrMeProps) =>
  me === null ? <NewcomerFields value={newcomer} onChange={onChange} /> : <p>You join as {me.name}.</p>;
