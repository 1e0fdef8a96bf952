import { type Operation, snakeCase } from './read-operations.ts';

const HEAD = `"""Client of the Cinderlane API, made from its description (version {version}).

Set \`base\` to the server's address; \`session\` is a requests.Session, to which a device's cookie may be added.
A call answers with what the JSON holds, with text, or with bytes, and raises \`Fault\` with the server's own words.
"""
import requests

base = "http://127.0.0.1:7100"
session = requests.Session()


class Fault(Exception):
    """What the server refused, and why."""

    def __init__(self, answer):
        self.code, self.hint = answer.get("code"), answer.get("hint")
        super().__init__(f"{self.code}: {answer.get('message')} {self.hint or ''}".strip())


def _call(method, path, query=None, **body):
    query = {name: value for name, value in (query or {}).items() if value is not None}
    answer = session.request(method, base + path, params=query, **body)
    kind = answer.headers.get("content-type", "")
    if not answer.ok:
        raise Fault(answer.json() if "json" in kind else {"code": answer.status_code, "message": answer.text})
    if "json" in kind:
        return answer.json()
    return answer.text if kind.startswith("text/") else answer.content
`;

/** One module with a function for every operation. */
export function pythonClient(operations: Operation[], version: string): string {
  return `${HEAD.replace('{version}', version)}${operations.map(functionOf).join('')}`;
}

function functionOf({ id, summary, method, path, in_path, in_query, body }: Operation): string {
  const needed = [
    ...in_path,
    ...(body?.kind === 'json' ? ['body'] : []),
    ...(body?.kind === 'bytes' ? ['content'] : []),
  ];
  const named = in_query.map((name) => `${name === 'from' ? 'from_' : name}=None`);
  const form = body?.kind === 'form' ? ['files', '**fields'] : [];
  const parameters = [
    ...needed,
    ...(form.length > 0 ? form : []),
    ...(named.length > 0 && form.length === 0 ? ['*', ...named] : []),
  ];
  const query = `{${in_query.map((name) => `"${name}": ${name === 'from' ? 'from_' : name}`).join(', ')}}`;
  const sent = {
    json: ', json=body',
    form: ', files=files, data=fields',
    bytes: `, data=content, headers={"content-type": "${body?.kind === 'bytes' ? body.type : ''}"}`,
  };
  const says =
    body?.kind === 'form'
      ? `\n\n    files: open files by name (${body.files.join(', ')}); fields: ${body.fields.join(', ')}.\n    `
      : '';
  return `

def ${snakeCase(id)}(${parameters.join(', ')}):
    """${summary}.${says}"""
    return _call("${method}", ${in_path.length > 0 ? 'f' : ''}"${path}"${in_query.length > 0 ? `, ${query}` : ''}${body ? sent[body.kind] : ''})
`;
}
