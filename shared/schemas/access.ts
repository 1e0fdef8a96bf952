import { type Static, Type } from 'typebox';
import { Id, Nullable, UtcInstant, wordOf } from './common.ts';

/**
 * What a device paired with a club's machine may do: everything; the day's session, ratings and capture; the field view with first
 * names; or pseudonymised exports and studies.
 */
export const CLUB_DEVICE_ROLES = ['coach', 'field', 'display', 'scientist'] as const;
/** What one paired with the pages of an archive may do: everything there; or look. */
export const ARCHIVE_DEVICE_ROLES = ['keeper', 'scientist'] as const;
export const DEVICE_ROLES = [...CLUB_DEVICE_ROLES, 'keeper'] as const;
export type DeviceRole = (typeof DEVICE_ROLES)[number];
export const DeviceRoleWord = wordOf(DEVICE_ROLES);

export const Device = Type.Object({
  device_id: Id,
  name: Type.String(),
  role: DeviceRoleWord,
  created_utc: UtcInstant,
  last_used_utc: Nullable(UtcInstant),
  revoked_utc: Nullable(UtcInstant),
});
export type Device = Static<typeof Device>;

export const DeviceBody = Type.Object(
  { name: Type.Optional(Type.String({ minLength: 1, maxLength: 60 })), role: Type.Optional(DeviceRoleWord) },
  { additionalProperties: false },
);

/** Who asks. The view asks this first, and shows its pairing page to a device that is unknown. */
export const AccessState = Type.Object({
  /** True on the machine that the server runs on, where there is no log-in. */
  here: Type.Boolean(),
  role: Nullable(DeviceRoleWord),
  /** Roles that devices of this server may have, the widest first. */
  roles: Type.Array(DeviceRoleWord),
  device: Nullable(Device),
  /** Until when this device may also erase, ask for a person's copy and change consent; null: not now. */
  confirmed_until_utc: Nullable(UtcInstant),
});
export type AccessState = Static<typeof AccessState>;

export const CODE_PURPOSES = ['pair', 'confirm'] as const;

export const CodeBody = Type.Object(
  { purpose: wordOf(CODE_PURPOSES), role: Type.Optional(DeviceRoleWord) },
  { additionalProperties: false },
);

/** A code as the machine's own screen shows it. */
export const AccessCode = Type.Object({
  code: Type.String(),
  purpose: wordOf(CODE_PURPOSES),
  role: Nullable(DeviceRoleWord),
  expires_utc: UtcInstant,
  /** Where a phone opens the pairing page with the code filled in; empty for a code that confirms or without a network. */
  links: Type.Array(Type.String()),
  /** The first link as a QR code, SVG; null without a link. */
  qr_svg: Nullable(Type.String()),
  /** SHA-256 of the certificate authority made by --lan, as a phone shows it; null without one. */
  ca_fingerprint: Nullable(Type.String()),
});
export type AccessCode = Static<typeof AccessCode>;

export const PairBody = Type.Object(
  { code: Type.String({ minLength: 1, maxLength: 20 }), device_name: Type.String({ minLength: 1, maxLength: 60 }) },
  { additionalProperties: false },
);
export const ConfirmBody = Type.Object(
  { code: Type.String({ minLength: 1, maxLength: 20 }) },
  { additionalProperties: false },
);

/** One line of the book of who read, exported, changed or erased what. */
export const AuditEntry = Type.Object({
  audit_id: Id,
  at_utc: UtcInstant,
  device_id: Nullable(Id),
  /** Name of the device; 'this machine' without one. */
  device: Type.String(),
  action: Type.String(),
  operation: Type.String(),
  athlete_id: Nullable(Id),
});
export type AuditEntry = Static<typeof AuditEntry>;
