import type { AccessCode, AccessState, AuditEntry, Device, DeviceRole } from '../../../shared/schemas/access.ts';
import { client } from '../../client.ts';

export const accessPaths = {
  me: '/access/me',
  devices: '/access/devices',
  audit: '/access/audit?limit=50',
  authority: '/api/access/authority.crt',
};

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

/** Roles as people read them, with what each may do. */
export const ROLE_CHOICES: { value: DeviceRole; label: string; may: string }[] = [
  { value: 'coach', label: 'Coach', may: 'everything; erasing and copies of a person need a fresh code' },
  { value: 'field', label: 'Field', may: "the day's sessions, ratings, times and live capture" },
  { value: 'display', label: 'Display', may: 'the field screen of the day, with first names only' },
  { value: 'scientist', label: 'Scientist', may: 'pseudonymised exports and agreement studies' },
];
