import { type Operation, snakeCase } from './read-operations.ts';

const HEAD = `# Client of the Cinderlane API, made from its description (version {version}). Needs httr and jsonlite.
# Set cinderlane$base to the server's address. A call answers with lists and data frames, with text, or with raw bytes,
# and stops with the server's own words.

cinderlane <- new.env()
cinderlane$base <- "http://127.0.0.1:7100"

.call <- function(method, path, query = list(), body = NULL, encode = "json", type = NULL) {
  query <- query[!vapply(query, is.null, logical(1))]
  answer <- httr::VERB(method, paste0(cinderlane$base, path), query = query, body = body, encode = encode,
                       if (!is.null(type)) httr::content_type(type))
  kind <- httr::http_type(answer)
  read <- function() jsonlite::fromJSON(httr::content(answer, "text", encoding = "UTF-8"))
  if (httr::http_error(answer)) {
    fault <- if (grepl("json", kind)) read() else list(code = httr::status_code(answer), message = "")
    stop(paste0(fault$code, ": ", fault$message, " ", fault$hint), call. = FALSE)
  }
  if (grepl("json", kind)) return(read())
  if (startsWith(kind, "text/")) httr::content(answer, "text", encoding = "UTF-8") else httr::content(answer, "raw")
}
`;

/** One script with a function for every operation. */
export function rClient(operations: Operation[], version: string): string {
  return `${HEAD.replace('{version}', version)}${operations.map(functionOf).join('')}`;
}

function functionOf({ id, summary, method, path, in_path, in_query, body }: Operation): string {
  const needed = [
    ...in_path,
    ...(body?.kind === 'json' ? ['body'] : []),
    ...(body?.kind === 'bytes' ? ['content'] : []),
  ];
  const form = body?.kind === 'form' ? ['...'] : [];
  const parameters = [...needed, ...form, ...in_query.map((name) => `${name} = NULL`)];
  const pieces = path.split(/\{(\w+)\}/).map((piece, i) => (i % 2 === 0 ? `"${piece}"` : piece));
  const address = pieces.filter((piece) => piece !== '""');
  const sent = {
    json: ', body = jsonlite::toJSON(body, auto_unbox = TRUE, null = "null"), encode = "raw", type = "application/json"',
    form: ', body = list(...), encode = "multipart"',
    bytes: `, body = content, encode = "raw", type = "${body?.kind === 'bytes' ? body.type : ''}"`,
  };
  const query = in_query.length > 0 ? `, query = list(${in_query.map((name) => `${name} = ${name}`).join(', ')})` : '';
  const says =
    body?.kind === 'form'
      ? `\n# Files with httr::upload_file: ${body.files.join(', ')}. Fields: ${body.fields.join(', ')}.`
      : '';
  return `
# ${summary}.${says}
${snakeCase(id)} <- function(${parameters.join(', ')}) {
  .call("${method}", ${address.length > 1 ? `paste0(${address.join(', ')})` : address[0]}${query}${body ? sent[body.kind] : ''})
}
`;
}
