import { describe, expect, it } from 'vitest';
import { ConfigError, readConfig } from './config.ts';

const least = { DATABASE_URL: 'postgres://me@db/heddle', HEDDLE_SECRET: 'x'.repeat(32) };

describe('the configuration', () => {
  it('needs a database and a secret; everything else has a default', () => {
    expect(readConfig(least)).toMatchObject({
      port: 4710,
      host: '127.0.0.1',
      origins: ['http://localhost:4710', 'http://127.0.0.1:4710'],
      redisUrl: null,
      trustsProxy: false,
      reading: { processes: 2, limitSeconds: 20, limitMegabytes: 1024 },
      sound: { processes: 1, limitSeconds: 600, limitMegabytes: 1024 },
    });
    expect(Object.isFrozen(readConfig(least))).toBe(true);
  });

  it('takes several origins, the first for links, and passes over empty variables', () => {
    const config = readConfig({ ...least, HEDDLE_ORIGIN: 'https://a.example/, http://localhost:5173', REDIS_URL: '' });
    expect([config.origins, config.redisUrl]).toEqual([['https://a.example', 'http://localhost:5173'], null]);
  });

  it.each([
    ['DATABASE_URL', { DATABASE_URL: 'mysql://x' }],
    ['HEDDLE_SECRET', { HEDDLE_SECRET: 'short' }],
    ['PORT', { PORT: '70000' }],
    ['HEDDLE_ORIGIN', { HEDDLE_ORIGIN: 'ftp://a' }],
    ['REDIS_URL', { REDIS_URL: 'http://x' }],
    ['HEDDLE_TRUST_PROXY', { HEDDLE_TRUST_PROXY: 'perhaps' }],
  ])('names what is wrong: %s', (name, wrong) => {
    expect(() => readConfig({ ...least, ...wrong })).toThrow(ConfigError);
    expect(() => readConfig({ ...least, ...wrong })).toThrow(name);
  });
});
