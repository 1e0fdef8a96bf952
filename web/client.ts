import { type Fault, FaultError, fault, type ToldFault } from '../shared/fault.ts';

/** A refusal of the API, or the reason why it could not be reached. */
export class ApiFault extends FaultError {
  /** HTTP status; 0 when no answer came. */
  readonly status: number;

  constructor(fault: Fault, status: number) {
    super(fault);
    this.name = 'ApiFault';
    this.status = status;
  }
}

/** Turns anything thrown into the one fault shape, for display. */
export function faultOf(error: unknown): Fault {
  if (error instanceof FaultError) return error.toFault();
  return fault('VIEW_FAILED', { why: error instanceof Error ? error.message : String(error) });
}

async function send(method: string, path: string, body?: BodyInit | null, headers?: HeadersInit): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(`/api${path}`, { method, body, headers });
  } catch {
    throw new ApiFault(fault('SERVER_UNREACHABLE', {}, { path: `/api${path}` }), 0);
  }
  if (answer.ok) return answer;
  const refusal = readFault(await answer.text(), answer.status, path);
  if (refusal.code === 'DEVICE_UNKNOWN') askToPair();
  throw new ApiFault(refusal, answer.status);
}

/** A device that is not paired, or no longer, can do nothing else than pair. */
function askToPair(): void {
  if (!/^#\/(?:pair|trust)(?:\?|$)/.test(location.hash)) location.hash = '#/pair';
}

function readFault(text: string, status: number, path: string): Fault {
  try {
    const body = JSON.parse(text) as Partial<ToldFault>;
    if (typeof body.message === 'string') {
      return {
        code: body.code ?? 'ANSWER_UNREADABLE',
        message: body.message,
        where: body.where ?? {},
        hint: body.hint ?? '',
      };
    }
  } catch {
    // Not the fault shape: say what is known.
  }
  return fault('ANSWER_UNREADABLE', { status }, { path: `/api${path}` });
}

export interface UploadOptions {
  /** Share of the bytes that have travelled, 0 to 1. */
  onProgress?: (share: number) => void;
  signal?: AbortSignal;
}

/**
 * Sends files and fields; the answer is JSON. By XMLHttpRequest, the one way in which a browser tells how far it is.
 * @throws ApiFault; with code IMPORT_CANCELLED when it was aborted
 */
function upload<T>(path: string, form: FormData, { onProgress, signal }: UploadOptions = {}): Promise<T> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    const where = { path: `/api${path}` };
    request.open('POST', `/api${path}`);
    request.upload.onprogress = ({ loaded, total }) => onProgress?.(total > 0 ? loaded / total : 0);
    request.onload = () => {
      const { status, responseText } = request;
      if (status >= 200 && status < 300) resolve(JSON.parse(responseText) as T);
      else reject(new ApiFault(readFault(responseText, status, path), status));
    };
    request.onerror = () => reject(new ApiFault(fault('SERVER_UNREACHABLE', {}, where), 0));
    request.onabort = () => {
      reject(new ApiFault(fault('IMPORT_CANCELLED.sending', {}, where), 0));
    };
    signal?.addEventListener('abort', () => request.abort());
    if (signal?.aborted) request.onabort(new ProgressEvent('abort'));
    else request.send(form);
  });
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
  /** Sends bytes of some type; the answer is JSON. */
  async postBytes<T>(path: string, bytes: Blob, type: string): Promise<T> {
    return (await (await send('POST', path, bytes, { 'content-type': type })).json()) as T;
  },
  /** Sends one file by itself, under the type that it has. */
  async putFile(path: string, file: Blob): Promise<void> {
    await send('PUT', path, file, { 'content-type': file.type || 'image/jpeg' });
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
  upload,
  /** Sends a request whose answer is a file. A refusal is thrown like any other, never handed over as the file. */
  async postForFile(path: string, body: unknown): Promise<Blob> {
    return (await send('POST', path, JSON.stringify(body), JSON_HEADERS)).blob();
  },
  async bytes(path: string): Promise<ArrayBuffer> {
    return (await send('GET', path)).arrayBuffer();
  },
};
