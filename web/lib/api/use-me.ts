import { useQuery } from '@tanstack/react-query';
import type { Me } from './people.ts';
import { queries } from './queries.ts';

/** The person who is signed in, on a screen that only the signed-in reach. */
export function useMe(): Me {
  const { data } = useQuery(queries.me());
  if (data === undefined || data === null) throw new Error('Heddle bug: this screen is for the signed-in');
  return data;
}
