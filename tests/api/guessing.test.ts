import { expect, it } from 'vitest';
import { startApp } from '../support/app.ts';

it('slows down who guesses', async () => {
  const slow = await startApp({ environment: { HEDDLE_SIGN_INS_PER_MINUTE: '3' } });
  try {
    const tries = await Promise.all(
      [1, 2, 3, 4, 5].map(() =>
        slow.stranger().post('/api/auth/sign-in/email', { email: 'x@example.org', password: 'guess guess' }),
      ),
    );
    expect(tries.map(({ status }) => status).sort()).toEqual([401, 401, 401, 429, 429]);
    const spoofed = await slow
      .stranger()
      .post(
        '/api/auth/sign-in/email',
        { email: 'x@example.org', password: 'guess guess' },
        { 'x-forwarded-for': '10.1.2.3', 'x-heddle-client-address': '10.1.2.3' },
      );
    spoofed.refused(429, 'too-many-requests');
    const links = await Promise.all([1, 2, 3, 4].map(() => slow.stranger().get('/api/invitations/aaaaaaaaaaaaaaaa')));
    expect(links.map(({ status }) => status).sort()).toEqual([404, 404, 404, 429]);
  } finally {
    await slow.stop();
  }
});
