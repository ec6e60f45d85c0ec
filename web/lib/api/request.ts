import type { z } from 'zod';
import { failureOf, offlineFailure, RequestFailed } from './problem.ts';

interface RequestOptions {
  readonly method?: 'GET' | 'POST' | 'PATCH' | 'PUT' | 'DELETE';
  readonly body?: unknown;
  /** The version that the change was made on. */
  readonly ifMatch?: string;
  readonly signal?: AbortSignal;
}

/** A body with the version that the server names it by. */
export interface Versioned<Body> {
  readonly body: Body;
  readonly etag: string | null;
}

function headersOf(options: RequestOptions): Record<string, string> {
  const headers: Record<string, string> = { accept: 'application/json' };
  if (options.body !== undefined) headers['content-type'] = 'application/json';
  if (options.ifMatch !== undefined) headers['if-match'] = options.ifMatch;
  return headers;
}

async function send(path: string, options: RequestOptions): Promise<Response> {
  try {
    return await fetch(path, {
      method: options.method ?? 'GET',
      headers: headersOf(options),
      credentials: 'same-origin',
      ...(options.body === undefined ? {} : { body: JSON.stringify(options.body) }),
      ...(options.signal === undefined ? {} : { signal: options.signal }),
    });
  } catch (thrown) {
    if (thrown instanceof DOMException && thrown.name === 'AbortError') throw thrown;
    throw offlineFailure();
  }
}

async function jsonOf(response: Response): Promise<unknown> {
  const text = await response.text();
  if (text === '') return undefined;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined; // told as unreadable by whoever asked for a shape
  }
}

/** The shape that a body has, or a failure that says where it does not. */
export function readAs<Schema extends z.ZodType>(schema: Schema, body: unknown): z.output<Schema> {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  const first = parsed.error.issues[0];
  throw new RequestFailed(
    'unreadable',
    `The server sent something unexpected${first === undefined ? '' : ` at ${first.path.join('.')}`}. Reload the page; if it stays, the server and this page are of different versions.`,
  );
}

/** The body of a 2xx response in the shape of `schema`, with its ETag. */
export async function requestVersioned<Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  options: RequestOptions = {},
): Promise<Versioned<z.output<Schema>>> {
  const response = await send(path, options);
  const body = await jsonOf(response);
  if (!response.ok) throw failureOf(response.status, body);
  return { body: readAs(schema, body), etag: response.headers.get('etag') };
}

/** The body of a 2xx response in the shape of `schema`. */
export async function request<Schema extends z.ZodType>(
  schema: Schema,
  path: string,
  options: RequestOptions = {},
): Promise<z.output<Schema>> {
  return (await requestVersioned(schema, path, options)).body;
}

/** Done on a 2xx response, whatever its body. */
export async function requestDone(path: string, options: RequestOptions = {}): Promise<void> {
  const response = await send(path, options);
  if (!response.ok) throw failureOf(response.status, await jsonOf(response));
}

/** The text of a 2xx response. */
export async function requestText(path: string, options: RequestOptions = {}): Promise<string> {
  const response = await send(path, options);
  if (!response.ok) throw failureOf(response.status, await jsonOf(response));
  return response.text();
}

/** A file as the server names it. */
export interface ReceivedFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly headers: Headers;
}

const namePattern = /filename\*=UTF-8''([^;]+)/;

/** The file of a 2xx response. */
export async function requestFile(path: string, options: RequestOptions = {}): Promise<ReceivedFile> {
  const response = await send(path, options);
  if (!response.ok) throw failureOf(response.status, await jsonOf(response));
  const name = namePattern.exec(response.headers.get('content-disposition') ?? '')?.[1] ?? 'file';
  return {
    name: decodeURIComponent(name),
    bytes: new Uint8Array(await response.arrayBuffer()),
    headers: response.headers,
  };
}
