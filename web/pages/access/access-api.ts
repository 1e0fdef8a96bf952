import { phrasesOf } from '../../app/language.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import type { AccessCode, AccessState, AuditEntry, Device, DeviceRole } from '../../../shared/schemas/access.ts';
import { client } from '../../client.ts';

const t = phrasesOf('access', accessWords);

export const accessPaths = {
  me: '/access/me',
  devices: '/access/devices',
  audit: '/access/audit?limit=50',
  authority: '/api/access/authority.crt',
};

/** Whether it may change what an archive's server holds: a keeper's device, or the machine itself. */
export const keepsArchive = (me: AccessState | null): boolean => me?.role === 'keeper' || me?.here === true;

export type Devices = { items: Device[] };
export type Audit = { items: AuditEntry[] };

export const accessApi = {
  code: (purpose: 'pair' | 'confirm', role?: DeviceRole) =>
    client.post<AccessCode>('/access/codes', role ? { purpose, role } : { purpose }),
  pair: (code: string, device_name: string) => client.post<AccessState>('/access/pair', { code, device_name }),
  confirm: (code: string) => client.post<AccessState>('/access/confirm', { code }),
  leave: () => client.post('/access/leave'),
  change: (device_id: number, change: { name?: string; role?: DeviceRole }) =>
    client.patch<Device>(`/access/devices/${device_id}`, change),
  revoke: (device_id: number) => client.remove(`/access/devices/${device_id}`),
};

/** Roles of a server's devices as people read them, with what each may do. */
export const roleChoices = (roles: readonly DeviceRole[]): { value: DeviceRole; label: string; may: string }[] =>
  roles.map((value) => ({
    value,
    label: t(`role_${value}`),
    may: value === 'scientist' && roles.includes('keeper') ? t('looks_at_archive') : t(`may_${value}`),
  }));
