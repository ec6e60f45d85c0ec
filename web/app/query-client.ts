import { QueryClient } from '@tanstack/react-query';
import { RequestFailed } from '../lib/api/problem.ts';

/** Asks again only where the server was out of reach; a refusal stays a refusal. */
const asksAgain = (failureCount: number, thrown: Error): boolean =>
  thrown instanceof RequestFailed && thrown.code === 'offline' && failureCount < 3;

/** The cache of what the server said, one for the whole page. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: { retry: asksAgain, staleTime: 5_000, throwOnError: true },
    mutations: { retry: false },
  },
});
