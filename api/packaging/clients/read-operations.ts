/** An operation of the API as a client calls it. */
export interface Operation {
  id: string;
  summary: string;
  method: string;
  /** Parameters in braces. */
  path: string;
  in_path: string[];
  in_query: string[];
  /** What its body is: JSON, a form with files, bytes of a type; null for none. */
  body: { kind: 'json' } | { kind: 'form'; files: string[]; fields: string[] } | { kind: 'bytes'; type: string } | null;
}

interface Described {
  paths: Record<
    string,
    Record<
      string,
      {
        operationId: string;
        summary: string;
        parameters?: { name: string; in: string }[];
        requestBody?: { content: Record<string, { schema?: { properties?: Record<string, { format?: string }> } }> };
      }
    >
  >;
}

/** Operations of an OpenAPI description, streams of events left out: clients that wait for an answer cannot take them. */
export function readOperations(description: unknown): Operation[] {
  return Object.entries((description as Described).paths).flatMap(([path, methods]) =>
    path.endsWith('/events')
      ? []
      : Object.entries(methods).map(([method, { operationId, summary, parameters = [], requestBody }]) => ({
          id: operationId,
          summary,
          method: method.toUpperCase(),
          path,
          in_path: [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name),
          in_query: parameters.filter((parameter) => parameter.in === 'query').map(({ name }) => name),
          body: bodyOf(requestBody?.content),
        })),
  );
}

function bodyOf(
  content: NonNullable<Described['paths'][string][string]['requestBody']>['content'] | undefined,
): Operation['body'] {
  if (!content) return null;
  const [[type, { schema }]] = Object.entries(content);
  if (type === 'application/json') return { kind: 'json' };
  if (type !== 'multipart/form-data') return { kind: 'bytes', type };
  const properties = Object.entries(schema?.properties ?? {});
  const isFile = ([, { format }]: (typeof properties)[number]) => format === 'binary';
  return {
    kind: 'form',
    files: properties.filter(isFile).map(([name]) => name),
    fields: properties.filter((property) => !isFile(property)).map(([name]) => name),
  };
}

/** `uploadImport` as `upload_import`. */
export function snakeCase(id: string): string {
  return id.replace(/([A-Z])/g, (letter) => `_${letter.toLowerCase()}`);
}
