import { dateLocale, phrasesOf } from '../../app/language.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { Device, DeviceRole } from '../../../shared/schemas/access.ts';
import { faultOf } from '../../client.ts';
import { SelectField } from '../../parts/select-field.tsx';
import { accessApi, roleChoices } from './access-api.ts';

const t = phrasesOf('access', accessWords);

interface DeviceLineProps {
  device: Device;
  /** What devices of this server may be. */
  roles: readonly DeviceRole[];
  mayChange: boolean;
  onChanged: () => Promise<void>;
  onFault: (fault: Fault) => void;
}

/** One paired device: name, role, last use, and a way to revoke it. */
export function DeviceLine({ device, roles, mayChange, onChanged, onFault }: DeviceLineProps) {
  const change = (work: Promise<unknown>) => work.then(onChanged, (error) => onFault(faultOf(error)));
  const { device_id, name, role, created_utc, last_used_utc, revoked_utc } = device;
  return (
    <li class="access-device">
      <div>
        <strong>{name}</strong>
        <p class="small quiet">
          {t('paired_last_used', { day: dayOf(created_utc) })}
          {last_used_utc ? new Date(last_used_utc).toLocaleString(dateLocale()) : t('never')}
          {revoked_utc && t('revoked', { day: dayOf(revoked_utc) })}
        </p>
      </div>
      {mayChange ? (
        <>
          <SelectField
            label={t('role_of', { name })}
            quiet
            value={role}
            options={roleChoices(roles)}
            onChange={(next) => change(accessApi.change(device_id, { role: next }))}
          />
          <button type="button" onClick={() => change(accessApi.revoke(device_id))}>
            {t('revoke')}
          </button>
        </>
      ) : (
        <span>{revoked_utc ? t('revoked_2') : t(`role_${role}`)}</span>
      )}
    </li>
  );
}

function dayOf(utc: string): string {
  return new Date(utc).toLocaleDateString(dateLocale());
}
