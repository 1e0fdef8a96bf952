import type { Fault } from '../../../shared/fault.ts';
import type { Device } from '../../../shared/schemas/access.ts';
import { faultOf } from '../../client.ts';
import { SelectField } from '../../parts/select-field.tsx';
import { accessApi, ROLE_CHOICES } from './access-api.ts';

interface DeviceLineProps {
  device: Device;
  mayChange: boolean;
  onChanged: () => Promise<void>;
  onFault: (fault: Fault) => void;
}

/** One paired device: name, role, last use, and a way to revoke it. */
export function DeviceLine({ device, mayChange, onChanged, onFault }: DeviceLineProps) {
  const change = (work: Promise<unknown>) => work.then(onChanged, (error) => onFault(faultOf(error)));
  const { device_id, name, role, created_utc, last_used_utc, revoked_utc } = device;
  return (
    <li class="access-device">
      <div>
        <strong>{name}</strong>
        <p class="small quiet">
          paired {dayOf(created_utc)}, last used {last_used_utc ? new Date(last_used_utc).toLocaleString() : 'never'}
          {revoked_utc && `, revoked ${dayOf(revoked_utc)}`}
        </p>
      </div>
      {mayChange ? (
        <>
          <SelectField
            label={`Role of ${name}`}
            quiet
            value={role}
            options={ROLE_CHOICES}
            onChange={(next) => change(accessApi.change(device_id, { role: next }))}
          />
          <button type="button" onClick={() => change(accessApi.revoke(device_id))}>
            Revoke
          </button>
        </>
      ) : (
        <span>{revoked_utc ? 'revoked' : role}</span>
      )}
    </li>
  );
}

function dayOf(utc: string): string {
  return new Date(utc).toLocaleDateString();
}
