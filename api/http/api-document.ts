import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { z } from 'zod';
import * as contract from '../../contract/index.ts';

/** The contract's own names of its schemas. */
const names: ReadonlyMap<unknown, string> = new Map(Object.entries(contract).map(([name, schema]) => [schema, name]));

/** JSON Schema of a contract schema, as it stands before brands and defaults. */
function jsonSchemaOf(schema: z.ZodType): Record<string, unknown> {
  const described = Object.entries(z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }));
  return Object.fromEntries(described.filter(([keyword]) => keyword !== '$schema'));
}

/** What a route names by the contract stands once, under that name, and is referred to. */
function convert(schema: unknown): { schema: unknown; components?: Record<string, unknown> } | undefined {
  if (!(schema instanceof z.ZodType)) return undefined;
  const name = names.get(schema);
  if (name === undefined || name === 'uuid') return { schema: jsonSchemaOf(schema) };
  return { schema: { $ref: `#/components/schemas/${name}` }, components: { [name]: jsonSchemaOf(schema) } };
}

/** The OpenAPI 3.1 document of every route. */
export function apiDocumentOf(app: NestFastifyApplication): OpenAPIObject {
  const about = new DocumentBuilder()
    .setTitle('Heddle')
    .setDescription('Every refusal is an RFC 9457 problem with a code.')
    .setVersion('1')
    .setOpenAPIVersion('3.1.0')
    .addCookieAuth('heddle.session_token')
    .build();
  return SwaggerModule.createDocument(app, about, { standardSchemaConverter: convert });
}

/** Serves the document and readable pages of it. */
export function serveApiDocument(app: NestFastifyApplication): void {
  SwaggerModule.setup('api/docs', app, () => apiDocumentOf(app), {
    jsonDocumentUrl: 'api/openapi.json',
    raw: ['json'],
  });
}
