import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../app/language.ts';
import type { ComponentChildren } from 'preact';
import type { Resource } from '../app/use-resource.ts';
import { FaultBox } from './fault-box.tsx';

const common = phrasesOf('common', commonWords);

interface ResourceViewProps<T> {
  resource: Resource<T>;
  /** What is being waited for, in words: 'sessions'. */
  name: string;
  children: (value: T) => ComponentChildren;
}

/** Waiting, fault or content of a resource. A fault after a first answer leaves the answer on screen. */
export function ResourceView<T>({ resource, name, children }: ResourceViewProps<T>) {
  return (
    <>
      {resource.fault && <FaultBox fault={resource.fault} onRetry={() => void resource.reload()} />}
      {resource.value !== null
        ? children(resource.value)
        : resource.loading && (
            <p class="quiet" role="status">
              {common('reading', { what: name })}
            </p>
          )}
    </>
  );
}
