import { type Fault, FaultError } from '../shared/fault.ts';

/** A refusal of the API, or the reason why it could not be reached. */
export class ApiFault extends Error implements Fault {
  readonly code: string;
  readonly where: Fault['where'];
  readonly hint: string;
  /** HTTP status; 0 when no answer came. */
  readonly status: number;

  constructor(fault: Fault, status: number) {
    super(fault.message);
    this.name = 'ApiFault';
    this.code = fault.code;
    this.where = fault.where;
    this.hint = fault.hint;
    this.status = status;
  }
}

/** Turns anything thrown into the one fault shape, for display. */
export function faultOf(error: unknown): Fault {
  if (error instanceof ApiFault) return error;
  if (error instanceof FaultError) return error.toFault();
  const message = error instanceof Error ? error.message : String(error);
  return {
    code: 'VIEW_FAILED',
    message: `This page failed: ${message}`,
    where: {},
    hint: 'Reload the page. Nothing stored was changed.',
  };
}

async function send(method: string, path: string, body?: BodyInit | null, headers?: HeadersInit): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(`/api${path}`, { method, body, headers });
  } catch {
    throw new ApiFault(
      {
        code: 'SERVER_UNREACHABLE',
        message: 'The Cinderlane server did not answer.',
        where: { path: `/api${path}` },
        hint: 'Check that it is running and that this device is on the same network, then try again.',
      },
      0,
    );
  }
  if (answer.ok) return answer;
  throw new ApiFault(await readFault(answer, path), answer.status);
}

async function readFault(answer: Response, path: string): Promise<Fault> {
  try {
    const body = (await answer.json()) as Partial<Fault>;
    if (typeof body.message === 'string') {
      return {
        code: body.code ?? 'UNKNOWN',
        message: body.message,
        where: body.where ?? {},
        hint: body.hint ?? '',
      };
    }
  } catch {
    // Not the fault shape: say what is known.
  }
  return {
    code: 'ANSWER_UNREADABLE',
    message: `The server answered ${answer.status} without saying why.`,
    where: { path: `/api${path}` },
    hint: "Look at the server's output.",
  };
}

const JSON_HEADERS = { 'content-type': 'application/json' };

/** Calls on the API. Paths start behind `/api`; every failure is an `ApiFault`. */
export const client = {
  async get<T>(path: string): Promise<T> {
    return (await (await send('GET', path)).json()) as T;
  },
  async post<T>(path: string, body?: unknown): Promise<T> {
    const sent =
      body === undefined ? await send('POST', path) : await send('POST', path, JSON.stringify(body), JSON_HEADERS);
    return (await sent.json()) as T;
  },
  async patch<T>(path: string, body: unknown): Promise<T> {
    return (await (await send('PATCH', path, JSON.stringify(body), JSON_HEADERS)).json()) as T;
  },
  async put<T>(path: string, body: unknown): Promise<T> {
    return (await (await send('PUT', path, JSON.stringify(body), JSON_HEADERS)).json()) as T;
  },
  async remove(path: string): Promise<void> {
    await send('DELETE', path);
  },
  /** Sends files and fields; the answer is JSON. */
  async upload<T>(path: string, form: FormData): Promise<T> {
    return (await (await send('POST', path, form)).json()) as T;
  },
  async bytes(path: string): Promise<ArrayBuffer> {
    return (await send('GET', path)).arrayBuffer();
  },
};
