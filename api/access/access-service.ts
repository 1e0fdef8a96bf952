import { createRequire } from 'node:module';
import type QrCode from 'qrcode';
import { FaultError, fault } from '../../shared/fault.ts';
import { type AccessCode, CLUB_DEVICE_ROLES, type DeviceRole } from '../../shared/schemas/access.ts';
import { type CodePurpose, PairingCodes } from './pairing-codes.ts';

/** Loaded when a code is shown. */
const qrCode = () => createRequire(import.meta.url)('qrcode') as typeof QrCode;

/** How long a confirmed device may do what needs a fresh code. */
const CONFIRMED_FOR_MS = 10 * 60_000;

/** Where the server can be reached from the network; the server fills it in once it listens. */
export interface NetworkPlace {
  /** `https://192.168.1.20:7443`, one an address; empty while it listens on this machine alone. */
  addresses: string[];
  /** SHA-256 of the authority made by --lan. */
  ca_fingerprint: string | null;
  /** PEM of that authority. */
  ca_pem: string | null;
}

/** Codes of one server, and how they are shown. */
export class AccessService {
  readonly codes = new PairingCodes();
  readonly place: NetworkPlace = { addresses: [], ca_fingerprint: null, ca_pem: null };
  /** What devices of this server may be, the widest role first. */
  readonly roles: readonly DeviceRole[];

  constructor(roles: readonly DeviceRole[] = CLUB_DEVICE_ROLES) {
    this.roles = roles;
  }

  /** @throws FaultError OPTION_UNREADABLE for a role of another kind of server */
  checkRole(role: DeviceRole): void {
    if (!this.roles.includes(role))
      throw new FaultError(
        fault('OPTION_UNREADABLE.word', { field: 'role', text: role, words: [...this.roles] }, { role }),
      );
  }

  /** A new code with the address, and its QR code, that opens the pairing page with the code filled in. */
  async issue(purpose: CodePurpose, role: DeviceRole | null): Promise<AccessCode> {
    if (role !== null) this.checkRole(role);
    const { code, expires_utc } = this.codes.issue(purpose, role);
    const links = purpose === 'pair' ? this.place.addresses.map((address) => `${address}/#/pair?code=${code}`) : [];
    const qr_svg = links[0] ? await qrCode().toString(links[0], { type: 'svg', margin: 2 }) : null;
    return { code, purpose, role, expires_utc, links, qr_svg, ca_fingerprint: this.place.ca_fingerprint };
  }

  /** The same for a terminal: blocks of text. */
  async issueForTerminal(role: DeviceRole): Promise<string> {
    const { code, links } = await this.issue('pair', role);
    const picture = links[0] ? await qrCode().toString(links[0], { type: 'utf8', margin: 2 }) : '';
    return `${picture}\npairing code ${code}, role ${role}, good for two minutes and one device\n${links.join('\n')}\n`;
  }

  confirmedUntil(now = Date.now()): string {
    return new Date(now + CONFIRMED_FOR_MS).toISOString();
  }
}
