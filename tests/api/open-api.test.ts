import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { errorStatus } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';

let api: TestApp;
let served: ApiDocument;
beforeAll(async () => {
  api = await startApp();
  served = (await api.stranger().get('/api/openapi.json')).expect(200).json as ApiDocument;
});
afterAll(() => api.stop());

interface Operation {
  readonly summary?: string;
  readonly requestBody?: unknown;
  readonly responses: Readonly<Record<string, { description: string; content?: unknown }>>;
}
interface ApiDocument {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

const operations = (): [string, Operation][] =>
  Object.entries(served.paths).flatMap(([path, item]) =>
    Object.entries(item).map(([method, operation]): [string, Operation] => [`${method} ${path}`, operation]),
  );

describe('the OpenAPI document', () => {
  it('is OpenAPI 3.1 and the same as the one kept in the repository; vitest --update writes it anew', async () => {
    expect(served.openapi).toMatch(/^3\.1\./);
    await expect(`${JSON.stringify(served, null, 2)}\n`).toMatchFileSnapshot('../../api/openapi.json');
  });

  it('says what every route is for and what it answers, in schemas of the contract', () => {
    expect(operations().length).toBeGreaterThan(30);
    for (const [name, operation] of operations()) {
      expect([name, operation.summary ?? '']).toEqual([name, expect.stringMatching(/.{6,}/)]);
      const success = Object.entries(operation.responses).filter(([status]) => status.startsWith('2'));
      expect([name, success.length]).toEqual([name, 1]);
      const [[status, answer] = ['', undefined]] = success;
      const isFile = /\/(score|export)|\/file$/.test(name);
      if (status !== '204' && !isFile)
        expect([name, JSON.stringify(answer?.content)]).toEqual([name, expect.stringMatching(/\$ref|"type"/)]);
      if (name.startsWith('patch') || name.startsWith('put'))
        expect([name, operation.requestBody]).toEqual([name, expect.anything()]);
    }
  });

  it('names only refusals that the contract knows, under their own status', () => {
    for (const [name, { responses }] of operations()) {
      for (const [status, { description }] of Object.entries(responses).filter(([code]) => Number(code) >= 400)) {
        for (const code of description.split(', '))
          expect([name, code, errorStatus[code as keyof typeof errorStatus]]).toEqual([name, code, Number(status)]);
      }
    }
  });
});
