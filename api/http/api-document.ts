import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { z } from 'zod';

/** JSON Schema of a contract schema, as it stands before brands and defaults. */
const convert = (schema: unknown): { schema: unknown } | undefined =>
  schema instanceof z.ZodType
    ? { schema: z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any', override: dropDialect }) }
    : undefined;

function dropDialect({ jsonSchema }: { jsonSchema: z.core.JSONSchema.BaseSchema }): void {
  delete jsonSchema.$schema;
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
  SwaggerModule.setup('api/docs', app, () => apiDocumentOf(app), { jsonDocumentUrl: 'api/openapi.json', raw: ['json'] });
}
