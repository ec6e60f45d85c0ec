import { expect } from 'vitest';
import type { z } from 'zod';
import { problem, type ErrorCode, type Problem } from '../../contract/index.ts';

type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
type Headers = Readonly<Record<string, string>>;

/** An answer of the API, with what a test asks of it. */
export class Answer {
  constructor(
    readonly status: number,
    readonly headers: globalThis.Headers,
    readonly text: string,
  ) {}

  get json(): unknown {
    return this.text === '' ? undefined : (JSON.parse(this.text) as unknown);
  }

  /** Holds the status; the failure shows the body. */
  expect(status: number): this {
    expect(`${this.status} ${this.status === status ? '' : this.text}`.trim()).toBe(String(status));
    return this;
  }

  /** The body in the shape of a schema. */
  as<Schema extends z.ZodType>(schema: Schema): z.output<Schema> {
    return schema.parse(this.json);
  }

  /** The problem that the API refused with; holds status and code. */
  refused(status: number, code: ErrorCode): Problem {
    this.expect(status);
    const body = problem.parse(this.json);
    expect(this.headers.get('content-type')).toContain('application/problem+json');
    expect(body).toMatchObject({ status, code, requestId: this.headers.get('x-request-id') });
    expect(body.detail.length).toBeGreaterThan(5);
    return body;
  }
}

/** Somebody who calls the API and keeps its cookies. */
export class Caller {
  private readonly cookies = new Map<string, string>();

  constructor(readonly origin: string) {}

  get cookie(): string {
    return [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
  }

  get(path: string, headers: Headers = {}): Promise<Answer> {
    return this.send('GET', path, undefined, headers);
  }

  post(path: string, body: unknown = {}, headers: Headers = {}): Promise<Answer> {
    return this.send('POST', path, body, headers);
  }

  put(path: string, body: unknown, headers: Headers = {}): Promise<Answer> {
    return this.send('PUT', path, body, headers);
  }

  patch(path: string, body: unknown, headers: Headers = {}): Promise<Answer> {
    return this.send('PATCH', path, body, headers);
  }

  delete(path: string): Promise<Answer> {
    return this.send('DELETE', path, undefined, {});
  }

  /** Sends a file as a form's only field. */
  async upload(path: string, fileName: string, bytes: Uint8Array): Promise<Answer> {
    const form = new FormData();
    form.append('file', new Blob([new Uint8Array(bytes)]), fileName);
    return this.read(await fetch(this.origin + path, { method: 'POST', body: form, headers: { cookie: this.cookie } }));
  }

  async send(method: Method, path: string, body: unknown, headers: Headers): Promise<Answer> {
    const isRaw = body instanceof Uint8Array || typeof body === 'string';
    const sent = body === undefined ? {} : { body: isRaw ? (body as BodyInit) : JSON.stringify(body) };
    const type: Headers = body === undefined ? {} : { 'content-type': 'application/json' };
    const all = { ...type, cookie: this.cookie, ...headers };
    return this.read(await fetch(this.origin + path, { method, ...sent, headers: all, redirect: 'manual' }));
  }

  private async read(response: Response): Promise<Answer> {
    for (const cookie of response.headers.getSetCookie()) this.keep(cookie);
    return new Answer(response.status, response.headers, await response.text());
  }

  private keep(cookie: string): void {
    const [pair = ''] = cookie.split(';');
    const at = pair.indexOf('=');
    if (/max-age=0/i.test(cookie)) this.cookies.delete(pair.slice(0, at));
    else this.cookies.set(pair.slice(0, at), pair.slice(at + 1));
  }
}
